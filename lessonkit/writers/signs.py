"""What a legend shows beside its words: the sign of each entry, the same in every format."""

from collections.abc import Mapping, Sequence
from typing import Any

from lessonkit.document.scene import Scene, Segment, Symbol, Way
from lessonkit.writers.forms import AREAS, FORMS, LINES, PATHS, Form, Ink

Sign = Form | Ink
"""A symbol, or the ink of a line, an arrow or an area."""
Legend = Sequence[tuple[Sign, str]]
"""The entries of a legend: signs with their words."""
_USUAL: dict[str, Sign] = {}
_USUAL.update(AREAS.items())
_USUAL.update(LINES.items())
_USUAL.update(PATHS.items())
_USUAL.update(FORMS.items())


def signs(scene: Scene) -> Legend:
    """Return sign and words of every entry of a scene's legend.

    A kind may be a symbol, a straight piece and a path at once (a ball and its way): an entry means the first of these
    that the scene holds and no entry before it meant.
    """
    shapes = scene.shapes
    unnamed: list[tuple[Mapping[Any, Sign], set[str]]] = [
        (FORMS, {shape.what for shape in shapes if isinstance(shape, Symbol)}),
        (LINES, {shape.role for shape in shapes if isinstance(shape, Segment)}),
        (PATHS, {shape.role for shape in shapes if isinstance(shape, Way)}),
    ]
    found: list[tuple[Sign, str]] = []
    for kind, words in scene.legend:
        table, kinds = next((each for each in unnamed if kind in each[1]), (_USUAL, set[str]()))
        kinds.discard(kind)
        found.append((table[kind], words))
    return found
