"""The picture of a wall card: what is in a scene and little floor around it, as large as can be."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from lessonkit.document.scene import Area, Label, Scene, Segment, Shape, Symbol, Way
from lessonkit.records.activity import Thing

_AROUND, _WITH_WORDS = 0.45, 0.7
"""Metres of floor around the middle of the outermost things, and where things have words beside them."""
_LONG: Final[dict[Thing, float]] = {"mat": 0.4, "bench": 0.6, "goal": 0.3, "net": 0.2, "line": 0.2, "rope": 0.2}
"""Metres along the floor by which long things reach farther from their middle than others."""
_SHORT = 2
"""Letters that stand inside a person."""
_BESIDE = 0.3
"""Metres from the middle of a person to words beside it."""


def close_up(scene: Scene) -> Scene:
    """Return a scene cut down to what it shows, in a frame, without what cannot be read from afar: legend and scale.

    Its words are as large as words in drawings come, and none stands in a person that would be small there.
    """
    points = [point for shape in scene.shapes for point in _points(shape)]
    if not points:
        return replace(scene, legend=(), scale_bar=0.0, scale_words="")
    around = _WITH_WORDS if any(map(_has_words, scene.shapes)) else _AROUND
    left, right = _span([x for x, _ in points], scene.width, around)
    near, far = _span([y for _, y in points], scene.depth, around)
    frame = Area(0.0, 0.0, right - left, far - near, "room", "frame")
    shown = (shape for shape in scene.shapes if not isinstance(shape, Area))
    cut = (each for shape in shown for each in _cut(shape, left, right, near, far))
    shapes = (frame, *(_moved(shape, -left, -near) for shape in cut))
    return Scene(frame.width, frame.depth, shapes)


def _span(places: list[float], most: float, around: float) -> tuple[float, float]:
    """Return from where to where floor is shown, no farther than the scene reaches."""
    return max(0.0, round(min(places) - around, 4)), min(most, round(max(places) + around, 4))


def _has_words(shape: Shape) -> bool:
    return isinstance(shape, Label) or (isinstance(shape, Symbol) and _stands_beside(shape))


def _stands_beside(person: Symbol) -> bool:
    """Tell whether the label of a person is too long to stand inside."""
    return person.label is not None and len(person.label) > _SHORT


def _points(shape: Shape) -> Iterator[tuple[float, float]]:
    match shape:
        case Symbol(x=x, y=y):
            beyond = _LONG.get(shape.what, 0.0)
            yield from ((x - beyond, y), (x + beyond, y))
        case Segment(role=role) if role != "wall":
            yield from ((shape.x1, shape.y1), (shape.x2, shape.y2))
        case Segment():
            yield (shape.x1 + shape.x2) / 2, (shape.y1 + shape.y2) / 2
        case Way():
            yield from shape.points
        case _:
            return


def _cut(shape: Shape, left: float, right: float, near: float, far: float) -> Iterator[Shape]:
    """Yield a wall no longer than the picture, a person and the words beside it, anything else as it is."""
    if isinstance(shape, Segment) and shape.role == "wall":
        (x1, x2), (y1, y2) = (
            (min(max(start, low), high), min(max(end, low), high))
            for start, end, low, high in ((shape.x1, shape.x2, left, right), (shape.y1, shape.y2, near, far))
        )
        yield replace(shape, x1=x1, x2=x2, y1=y1, y2=y2)
    elif isinstance(shape, Symbol) and _stands_beside(shape):
        yield replace(shape, label=None)
        yield Label(shape.x, shape.y, shape.label or "", clear=_BESIDE)
    else:
        yield shape


def _moved(shape: Shape, x: float, y: float) -> Shape:
    match shape:
        case Segment():
            return replace(shape, x1=shape.x1 + x, x2=shape.x2 + x, y1=shape.y1 + y, y2=shape.y2 + y)
        case Way():
            return replace(shape, points=tuple((at[0] + x, at[1] + y) for at in shape.points))
        case Label():
            return replace(shape, x=shape.x + x, y=shape.y + y, size="poster")
        case _:
            return replace(shape, x=shape.x + x, y=shape.y + y)
