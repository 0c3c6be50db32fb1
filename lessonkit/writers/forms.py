"""What each thing on a floor plan looks like, in every format.

Things are told apart by form first, so that a grey print says the same. Colours are slots of the palette; thickness and
letter sizes are in points; symbols are as large as the things they stand for, in metres.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, pi, sin

from lessonkit.document.scene import HALVES, AreaRole, LabelSize, LineRole, PathRole
from lessonkit.records.activity import Thing


@dataclass(frozen=True, slots=True, eq=False)
class Ink:
    """How a shape is drawn: colours of fill and line (None for neither), thickness in points, dash and arrowhead.

    ``stretch`` is how much longer than usual dashes are, for lines that are drawn thicker than usual.
    """

    fill: str | None = None
    line: str | None = None
    thick: float = 0.75
    dash: str = "solid"
    arrow: bool = False
    both_ends: bool = False
    hatched: bool = False
    stretch: float = 1.0


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle of a compound outline, in the units of its box and from its upper left corner."""

    x: float
    y: float
    radius: float
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Stroke:
    """A run of straight lines of a compound outline, in the units of its box and from its upper left corner."""

    points: tuple[tuple[float, float], ...]
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Form:
    """The form of a symbol: half its width and height in metres, its ink, an outline known by name or a compound one.

    Compound outlines are drawn in a square from (0, 0) to (2, 2), y downwards. ``inside``: its label stands in it.
    ``least`` is half of the symbol's smallest size on paper, in points.
    """

    half_width: float
    half_height: float
    ink: Ink
    outline: str = ""
    pieces: tuple[Ring | Stroke, ...] = ()
    inside: bool = False
    least: float = 4.0


@lru_cache(maxsize=256)
def half_size(form: Form, scale: float, *, labelled: bool = False, least: float = 1.0) -> tuple[float, float]:
    """Return half the width and height of a symbol on paper, in points, at ``scale`` points a metre.

    However small the drawing, it is large enough to be seen, or to hold a number of two digits with ``labelled``;
    ``least`` is the share of this smallest size that will do; below a half the thing itself is drawn a little smaller.
    """
    smallest = LEAST_LABELLED if labelled else form.least * least
    scale = max(scale * min(1.0, 0.5 + least), smallest / max(form.half_width, form.half_height))
    return form.half_width * scale, form.half_height * scale


def _frame(filled: bool = False) -> Stroke:
    return Stroke(((0, 0), (2, 0), (2, 2), (0, 2)), closed=True, filled=filled)


def _half_disc(steps: int = 8) -> Stroke:
    """Return the right half of a disc."""
    turns = [(1 + sin(pi * step / steps), 1 - cos(pi * step / steps)) for step in range(steps + 1)]
    return Stroke(tuple((round(x, 3), round(y, 3)) for x, y in turns), closed=True, filled=True)


NO_INK = Ink()
"""Of what is not drawn itself, such as the room of words."""
LEAST_LABELLED = 5.2
"""Half of the smallest size on paper of a symbol with a number inside, in points."""
_DARK = Ink(fill="dk2")
_THIN = Ink(fill="lt1", line="dk2", thick=1)
FORMS: dict[Thing, Form] = {
    "child": Form(*HALVES["child"], _DARK, "ellipse", inside=True),
    "teacher": Form(*HALVES["teacher"], Ink(fill="accent2"), "diamond", inside=True),
    "cone": Form(*HALVES["cone"], Ink(fill="accent4"), "triangle"),
    "spot": Form(
        *HALVES["spot"],
        Ink(fill="lt2", line="accent5", thick=0.75),
        pieces=(Ring(1, 1, 1, filled=True), Ring(1, 1, 0.1)),
        least=6.8,
    ),
    "hoop": Form(*HALVES["hoop"], Ink(line="accent1", thick=2), "ellipse", least=6.4),
    "ball": Form(
        *HALVES["ball"], Ink(fill="accent1", line="accent1", thick=0.75), pieces=(Ring(1, 1, 1), _half_disc())
    ),
    "net": Form(
        *HALVES["net"], Ink(line="dk2", thick=1), pieces=(_frame(), *(Stroke(((x, 0), (x, 2))) for x in (0.5, 1, 1.5)))
    ),
    "line": Form(*HALVES["line"], Ink(fill="dk2"), "rect"),
    "target": Form(*HALVES["target"], _THIN, pieces=(_frame(filled=True), Ring(1, 1, 0.7), Ring(1, 1, 0.25))),
    "box": Form(
        *HALVES["box"], _THIN, pieces=(_frame(filled=True), Stroke(((0, 0), (2, 2))), Stroke(((0, 2), (2, 0))))
    ),
    "bench": Form(*HALVES["bench"], Ink(fill="accent2"), "rect"),
    "mat": Form(*HALVES["mat"], Ink(fill="lt2", line="accent5", thick=0.75), "roundRect"),
    "goal": Form(*HALVES["goal"], Ink(line="dk2", thick=2), pieces=(Stroke(((0, 2), (0, 0), (2, 0), (2, 2))),)),
    "rope": Form(
        *HALVES["rope"],
        Ink(line="accent4", thick=1.5),
        pieces=(Stroke(((0, 1), (0.3, 0), (0.7, 2), (1.1, 0), (1.5, 2), (1.8, 0), (2, 1))),),
    ),
}
"""Symbols of people and equipment."""

AREAS: dict[AreaRole, Ink] = {
    "room": Ink(fill="lt1", line="dk2", thick=1.75),
    "group": Ink(fill="lt1", line="accent5", dash="dash"),
    "station": Ink(fill="lt2", line="accent5"),
    "safety": Ink(fill="accent6", line="accent5", hatched=True),
}
"""Rectangles of floor."""

LINES: dict[LineRole, Ink] = {
    "wall": Ink(line="dk2", thick=4),
    "door": Ink(line="lt1", thick=4),
    "net": Ink(line="dk2", thick=2.25, dash="sysDash"),
    "line": Ink(line="accent5", thick=1),
    "bench": Ink(line="accent2", thick=5),
    "rope": Ink(line="accent4", thick=1.75, dash="sysDot"),
    "measure": Ink(line="accent5", thick=0.75, both_ends=True),
}
"""Straight pieces of equipment and building."""

PATHS: dict[PathRole, Ink] = {
    "child": Ink(line="dk2", thick=1.25, arrow=True),
    "ball": Ink(line="accent1", thick=1, dash="dash", arrow=True),
    "rotation": Ink(line="accent5", thick=3, arrow=True),
}
"""Ways of children, balls and groups."""


@lru_cache(maxsize=32)
def way_ink(role: PathRole, thin: float) -> Ink:
    """Return how a path is drawn at a share of its usual thickness."""
    return replace(PATHS[role], thick=round(PATHS[role].thick * thin, 2), stretch=max(1.0, thin))


@lru_cache(maxsize=32)
def line_ink(role: LineRole, thin: float) -> Ink:
    """Return how a straight piece is drawn at a share of its usual thickness."""
    return replace(LINES[role], thick=round(LINES[role].thick * thin, 2), stretch=max(1.0, thin))


LABEL_POINTS: dict[LabelSize, float] = {"small": 6.5, "normal": 8.0, "large": 11.0, "poster": 26.0, "wall": 36.0}
"""Letter sizes of labels."""
