"""The author's drawing of one group as shapes of a scene, turned into its place in a room."""

from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from math import dist

from lessonkit.document.plan_words import PATH_WORDS, WORDS
from lessonkit.document.quarter_turn import Turned
from lessonkit.document.scene import Label, LineRole, Segment, Shape, Symbol, Way
from lessonkit.records.activity import Activity, Drawing, Mark, Point, Thing

DRAWN_AS_LINES: dict[Thing, LineRole] = {"net": "net", "line": "line", "bench": "bench", "rope": "rope"}
_STEPS = 11
_ENOUGH = 1.0
"""Metres around a child beyond which more distance is no better."""


def drawn(drawing: Drawing, turned: Turned) -> Iterator[Shape]:
    """Return lines, then ways, then things and children, from back to front."""
    for mark in drawing.marks:
        if mark.to is not None and mark.what in DRAWN_AS_LINES:
            ends = (*turned.point(mark.at), *turned.point(mark.to))
            yield Segment(*ends, DRAWN_AS_LINES[mark.what], WORDS[mark.what][0])
    for path in drawing.paths:
        yield Way(tuple(turned.point(point) for point in path.through), path.what, PATH_WORDS[path.what])
    for mark in sorted(drawing.marks, key=lambda mark: mark.what == "child"):
        if mark.to is None or mark.what not in DRAWN_AS_LINES:
            x, y = turned.point(mark.at)
            label = mark.label if mark.what == "child" else None
            yield Symbol(x, y, mark.what, WORDS[mark.what][0], label)


def labels_of(drawing: Drawing, turned: Turned) -> Iterator[Label]:
    """Return the labels of equipment, beside what they name."""
    for mark in drawing.marks:
        if mark.label and mark.what != "child":
            x, y = turned.point(mark.at)
            if mark.to is not None:
                x2, y2 = turned.point(mark.to)
                x, y = (x + x2) / 2, (y + y2) / 2
            yield Label(x, y, mark.label, "small", clear=0.15 if mark.to else 0.3)


def plain_drawing(activity: Activity, size: int) -> Drawing:
    """Stand the children of a group in a row where the author drew nothing."""
    length, width = activity.floor.length.metres, activity.floor.width.metres
    return Drawing(marks=tuple(Mark(what="child", at=(length * (n + 1) / (size + 1), width / 2)) for n in range(size)))


def one_more(spots: list[Point], shapes: list[Shape], turned: Turned) -> Point:
    """Find a place for one more child: free of things and ways, and rather near the others than far from them."""
    taken = list(spots)
    for shape in shapes:
        match shape:
            case Symbol():
                taken.append((shape.x, shape.y))
            case Segment():
                taken.extend(_between((shape.x1, shape.y1), (shape.x2, shape.y2)))
            case Way():
                taken.extend(point for ends in pairwise(shape.points) for point in _between(*ends))
    candidates = [
        (
            turned.x + turned.box_length * (1 + across) / (_STEPS + 1),
            turned.y + turned.box_width * (1 + up) / (_STEPS + 1),
        )
        for across in range(_STEPS)
        for up in range(_STEPS)
    ]
    return max(candidates, key=lambda at: _worth(at, spots, taken))


def _worth(at: Point, spots: list[Point], taken: list[Point]) -> float:
    away = partial(dist, at)
    room = min(map(away, taken), default=_ENOUGH)
    far = min(map(away, spots), default=0.0)
    return round(min(room, _ENOUGH) - 0.1 * far, 6)


def _between(start: Point, end: Point) -> list[Point]:
    """Return points a quarter of a metre apart along a line."""
    pieces = max(1, int(dist(start, end) / 0.25))
    return [
        (start[0] + (end[0] - start[0]) * step / pieces, start[1] + (end[1] - start[1]) * step / pieces)
        for step in range(pieces + 1)
    ]
