"""Berger tables: everybody meets everybody once, with an even change of first and second place (Berger 1895).

The order of rounds and games, and who is named first, are those of the tables printed in the chess federation's
handbook (FIDE C.05, annex 1).
"""

Meeting = tuple[int, int]
"""Two sides, from 1; the one named first begins, or plays at home."""


def berger_table(sides: int) -> tuple[tuple[Meeting, ...], ...]:
    """Return the rounds for an even number of sides (2 or more), or for an odd number with the next as the bye.

    Raises ValueError for fewer than two sides.
    """
    if sides < 2:
        raise ValueError("a round robin needs two sides at least")
    even = sides + sides % 2
    return tuple(_round(even, number) for number in range(1, even))


def _round(even: int, number: int) -> tuple[Meeting, ...]:
    """Return a round (from 1): the last side meets the one in the middle, the others pair up around that one."""
    ring = even - 1
    middle = (number - 1) * (even // 2) % ring
    first = (middle + 1, even) if number % 2 else (even, middle + 1)
    others = (((middle + step) % ring + 1, (middle - step) % ring + 1) for step in range(1, even // 2))
    return (first, *others)


def without_bye(rounds: tuple[tuple[Meeting, ...], ...], sides: int) -> tuple[tuple[Meeting, ...], ...]:
    """Return the rounds without the games of sides beyond ``sides``, whose opponents rest."""
    return tuple(tuple(meeting for meeting in games if max(meeting) <= sides) for games in rounds)
