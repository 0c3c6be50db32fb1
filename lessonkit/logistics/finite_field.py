"""Sums and products of small whole numbers in which every number but 0 divides: the arithmetic behind group tables.

For a prime the numbers 0 to q - 1 are reckoned modulo q. For a power of a prime they stand for polynomials, their
digits to the base of the prime being the coefficients, reckoned modulo one that has no factors (Galois 1830).
"""

from dataclasses import dataclass
from typing import Final

_REDUCING: Final = {
    4: (2, (1, 1, 1)),
    8: (2, (1, 1, 0, 1)),
    9: (3, (1, 0, 1)),
    16: (2, (1, 1, 0, 0, 1)),
    25: (5, (2, 0, 1)),
    27: (3, (1, 2, 0, 1)),
}
"""Order of the field: its prime, and the coefficients of a polynomial without factors, the constant first."""


@dataclass(frozen=True, slots=True)
class Field:
    """A field of ``order`` numbers, with its tables of sums and products."""

    order: int
    sums: tuple[tuple[int, ...], ...]
    products: tuple[tuple[int, ...], ...]


def field_of(order: int) -> Field | None:
    """Return the field of a prime order (any size) or of 4, 8, 9, 16, 25 or 27 numbers; None for any other order."""
    numbers = range(order)
    if order in _REDUCING:
        prime, reducing = _REDUCING[order]
        digits = [_digits(number, prime, len(reducing) - 1) for number in numbers]
        sums = tuple(
            tuple(_number([(a + b) % prime for a, b in zip(one, other, strict=True)], prime) for other in digits)
            for one in digits
        )
        products = tuple(
            tuple(_number(_product(one, other, prime, reducing), prime) for other in digits) for one in digits
        )
        return Field(order, sums, products)
    if order < 2 or any(order % divisor == 0 for divisor in range(2, int(order**0.5) + 1)):
        return None
    return Field(
        order,
        tuple(tuple((a + b) % order for b in numbers) for a in numbers),
        tuple(tuple(a * b % order for b in numbers) for a in numbers),
    )


def _digits(number: int, prime: int, count: int) -> list[int]:
    return [number // prime**place % prime for place in range(count)]


def _number(digits: list[int], prime: int) -> int:
    return sum(digit * prime**place for place, digit in enumerate(digits))


def _product(one: list[int], other: list[int], prime: int, reducing: tuple[int, ...]) -> list[int]:
    degree = len(reducing) - 1
    product = [0] * (2 * degree - 1)
    for place, a in enumerate(one):
        for shift, b in enumerate(other):
            product[place + shift] += a * b
    for place in range(len(product) - 1, degree - 1, -1):
        top = product[place]
        for shift, coefficient in enumerate(reducing):
            product[place - degree + shift] -= top * coefficient
    return [digit % prime for digit in product[:degree]]
