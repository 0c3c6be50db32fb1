"""The picture of a wall card: what is in a scene, as large as a frame of a fixed shape holds it, seen from afar.

A picture so made has no scale: where things are far apart, the floor between them is drawn shorter, so that a child is
some 18 millimetres wide on paper wherever there is room for that.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from math import hypot
from typing import Final, NamedTuple, TypeGuard

from lessonkit.document.scene import HALVES, Area, Label, Scene, Segment, Shape, Symbol, Way
from lessonkit.document.wall_labels import Floor, Named, Spot, placed
from lessonkit.records.activity import Point

_ROUND: Final = frozenset({"child", "teacher", "ball", "spot", "hoop"})
_LYING: Final = frozenset({"mat", "bench", "goal", "net", "line", "rope"})
"""Things that look another way round when they are turned by a quarter."""
_LARGE, _LARGEST = 100.0, 300.0
"""Points of paper for a metre of a thing: what is aimed at, and the most."""
_INSIDE = 99.5
"""Points for a metre from which on a person has room for a letter that is read from afar."""
_AROUND, _APART = 12.0, 3.0
"""Points of floor around the outermost things, and between two things."""
_ROOMS: Final = ((0.0, 0.0), (16.0, 16.0), (36.0, 0.0), (36.0, 36.0), (36.0, 72.0), (54.0, 36.0), (54.0, 108.0))
"""Points of floor added for words at the near and far side, and at the left and right: the best is taken."""
_BELOW = 8.0
"""Points of white paper below the frame."""
_SMALLER, _TURNED = 110.0, 15.0
"""What it costs to draw the floor at no size at all beside the largest, and to turn a picture by a quarter."""
_SHORT = 2
"""Letters that stand inside a person."""
_THICK: Final = 2.4
"""How many times as thick as in other drawings ways and lines are."""
_TRIES = 24
_Reach = tuple[float, float, float, float]
"""The middle of a thing on the floor and half of what it takes up across and up, in metres."""


class Frame(NamedTuple):
    """The room for a picture on paper, in points."""

    width: float
    height: float


class CloseUp(NamedTuple):
    """A picture, and how large it is: the points of paper for a metre of floor."""

    scene: Scene
    floor: float


class _Zoom(NamedTuple):
    """Points of paper for a metre of floor, and for a metre of the things on it."""

    floor: float
    things: float


_Pads = tuple[tuple[float, float], tuple[float, float]]
_Ends = tuple[tuple[float, float], tuple[float, float]]
"""Points at the left and right, and at the near and far side."""


class _View(NamedTuple):
    """A way to look at a scene: what is drawn, maybe turned, the floor left at its sides, and how large it becomes."""

    shapes: tuple[Shape, ...]
    pads: _Pads
    zoom: _Zoom
    turned: bool


def close_up(scene: Scene, frame: Frame) -> CloseUp:
    """Return a scene cut down to what it shows, in a frame, without what cannot be read from afar: legend and scale.

    A wall stands at the edge. A tall scene is turned by a quarter, its far side to the right, where that makes it
    larger. Words are so large that they are read from afar, and none stands in a person that would be small there.
    """
    laid, zoom = _best(sorted(_views(scene, frame), key=lambda view: -view.zoom.floor), frame)
    things = zoom.things
    width, height = frame.width / things, (frame.height + _BELOW) / things
    below = round(_BELOW / things, 4)
    drawn = (_at(shape, lambda at: _metres(at, things)) for shape in laid)
    return CloseUp(Scene(width, height, (Area(0.0, below, width, height - below, "room", "frame"), *drawn)), zoom.floor)


def _best(views: Sequence[_View], frame: Frame) -> tuple[tuple[Shape, ...], _Zoom]:
    """Return the best of views, the largest first, laid out in points, and how large it is."""
    largest = views[0].zoom.floor
    laid: tuple[Shape, ...] = ()
    zoom, least = views[0].zoom, float("inf")
    for view in views:
        cost = _SMALLER * (1 - view.zoom.floor / largest) + _TURNED * view.turned
        if cost < least:
            shapes, worst = _laid(view, frame)
            if cost + worst < least:
                laid, zoom, least = shapes, view.zoom, cost + worst
    return laid, zoom


def _metres(at: Point, things: float) -> Point:
    return round(at[0] / things, 4), round((at[1] + _BELOW) / things, 4)


def _views(scene: Scene, frame: Frame) -> Iterator[_View]:
    """Yield the ways to look at a scene: with more or less floor for words, and turned where that changes nothing."""
    shapes = tuple(shape for shape in scene.shapes if not isinstance(shape, Area))
    aside = tuple(_at(shape, lambda at: (at[1], scene.width - at[0])) for shape in shapes)
    may_turn = not any(isinstance(shape, Symbol) and shape.what in _LYING for shape in shapes)
    for turned in (False, True)[: 1 + may_turn]:
        for room in _ROOMS:
            found = aside if turned else shapes
            pads = _pads(found, room)
            yield _View(found, pads, _zoom(found, frame, pads), turned)


def _laid(view: _View, frame: Frame) -> tuple[tuple[Shape, ...], float]:
    """Lay a view out in points; return its shapes and words, and what the worst place of words costs."""
    shapes, pads, zoom, _ = view
    place = _onto_paper(shapes, frame, zoom, pads)
    laid = [_at(shape, place) for shape in shapes]
    small = zoom.things < _INSIDE or _is_crowded(shapes, zoom)
    named = [found for shape in laid if (found := _named(shape, laid, zoom.things, small=small))]
    things = (_drawn(shape, frame, small=small) for shape in laid if not isinstance(shape, Label))
    lines = (_line(shape) for shape in laid)
    spots = tuple(_spot(shape, zoom.things) for shape in laid if isinstance(shape, Symbol))
    floor = Floor(frame.width, frame.height, spots, tuple(line for line in lines if line))
    places, worst = placed(named, floor)
    words = (Label(*place, label.words, "wall") for place, label in zip(places, named, strict=True))
    return (*sorted(things, key=_layer), *words), worst


def _layer(shape: Shape) -> int:
    """Draw walls over the lines that are marked on them."""
    return 1 if _is_wall(shape) else 0 if isinstance(shape, Segment) else 2


def _spot(symbol: Symbol, things: float) -> Spot:
    across, up = HALVES[symbol.what]
    return Spot(symbol.x, symbol.y, across * things, up * things, symbol.what in _ROUND)


def _line(shape: Shape) -> tuple[Point, ...]:
    match shape:
        case Segment():
            return (shape.x1, shape.y1), (shape.x2, shape.y2)
        case Way():
            return shape.points
        case _:
            return ()


def _named(shape: Shape, laid: Sequence[Shape], things: float, *, small: bool) -> Named | None:
    """Return the words that stand on the floor beside what they name; None for a shape without."""
    if _stands_beside(shape, small=small):
        return Named(shape.label or "", _spot(shape, things))
    if not isinstance(shape, Label):
        return None
    for other in laid:
        if isinstance(other, Symbol) and hypot(other.x - shape.x, other.y - shape.y) < 1:
            return Named(shape.words, _spot(other, things))
        if isinstance(other, Segment) and not _is_wall(other):
            middle = (other.x1 + other.x2) / 2, (other.y1 + other.y2) / 2
            if hypot(middle[0] - shape.x, middle[1] - shape.y) < 1:
                return Named(shape.words, ((other.x1, other.y1), (other.x2, other.y2)))
    return Named(shape.words, Spot(shape.x, shape.y, 2.0, 2.0))


def _zoom(shapes: Sequence[Shape], frame: Frame, pads: _Pads) -> _Zoom:
    """Return how large the floor between things may be drawn in a frame, and how large the things."""
    reaches = [reach for shape in shapes for reach in _reaches(shape)]
    crowded = list(_crowded(shapes))
    low, high = 0.0, _LARGEST
    for _ in range(_TRIES):
        floor = (low + high) / 2
        zoom = _Zoom(floor, _things(floor, crowded))
        fits = all(
            end - start + sum(pad) <= side
            for (start, end), pad, side in zip(_ends(reaches, zoom), pads, frame, strict=True)
        )
        low, high = (floor, high) if fits else (low, floor)
    floor = round(low, 3)
    return _Zoom(floor, round(_things(floor, crowded), 3))


def _things(floor: float, crowded: Sequence[float]) -> float:
    """Return the points for a metre of things: what is aimed at, if no two things touch then, and as for the floor."""
    return max(floor, min(_LARGE, *(apart * floor - _APART for apart in crowded), _LARGE))


def _is_crowded(shapes: Sequence[Shape], zoom: _Zoom) -> bool:
    """Tell whether things touch that should not, so that a writer may draw them smaller."""
    return any(apart * zoom.floor < zoom.things for apart in _crowded(shapes))


def _crowded(shapes: Sequence[Shape]) -> Iterator[float]:
    """Yield for every two things that may not touch how many times as large they may be drawn as the floor.

    A ball may lie anywhere.
    """
    symbols = [shape for shape in shapes if isinstance(shape, Symbol) and shape.what != "ball"]
    for one, other in combinations(symbols, 2):
        (across, up), (more_across, more_up) = HALVES[one.what], HALVES[other.what]
        away = abs(one.x - other.x), abs(one.y - other.y)
        on_top = away[0] <= max(across, more_across) and away[1] <= max(up, more_up)
        if one.what == other.what or not on_top:
            yield max(away[0] / (across + more_across), away[1] / (up + more_up), hypot(*away) / (across + more_across))


def _ends(reaches: Sequence[_Reach], zoom: _Zoom) -> _Ends:
    """Return from where to where things reach on paper, across and up, in points."""
    across = [(x * zoom.floor, half * zoom.things) for x, _, half, _ in reaches]
    up = [(y * zoom.floor, half * zoom.things) for _, y, _, half in reaches]
    first, second = (
        (min((at - half for at, half in side), default=0.0), max((at + half for at, half in side), default=0.0))
        for side in (across, up)
    )
    return first, second


def _pads(shapes: Sequence[Shape], room: tuple[float, float]) -> _Pads:
    """Return the points of floor to leave at the left and right, and at the near and far side; none before a wall."""
    up, across = (_AROUND + more for more in room)
    walls = [shape for shape in shapes if _is_wall(shape)]
    right = 0.0 if any(wall.x1 == wall.x2 for wall in walls) else across
    far = 0.0 if any(wall.y1 == wall.y2 for wall in walls) else up
    return (across, right), (up, far)


def _onto_paper(shapes: Sequence[Shape], frame: Frame, zoom: _Zoom, pads: _Pads) -> Callable[[Point], Point]:
    """Return where a point of the floor lies in the frame, in points; what is left over is shared."""
    reaches = [reach for shape in shapes for reach in _reaches(shape)]
    shifts = []
    for (start, end), (before, after), side in zip(_ends(reaches, zoom), pads, frame, strict=True):
        spare = side - (end - start) - before - after
        shifts.append(before - start + (spare if not after else spare / 2))
    return lambda at: (at[0] * zoom.floor + shifts[0], at[1] * zoom.floor + shifts[1])


def _is_wall(shape: Shape) -> TypeGuard[Segment]:
    return isinstance(shape, Segment) and shape.role == "wall"


def _stands_beside(shape: Shape, *, small: bool) -> TypeGuard[Symbol]:
    """Tell whether the label of a person is too long, or persons are too ``small``, for it to stand inside."""
    return isinstance(shape, Symbol) and shape.label is not None and (small or len(shape.label) > _SHORT)


def _reaches(shape: Shape) -> Iterator[_Reach]:
    match shape:
        case Symbol(x=x, y=y):
            yield x, y, *HALVES[shape.what]
        case Segment():
            ends = [(shape.x1, shape.y1), (shape.x2, shape.y2)]
            if _is_wall(shape):
                ends = [((shape.x1 + shape.x2) / 2, (shape.y1 + shape.y2) / 2)]
            yield from ((x, y, 0.0, 0.0) for x, y in ends)
        case Way():
            yield from ((x, y, 0.0, 0.0) for x, y in shape.points)
        case _:
            return


def _drawn(shape: Shape, frame: Frame, *, small: bool) -> Shape:
    """Return a wall as long as the picture, a person without words beside it, lines that are seen from afar."""
    if _is_wall(shape):
        upright = shape.x1 == shape.x2
        ends = (frame.width if upright else 0.0, 0.0 if upright else frame.height)
        return replace(shape, x1=ends[0], x2=frame.width, y1=ends[1], y2=frame.height, thin=_THICK)
    if _stands_beside(shape, small=small):
        return replace(shape, label=None)
    return replace(shape, thin=_THICK) if isinstance(shape, Segment | Way) else shape


def _at(shape: Shape, place: Callable[[Point], Point]) -> Shape:
    """Return a shape at another place."""
    match shape:
        case Segment():
            (x1, y1), (x2, y2) = place((shape.x1, shape.y1)), place((shape.x2, shape.y2))
            return replace(shape, x1=x1, y1=y1, x2=x2, y2=y2)
        case Way():
            return replace(shape, points=tuple(map(place, shape.points)))
        case Label() | Symbol():
            x, y = place((shape.x, shape.y))
            return replace(shape, x=x, y=y)
        case _:
            return shape
