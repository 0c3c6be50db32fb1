"""Marks of one group pushed apart until none touches another, inside the group's space; all lengths are points."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from lessonkit.writers.ways import XY

_SEEN = 0.01
"""Points of overlap that nobody sees."""


@dataclass(slots=True)
class Mark:
    """A mark on paper: its middle, half its width and height, whether it is round, and how easily it moves.

    Of two marks that touch, the one with the greater ``ease`` moves aside. ``gap`` is kept free around it, of two marks
    the smaller one's; ``edge`` to the sides of its space.
    """

    x: float
    y: float
    across: float
    up: float
    round: bool = False
    ease: int = 0
    gap: float = 0.0
    edge: float = 0.0


Pair = tuple[int, int]


def push_apart(marks: Sequence[Mark], pairs: Sequence[Pair], size: XY, turns: int) -> bool:
    """Move marks inside a space of a size until no pair touches; tell whether a number of turns was enough."""
    for turn in range(turns):
        even = turn > turns // 3
        pushed = [pair for pair in pairs if _push(marks[pair[0]], marks[pair[1]], even=even)]
        if not pushed:
            return True
        keep_in(marks, size)
    return False


def near_pairs(places: Sequence[XY], reach: float) -> Iterator[Pair]:
    """Yield the pairs of places that are nearer than ``reach`` along both sides of a page."""
    order = sorted(range(len(places)), key=lambda place: places[place])
    for position, one in enumerate(order):
        x, y = places[one]
        for other in order[position + 1 :]:
            if places[other][0] - x > reach:
                break
            if abs(places[other][1] - y) <= reach:
                yield min(one, other), max(one, other)


def keep_in(marks: Sequence[Mark], size: XY) -> None:
    """Move marks into their space, as far as it is large enough."""
    for mark in marks:
        mark.x = _kept(mark.x, mark.across, size[0], mark.edge)
        mark.y = _kept(mark.y, mark.up, size[1], mark.edge)


def _kept(at: float, half: float, side: float, edge: float) -> float:
    edge += half
    if 2 * edge <= side:
        return min(max(at, edge), side - edge)
    return min(max(at, half), max(half, side - half))


def _push(one: Mark, other: Mark, *, even: bool) -> bool:
    """Move two marks apart where they touch; tell whether they did."""
    gap = min(one.gap, other.gap)
    across = one.across + other.across + gap - abs(one.x - other.x)
    if across <= _SEEN:
        return False
    up = one.up + other.up + gap - abs(one.y - other.y)
    if up <= _SEEN:
        return False
    deep, toward_x, toward_y = _way_out(one, other, across, up, gap)
    if deep <= _SEEN:
        return False
    share = 0.5 if even or one.ease == other.ease else float(one.ease > other.ease)
    one.x += toward_x * deep * share
    one.y += toward_y * deep * share
    other.x -= toward_x * deep * (1 - share)
    other.y -= toward_y * deep * (1 - share)
    return True


def _way_out(one: Mark, other: Mark, across: float, up: float, gap: float) -> tuple[float, float, float]:
    """Return how deep two marks overlap, and the direction in which the first leaves the other soonest."""
    x, y = one.x - other.x, one.y - other.y
    if one.round and other.round:
        away = hypot(x, y)
        deep = one.across + other.across + gap - away
        return (deep, x / away, y / away) if away > _SEEN else (deep, 1.0, 0.0)
    if across <= up:
        return across, 1.0 if x >= 0 else -1.0, 0.0
    return up, 0.0, 1.0 if y >= 0 else -1.0
