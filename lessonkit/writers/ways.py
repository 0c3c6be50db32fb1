"""Ways as they are drawn: gentle bends made smooth, and ends that stop at the edge of whoever stands there."""

from bisect import bisect_left
from collections.abc import Iterable
from itertools import pairwise
from math import acos, degrees, dist, hypot, sqrt

XY = tuple[float, float]
Path = tuple[XY, ...]
Disc = tuple[float, float, float]
"""Centre and radius of something that stands on the floor."""
_SHARP = 60.0
"""Degrees of turn from which a corner was meant as one."""
_STEPS = 8
_SHARES = tuple(step / _STEPS for step in range(1, _STEPS + 1))
_LONGEST_CUT = 0.35
"""The largest share of a way that may be cut off at one end."""


def smooth(points: Path) -> Path:
    """Return the way with its gentle bends drawn as curves through the same points (Catmull and Rom); corners stay."""
    drawn: list[XY] = [points[0]]
    start = 0
    for place in range(1, len(points)):
        last = place == len(points) - 1
        if last or _turn(points[place - 1], points[place], points[place + 1]) >= _SHARP:
            drawn.extend(_curve(points[start : place + 1]))
            start = place
    return tuple(drawn)


class Standing:
    """What stands on a floor, found by its place."""

    def __init__(self, discs: Iterable[Disc]) -> None:
        self._discs = sorted(discs)
        self._largest = max((radius for _, _, radius in self._discs), default=0.0)

    def around(self, x: float, y: float) -> list[Disc]:
        """Return the discs that hold a point."""
        first = bisect_left(self._discs, (x - self._largest,))
        after = bisect_left(self._discs, (x + self._largest,), first)
        return [disc for disc in self._discs[first:after] if hypot(disc[0] - x, disc[1] - y) < disc[2]]


def trim(points: Path, standing: Standing, gap: float) -> Path:
    """Return the way without its ends inside the discs it starts and stops in, and a gap further."""
    starting, stopping = standing.around(*points[0]), standing.around(*points[-1])
    cut = _cut(points, stopping, gap)
    return _cut(cut[::-1], starting, gap)[::-1]


def length(points: Path) -> float:
    """Return the length of a way."""
    return sum(dist(one, other) for one, other in pairwise(points))


def _turn(before: XY, at: XY, after: XY) -> float:
    """Return by how many degrees a way turns at a point."""
    one, other = (at[0] - before[0], at[1] - before[1]), (after[0] - at[0], after[1] - at[1])
    sizes = hypot(*one) * hypot(*other)
    if not sizes:
        return 180.0
    return degrees(acos(max(-1.0, min(1.0, (one[0] * other[0] + one[1] * other[1]) / sizes))))


def _curve(points: Path) -> list[XY]:
    """Return the points after the first of a curve through all points."""
    if len(points) < 3:
        return list(points[1:])
    ends = (points[0], *points, points[-1])
    drawn: list[XY] = []
    for before, start, end, after in zip(ends, points, points[1:], ends[3:], strict=False):
        across, up = ([corner[axis] for corner in (before, start, end, after)] for axis in (0, 1))
        drawn.extend(zip(_along(*across), _along(*up), strict=True))
    return drawn


def _along(before: float, start: float, end: float, after: float) -> list[float]:
    cubed = 3 * start - before - 3 * end + after
    squared = 2 * before - 5 * start + 4 * end - after
    first = end - before
    return [round(start + 0.5 * share * (first + share * (squared + share * cubed)), 4) for share in _SHARES]


def _cut(points: Path, discs: list[Disc], gap: float) -> Path:
    """Cut the end of a way off where it enters the first of the discs around its end."""
    if not discs:
        return points
    whole = length(points)
    kept = points
    for x, y, radius in discs:
        cut = without_end(kept, (x, y), radius + gap)
        kept = cut if whole - length(cut) <= _LONGEST_CUT * whole else kept
    return kept


def without_end(points: Path, centre: XY, reach: float) -> Path:
    """Return a way without what lies within reach of a centre at its end."""
    kept = list(points)
    while len(kept) > 2 and dist(kept[-2], centre) < reach:
        kept.pop()
    inner, outer = kept[-1], kept[-2]
    if dist(inner, centre) >= reach or dist(outer, centre) <= reach:
        return tuple(kept)
    across, up = inner[0] - outer[0], inner[1] - outer[1]
    share = _share_outside((outer[0] - centre[0], outer[1] - centre[1]), (across, up), reach)
    kept[-1] = (round(outer[0] + share * across, 4), round(outer[1] + share * up, 4))
    return tuple(kept)


def _share_outside(start: XY, step: XY, reach: float) -> float:
    """Return the share of a step, from outside a disc around the origin to its inside, at which it meets the edge."""
    square = step[0] ** 2 + step[1] ** 2
    half = start[0] * step[0] + start[1] * step[1]
    rest = start[0] ** 2 + start[1] ** 2 - reach**2
    return (-half - sqrt(max(0.0, half**2 - square * rest))) / square
