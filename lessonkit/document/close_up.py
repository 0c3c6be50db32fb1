"""The picture of a wall card: what is in a scene and little floor around it, as large as can be."""

from collections.abc import Iterator
from dataclasses import replace

from lessonkit.document.scene import Area, Label, Scene, Segment, Shape, Symbol, Way

_AROUND = 0.45
"""Metres of floor around the middle of the outermost things."""


def close_up(scene: Scene) -> Scene:
    """Return a scene cut down to what it shows, in a frame, without what cannot be read from afar: legend and scale.

    Its words are as large as words in drawings come.
    """
    points = [point for shape in scene.shapes for point in _points(shape)]
    if not points:
        return replace(scene, legend=(), scale_bar=0.0, scale_words="")
    left, right = _span([x for x, _ in points], scene.width)
    near, far = _span([y for _, y in points], scene.depth)
    frame = Area(0.0, 0.0, right - left, far - near, "room", "frame")
    shown = (shape for shape in scene.shapes if not isinstance(shape, Area))
    shapes = (frame, *(_moved(_cut(shape, left, right, near, far), -left, -near) for shape in shown))
    return Scene(frame.width, frame.depth, shapes)


def _span(places: list[float], most: float) -> tuple[float, float]:
    """Return from where to where floor is shown, no farther than the scene reaches."""
    return max(0.0, round(min(places) - _AROUND, 4)), min(most, round(max(places) + _AROUND, 4))


def _points(shape: Shape) -> Iterator[tuple[float, float]]:
    match shape:
        case Symbol(x=x, y=y):
            yield x, y
        case Segment(role=role) if role != "wall":
            yield from ((shape.x1, shape.y1), (shape.x2, shape.y2))
        case Segment():
            yield (shape.x1 + shape.x2) / 2, (shape.y1 + shape.y2) / 2
        case Way():
            yield from shape.points
        case _:
            return


def _cut(shape: Shape, left: float, right: float, near: float, far: float) -> Shape:
    """Return a wall no longer than the picture; anything else as it is."""
    if isinstance(shape, Segment) and shape.role == "wall":
        (x1, x2), (y1, y2) = (
            (min(max(a, low), high), min(max(b, low), high))
            for a, b, low, high in ((shape.x1, shape.x2, left, right), (shape.y1, shape.y2, near, far))
        )
        return replace(shape, x1=x1, x2=x2, y1=y1, y2=y2)
    return shape


def _moved(shape: Shape, x: float, y: float) -> Shape:
    match shape:
        case Segment():
            return replace(shape, x1=shape.x1 + x, x2=shape.x2 + x, y1=shape.y1 + y, y2=shape.y2 + y)
        case Way():
            return replace(shape, points=tuple((at[0] + x, at[1] + y) for at in shape.points))
        case Label():
            return replace(shape, x=shape.x + x, y=shape.y + y, size="large")
        case _:
            return replace(shape, x=shape.x + x, y=shape.y + y)
