"""Orders of stations in which every squad meets each once, and, if balanced, no station always follows the same other.

In a balanced square every station comes directly before every other equally often (Bradley 1958; Williams 1949). An
even number of stations needs one square; an odd number needs two, so twice as many squads or two laps.
"""

from collections import Counter
from collections.abc import Hashable, Sequence
from itertools import pairwise

Row = tuple[int, ...]
"""The stations of one squad in their order, from 1."""


def next_station_square(stations: int) -> tuple[Row, ...]:
    """Return the plain rotation: each squad begins one station further on and always moves to the next."""
    return tuple(tuple((squad + turn) % stations + 1 for turn in range(stations)) for squad in range(stations))


def balanced_square(stations: int) -> tuple[Row, ...]:
    """Return a balanced square: as many rows as stations where these are even, twice as many where they are odd.

    The first row runs 1, 2, last, 3, last but one ...; each further row is the one before, every number moved on by
    one; for an odd number the same rows follow backwards.
    """
    if stations < 2:
        return ((1,),) * stations
    first = [0]
    for step in range(1, stations):
        first.append((step + 1) // 2 if step % 2 else stations - step // 2)
    rows = tuple(tuple((place + shift) % stations + 1 for place in first) for shift in range(stations))
    return rows if stations % 2 == 0 else rows + tuple(row[::-1] for row in rows)


def is_latin(rows: Sequence[Sequence[Hashable]]) -> bool:
    """Tell whether every row holds the same things once each, and every column holds each equally often."""
    if not rows or len({len(row) for row in rows}) != 1:
        return False
    things = set(rows[0])
    size = len(rows[0])
    if len(things) != size or any(set(row) != things for row in rows) or len(rows) % size:
        return False
    each = len(rows) // size
    return all(
        set(Counter(row[place] for row in rows).values()) == {each} and len({row[place] for row in rows}) == size
        for place in range(size)
    )


def is_balanced(rows: Sequence[Sequence[Hashable]]) -> bool:
    """Tell whether rows are Latin and every thing comes directly before every other equally often."""
    if not is_latin(rows):
        return False
    size = len(rows[0])
    neighbours = Counter(pair for row in rows for pair in pairwise(row))
    return len(neighbours) == size * (size - 1) and len(set(neighbours.values())) <= 1
