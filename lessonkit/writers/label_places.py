"""Where the words of a drawing have room: beside what they name, never over other words or a symbol."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import ceil, hypot, inf

from lessonkit.document.scene import Area, Label, Segment, Shape, Symbol, Way
from lessonkit.writers.forms import LABEL_POINTS
from lessonkit.writers.letters import words_width
from lessonkit.writers.spread import half_of
from lessonkit.writers.ways import XY

_GAP = 1.5
"""Points between a thing and its label."""
_WALL = 2.5
"""Points along the sides of a floor that its walls may take up."""
_LINE_HEIGHT = 1.25
_RINGS = (0.0, 0.6, 1.2, 2.0, 3.0, 4.5, 6.0)
"""How many heights of a line a label may move away from what it names, nearest first."""
_NEAR_RINGS = _RINGS[:3]
"""The same for a label that may be left out."""
_DIRECTIONS: tuple[XY, ...] = ((0, -1), (0, 1), (1, 0), (-1, 0), (0.8, -0.8), (-0.8, -0.8), (0.8, 0.8), (-0.8, 0.8))
_WORDS, _SYMBOLS, _BROAD, _LINES, _WAYS, _EDGE, _FARTHER = 1000.0, 200.0, 30.0, 9.0, 6.0, 4.0, 0.8
"""What it costs to cover words, a symbol, four points of a broad arrow, a line, a way or an edge, or to take the next
place.
"""


_Box = tuple[float, float, float, float]
_Frame = tuple[float, float, float, float, float]
"""A box of the page in points, y upwards: left, low, right and high edge, and what it costs to cover it."""


def place_labels(labels: Sequence[Label], others: Sequence[Shape], floor: XY, scale: float) -> list[Label]:
    """Return labels at free places of a floor (width and depth in metres) at ``scale`` points a metre.

    A label that finds no free place at all is left out.
    """
    if not labels:
        return []
    bounds = (_WALL, _WALL, floor[0] * scale - _WALL, floor[1] * scale - _WALL, 1.0)
    region = _region(labels, scale)
    taken = [frame for shape in others for frame in _frames(shape, scale, region)]
    placed: list[Label] = []
    for label in labels:
        found = _place(label, scale, taken, bounds)
        if found is not None:
            placed.append(found)
            taken.append(_label_frame(found, (found.x * scale, found.y * scale)))
    return placed


def _region(labels: Sequence[Label], scale: float) -> _Box:
    """Return the part of the page in which labels may come to stand."""
    sides: list[_Box] = []
    for label in labels:
        _, _, half, high, _ = _label_frame(label, (0.0, 0.0))
        away = label.clear * scale + _GAP + _rings(label)[-1] * high * 2 + _WALL
        x, y = label.x * scale, label.y * scale
        sides.append((x - away - 2 * half, y - away - 2 * high, x + away + 2 * half, y + away + 2 * high))
    lefts, lows, rights, highs = zip(*sides, strict=True)
    return min(lefts), min(lows), max(rights), max(highs)


def _rings(label: Label) -> tuple[float, ...]:
    return _RINGS if label.needed else _NEAR_RINGS


def _frames(shape: Shape, scale: float, region: _Box) -> Iterator[_Frame]:
    """Return the boxes that a shape takes up in a region of the page."""
    match shape:
        case Symbol():
            across, up = half_of(shape, scale)
            x, y = shape.x * scale, shape.y * scale
            if region[0] < x + across and x - across < region[2] and region[1] < y + up and y - up < region[3]:
                yield x - across, y - up, x + across, y + up, _SYMBOLS
        case Segment():
            yield from _strip(((shape.x1, shape.y1), (shape.x2, shape.y2)), scale, region, _LINES)
        case Way():
            yield from _strip(shape.points, scale, region, _BROAD if shape.role == "rotation" else _WAYS)
        case Area():
            left, low = shape.x, shape.y
            right, high = left + shape.width, low + shape.depth
            if right * scale >= region[0] and left * scale <= region[2] and high * scale >= region[1]:
                edge = ((left, low), (right, low), (right, high), (left, high), (left, low))
                yield from _strip(edge, scale, region, _EDGE)


def _strip(points: tuple[XY, ...], scale: float, region: _Box, cost: float) -> Iterator[_Frame]:
    """Cover a run of lines with small boxes, as far as it may reach into a region."""
    left_edge, low_edge, right_edge, high_edge = region
    for (x1, y1), (x2, y2) in pairwise([(x * scale, y * scale) for x, y in points]):
        (near, far) = (x1, x2) if x1 <= x2 else (x2, x1)
        (below, above) = (y1, y2) if y1 <= y2 else (y2, y1)
        if far < left_edge or right_edge < near or above < low_edge or high_edge < below:
            continue
        pieces = max(1, ceil(hypot(x2 - x1, y2 - y1) / 4))
        ends = [(x1 + share * (x2 - x1), y1 + share * (y2 - y1)) for share in _shares(pieces)]
        (left, right) = (0, 1) if x1 <= x2 else (1, 0)
        (low, high) = (0, 1) if y1 <= y2 else (1, 0)
        for piece in pairwise(ends):
            yield piece[left][0] - 1, piece[low][1] - 1, piece[right][0] + 1, piece[high][1] + 1, cost


@lru_cache(maxsize=512)
def _shares(pieces: int) -> tuple[float, ...]:
    return tuple(piece / pieces for piece in range(pieces + 1))


def _place(label: Label, scale: float, taken: list[_Frame], bounds: _Frame) -> Label | None:
    """Return a label at the place that covers least, the nearer the better; None if words or symbols are everywhere."""
    best: XY | None = None
    least = inf
    most = _SYMBOLS if label.needed else _EDGE
    shape = _label_frame(label, (0.0, 0.0))
    for rank, (x, y) in enumerate(_candidates(label, shape, scale, bounds)):
        if rank * _FARTHER >= least:
            break
        left, low, right, high = x + shape[0], y + shape[1], x + shape[2], y + shape[3]
        costs = [each[4] for each in taken if each[0] < right and left < each[2] and each[1] < high and low < each[3]]
        cost = rank * _FARTHER + sum(costs)
        if cost < least and max(costs, default=0.0) < most:
            best, least = (x, y), cost
    if best is None:
        return None
    return replace(label, x=round(best[0] / scale, 4), y=round(best[1] / scale, 4), clear=0.0)


def _label_frame(label: Label, centre: XY) -> _Frame:
    points = LABEL_POINTS[label.size]
    across, up = words_width(label.words, points) / 2 + 1, points * _LINE_HEIGHT / 2
    return centre[0] - across, centre[1] - up, centre[0] + across, centre[1] + up, _WORDS


def _candidates(label: Label, frame: _Frame, scale: float, bounds: _Frame) -> Iterator[XY]:
    """Yield places for a label on the page, the best first: its own point, or all around what it names."""
    _, _, half, high, _ = frame
    x, y = label.x * scale, label.y * scale
    around = label.clear * scale
    if not label.clear:
        yield _kept((x, y), frame, bounds)
    for ring in _rings(label):
        away = around + _GAP + ring * high * 2
        for along, up in _DIRECTIONS:
            yield _kept((x + along * (away + half), y + up * (away + high)), frame, bounds)


def _kept(centre: XY, frame: _Frame, bounds: _Frame) -> XY:
    """Return the nearest place at which a label lies inside the floor."""
    x = min(max(centre[0], bounds[0] - frame[0]), bounds[2] - frame[2])
    y = min(max(centre[1], bounds[1] - frame[1]), bounds[3] - frame[3])
    return x, y
