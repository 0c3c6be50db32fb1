"""A scene made ready for a page of a certain scale: ways trimmed to the symbols they join, labels where they are free.

Letters and the smallest symbols keep their size on paper, so where they have room depends on the scale. Writers settle
a scene once they know theirs, and then draw it as it stands.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import hypot

from lessonkit.document.scene import Label, Scene, Shape, Symbol, Way
from lessonkit.writers.forms import FORMS, half_size
from lessonkit.writers.label_places import place_labels
from lessonkit.writers.ways import XY, Disc, smooth, trim

_SOLID = frozenset({"child", "teacher", "ball", "cone"})
"""Symbols at whose edge a way stops; it goes on into a hoop, a box or a target."""
_GAP = 1.5


def settle(scene: Scene, scale: float) -> Scene:
    """Return the scene with symbols, ways and labels ready to be drawn at ``scale`` points a metre.

    Labels that do not stand inside their symbol become labels of their own. No words cover others or a symbol: a label
    that finds no free place at all is left out.
    """
    symbols = _pushed(scene, scale)
    standing = tuple(
        (other.x, other.y, max(_half(other, scale)) / scale) for other in symbols.values() if other.what in _SOLID
    )
    shapes = [_drawn(shape, symbols, standing, scale) for shape in scene.shapes if not isinstance(shape, Label)]
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]
    labels += _labels_beside(scene.shapes)
    placed = place_labels(labels, shapes, (scene.width, scene.depth), scale)
    return replace(scene, shapes=(*shapes, *placed))


def _drawn(shape: Shape, symbols: dict[Symbol, Symbol], standing: tuple[Disc, ...], scale: float) -> Shape:
    """Return a shape as it is drawn: moved, trimmed, without a label that stands beside it."""
    match shape:
        case Symbol():
            moved = symbols[shape]
            return moved if _is_inside(moved) else replace(moved, label=None)
        case Way():
            return replace(shape, points=trim(smooth(shape.points), standing, _GAP / scale))
        case _:
            return shape


def _is_inside(symbol: Symbol) -> bool:
    """Tell whether a symbol's label is drawn inside it: short ones in symbols with room."""
    return symbol.label is not None and FORMS[symbol.what].inside and len(symbol.label) <= 2


def _labels_beside(shapes: tuple[Shape, ...]) -> Iterator[Label]:
    for shape in shapes:
        if isinstance(shape, Symbol) and shape.label and not _is_inside(shape):
            form = FORMS[shape.what]
            yield Label(shape.x, shape.y, shape.label, "small", clear=max(form.half_width, form.half_height))


def _half(symbol: Symbol, scale: float) -> XY:
    return half_size(FORMS[symbol.what], scale, labelled=_is_inside(symbol))


def _pushed(scene: Scene, scale: float) -> dict[Symbol, Symbol]:
    """Move balls out from under the people who hold them, and everything inside the floor."""
    symbols = [shape for shape in scene.shapes if isinstance(shape, Symbol)]
    people = [symbol for symbol in symbols if symbol.what in ("child", "teacher")]
    moved = {}
    for symbol in symbols:
        beside = _beside(symbol, people, scale) if symbol.what == "ball" else symbol
        moved[symbol] = _inside(beside, scene, scale)
    return moved


def _beside(ball: Symbol, people: list[Symbol], scale: float) -> Symbol:
    for person in people:
        apart = (max(_half(person, scale)) + max(_half(ball, scale))) / scale
        x, y = ball.x - person.x, ball.y - person.y
        away = hypot(x, y)
        if away < apart:
            x, y = (x / away, y / away) if away else (1.0, 0.0)
            return replace(ball, x=round(person.x + x * apart, 4), y=round(person.y + y * apart, 4))
    return ball


def _inside(symbol: Symbol, scene: Scene, scale: float) -> Symbol:
    across, up = (half / scale for half in _half(symbol, scale))
    x = min(max(symbol.x, across), max(across, scene.width - across))
    y = min(max(symbol.y, up), max(up, scene.depth - up))
    return symbol if (x, y) == (symbol.x, symbol.y) else replace(symbol, x=round(x, 4), y=round(y, 4))
