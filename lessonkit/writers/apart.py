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
    meetings = [_meeting(marks[one], marks[other]) for one, other in pairs]
    rooms = _rooms(marks, size)
    for turn in range(turns):
        if not _push(meetings, even=turn > turns // 3):
            return True
        _keep(rooms)
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
    _keep(_rooms(marks, size))


_Room = tuple[Mark, float, float, float, float]
"""A mark and where its middle may be: from left to right, from low to high."""


def _rooms(marks: Sequence[Mark], size: XY) -> list[_Room]:
    return [(mark, *_ends(mark.across, size[0], mark.edge), *_ends(mark.up, size[1], mark.edge)) for mark in marks]


def _ends(half: float, side: float, edge: float) -> tuple[float, float]:
    edge += half
    if 2 * edge <= side:
        return edge, side - edge
    return half, max(half, side - half)


def _keep(rooms: Sequence[_Room]) -> None:
    for mark, left, right, low, high in rooms:
        x, y = mark.x, mark.y
        mark.x = left if x < left else right if x > right else x
        mark.y = low if y < low else high if y > high else y


_Meeting = tuple[Mark, Mark, float, float, bool]
"""Two marks that may not touch, how far apart their middles must be along each side of a page, whether both are round.
"""


def _meeting(one: Mark, other: Mark) -> _Meeting:
    gap = min(one.gap, other.gap)
    return one, other, one.across + other.across + gap, one.up + other.up + gap, one.round and other.round


def _push(meetings: Sequence[_Meeting], *, even: bool) -> bool:
    """Move marks apart that touch, pair by pair; tell whether any did."""
    pushed = False
    for one, other, across, up, both_round in meetings:
        x, y = one.x - other.x, one.y - other.y
        if across - abs(x) <= _SEEN or up - abs(y) <= _SEEN:
            continue
        deep, toward_x, toward_y = _way_out_of_disc(across, x, y) if both_round else _way_out(across, up, x, y)
        if deep > _SEEN:
            pushed = True
            share = 0.5 if even or one.ease == other.ease else float(one.ease > other.ease)
            one.x += toward_x * deep * share
            one.y += toward_y * deep * share
            other.x -= toward_x * deep * (1 - share)
            other.y -= toward_y * deep * (1 - share)
    return pushed


_Out = tuple[float, float, float]
"""How deep two marks overlap, and the direction in which the first leaves the other soonest."""


def _way_out_of_disc(across: float, x: float, y: float) -> _Out:
    away = hypot(x, y)
    deep = across - away
    return (deep, x / away, y / away) if away > _SEEN else (deep, 1.0, 0.0)


def _way_out(across: float, up: float, x: float, y: float) -> _Out:
    across, up = across - abs(x), up - abs(y)
    if across <= up:
        return across, 1.0 if x >= 0 else -1.0, 0.0
    return up, 0.0, 1.0 if y >= 0 else -1.0
