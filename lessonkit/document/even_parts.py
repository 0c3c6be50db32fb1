"""Columns or rows that are too many for one table, parted so that its parts are about equally long."""

from collections.abc import Sequence
from itertools import pairwise
from typing import TypeVar

Thing = TypeVar("Thing")


def even_parts(things: Sequence[Thing], most: int) -> tuple[tuple[Thing, ...], ...]:
    """Return things in as few parts as hold ``most`` each; no part is more than one longer than another."""
    count = -(-len(things) // most)
    edges = [-(-len(things) * place // count) for place in range(count + 1)] if count else [0]
    return tuple(tuple(things[start:end]) for start, end in pairwise(edges))
