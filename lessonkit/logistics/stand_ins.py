"""Sharing out what may stand in for what is missing, so that as little as possible stays missing.

Each missing item first takes its own stand-ins in the catalogue's order; where that leaves something over, items pass
stand-ins on to each other as long as it helps (augmenting paths, Ford and Fulkerson 1956).
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise


def allot(
    missing: Mapping[str, int], offers: Mapping[str, Sequence[str]], spare: Mapping[str, int]
) -> dict[str, tuple[tuple[str, int], ...]]:
    """Return for every missing item the stand-ins it takes, with how many of each.

    ``offers`` lists what may stand in for an item, the best first; ``spare`` is how many of those are free.
    """
    taken: dict[str, dict[str, int]] = {item: {} for item in missing}
    left = {item: max(0, count) for item, count in spare.items()}
    for item, count in missing.items():
        still = count
        while still and (path := _path(item, offers, left, taken)):
            still -= _pass_on(path, still, left, taken)
    return {
        item: tuple((other, used[other]) for other in offers[item] if used.get(other)) for item, used in taken.items()
    }


def _path(
    item: str, offers: Mapping[str, Sequence[str]], left: Mapping[str, int], taken: Mapping[str, Mapping[str, int]]
) -> list[tuple[str, str]]:
    """Return the shortest chain of (missing item, stand-in): the last stand-in is free, the others are passed on."""
    seen = {item}
    waiting: list[tuple[str, list[tuple[str, str]]]] = [(item, [])]
    for asking, chain in waiting:
        for other in offers[asking]:
            if left.get(other, 0) > 0:
                return [*chain, (asking, other)]
        for other in offers[asking]:
            for holder in taken:
                if holder not in seen and taken[holder].get(other, 0) > 0:
                    seen.add(holder)
                    waiting.append((holder, [*chain, (asking, other)]))
    return []


def _pass_on(
    path: Sequence[tuple[str, str]], wanted: int, left: dict[str, int], taken: Mapping[str, dict[str, int]]
) -> int:
    """Move as many stand-ins along the chain as it bears, and return how many."""
    held = [taken[holder][other] for (_, other), (holder, _) in pairwise(path)]
    count = min([wanted, left[path[-1][1]], *held])
    for asking, other in path:
        taken[asking][other] = taken[asking].get(other, 0) + count
    for (_, other), (holder, _) in pairwise(path):
        taken[holder][other] -= count
    left[path[-1][1]] -= count
    return count
