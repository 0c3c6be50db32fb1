"""A smallest part of some things that cannot hold together, found by trying halves before single ones.

The method is the well-known divide and conquer search for a minimal conflict (Junker, AAAI 2004, 167-172).
"""

from collections.abc import Callable, Sequence
from typing import TypeVar

T = TypeVar("T")
Possible = Callable[[Sequence[T]], bool | None]
"""Tells whether things can hold together; None where the effort did not suffice."""


def smallest(possible: Possible[T], kept: tuple[T, ...], rest: tuple[T, ...], *, added: bool) -> tuple[T, ...]:
    """Return a smallest part of ``rest`` that, together with ``kept``, cannot hold.

    ``rest`` and ``kept`` together must not hold. ``added`` says that ``kept`` has grown since it was last tried.
    """
    if added and possible(kept) is False:
        return ()
    if len(rest) == 1:
        return rest
    middle = len(rest) // 2
    first, second = rest[:middle], rest[middle:]
    from_second = smallest(possible, (*kept, *first), second, added=True)
    from_first = smallest(possible, (*kept, *from_second), first, added=bool(from_second))
    return (*from_first, *from_second)
