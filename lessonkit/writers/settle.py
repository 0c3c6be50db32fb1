"""A scene made ready for a page of a certain scale: ways trimmed to the symbols they join, labels where they are free.

Letters and the smallest symbols keep their size on paper, so where they have room depends on the scale. Writers settle
a scene once they know theirs, and then draw it as it stands.
"""

from collections.abc import Iterator
from dataclasses import replace

from lessonkit.document.scene import Label, Scene, Shape, Symbol, Way
from lessonkit.writers.forms import FORMS
from lessonkit.writers.label_places import place_labels
from lessonkit.writers.spread import half_of, is_inside, spread
from lessonkit.writers.ways import Standing, smooth, trim

_SOLID = frozenset({"child", "teacher", "ball", "cone"})
"""Symbols at whose edge a way stops; it goes on into a hoop, a box or a target."""
_GAP = 1.5
_THINNEST = 0.6


def settle(scene: Scene, scale: float) -> Scene:
    """Return the scene with symbols, ways and labels ready to be drawn at ``scale`` points a metre.

    Labels that do not stand inside their symbol become labels of their own. No words cover others or a symbol: a label
    that finds no free place at all is left out.
    """
    symbols = spread(scene, scale)
    standing = Standing(
        (other.x, other.y, max(half_of(other, scale)) / scale) for other in symbols if other.what in _SOLID
    )
    moved = iter(symbols)
    thin = _thin(symbols)
    shapes = [_drawn(shape, moved, standing, scale, thin) for shape in scene.shapes if not isinstance(shape, Label)]
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]
    labels += _labels_beside(scene.shapes)
    placed = place_labels(labels, shapes, (scene.width, scene.depth), scale)
    return replace(scene, shapes=(*shapes, *placed))


def _thin(symbols: list[Symbol]) -> float:
    """Return how thin ways are drawn, and how small their heads, beside symbols as small as these."""
    return max(_THINNEST, min((symbol.least for symbol in symbols), default=1.0))


def _drawn(shape: Shape, symbols: Iterator[Symbol], standing: Standing, scale: float, thin: float) -> Shape:
    """Return a shape as it is drawn: moved, trimmed, without a label that stands beside it."""
    match shape:
        case Symbol():
            moved = next(symbols)
            return moved if is_inside(moved) or moved.label is None else replace(moved, label=None)
        case Way():
            return Way(trim(smooth(shape.points), standing, _GAP / scale), shape.role, shape.name, thin * shape.thin)
        case _:
            return shape


def _labels_beside(shapes: tuple[Shape, ...]) -> Iterator[Label]:
    for shape in shapes:
        if isinstance(shape, Symbol) and shape.label and not is_inside(shape):
            form = FORMS[shape.what]
            yield Label(shape.x, shape.y, shape.label, "small", clear=max(form.half_width, form.half_height))
