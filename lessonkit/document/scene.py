"""Drawing primitives for floor plans, in metres: x to the right from the left side, y up from the near side.

Kinds and roles say what a mark means; a writer gives each its form, the same in every document, readable in black and
white.
"""

from dataclasses import dataclass
from typing import Final, Literal

from lessonkit.records.activity import Thing

AreaRole = Literal["room", "group", "safety", "station"]
LineRole = Literal["wall", "door", "net", "line", "bench", "rope", "measure"]
PathRole = Literal["child", "ball", "rotation"]
LabelSize = Literal["small", "normal", "large", "poster", "wall"]
LegendKind = Thing | PathRole | AreaRole | LineRole
HALVES: Final[dict[Thing, tuple[float, float]]] = {
    "child": (0.26, 0.26),
    "teacher": (0.34, 0.34),
    "cone": (0.22, 0.24),
    "spot": (0.35, 0.35),
    "hoop": (0.4, 0.4),
    "ball": (0.14, 0.14),
    "net": (0.5, 0.16),
    "line": (0.5, 0.02),
    "target": (0.36, 0.36),
    "box": (0.28, 0.28),
    "bench": (0.9, 0.15),
    "mat": (0.7, 0.4),
    "goal": (0.6, 0.25),
    "rope": (0.5, 0.12),
}
"""Half of the metres that things reach across and up on the floor."""


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle: its near left corner, width along x, depth along y."""

    x: float
    y: float
    width: float
    depth: float
    role: AreaRole
    name: str


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight piece of equipment or building. ``thin`` is the share of its usual thickness."""

    x1: float
    y1: float
    x2: float
    y2: float
    role: LineRole
    name: str
    thin: float = 1.0


@dataclass(frozen=True, slots=True)
class Symbol:
    """A person or piece of equipment at a point. ``label`` is a number or letter drawn inside or beside it.

    ``least`` is the share of its usual smallest size on paper that will do, for crowded drawings.
    """

    x: float
    y: float
    what: Thing
    name: str
    label: str | None = None
    least: float = 1.0


@dataclass(frozen=True, slots=True)
class Way:
    """A path with an arrowhead at its end. ``thin`` is the share of its usual thickness."""

    points: tuple[tuple[float, float], ...]
    role: PathRole
    name: str
    thin: float = 1.0


@dataclass(frozen=True, slots=True)
class Label:
    """Words centred on a point, or ``clear`` metres beside it where they name what stands there.

    Writers move a label that would cover something. One that is not ``needed`` is left out where every place near what
    it names would cover something, be it a line.
    """

    x: float
    y: float
    words: str
    size: LabelSize = "normal"
    clear: float = 0.0
    needed: bool = True


Shape = Area | Segment | Symbol | Way | Label


@dataclass(frozen=True, slots=True)
class Scene:
    """A drawing ``width`` by ``depth`` metres: shapes from back to front, a legend, and a scale bar in metres."""

    width: float
    depth: float
    shapes: tuple[Shape, ...]
    legend: tuple[tuple[LegendKind, str], ...] = ()
    scale_bar: float = 0.0
    scale_words: str = ""
