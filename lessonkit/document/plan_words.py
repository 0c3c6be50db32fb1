"""The words of a floor plan: its legend, its scale, and the sentence for those who cannot see it."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Final

from lessonkit.document.scene import Area, LegendKind, LineRole, PathRole, Scene, Segment, Shape, Symbol, Way
from lessonkit.logistics.lengths import Lengths
from lessonkit.records.activity import Thing

WORDS: Final[dict[Thing, tuple[str, str]]] = {
    "child": ("child", "children"),
    "teacher": ("teacher", "teachers"),
    "ball": ("ball", "balls"),
    "cone": ("cone", "cones"),
    "spot": ("floor spot", "floor spots"),
    "hoop": ("hoop", "hoops"),
    "target": ("target", "targets"),
    "box": ("box", "boxes"),
    "goal": ("goal", "goals"),
    "mat": ("mat", "mats"),
    "bench": ("bench", "benches"),
    "net": ("net", "nets"),
    "line": ("line", "lines"),
    "rope": ("rope", "ropes"),
}
"""One and many of every thing, in the order of a legend."""
PATH_WORDS: Final[dict[PathRole, str]] = {
    "child": "child's way",
    "ball": "ball's way",
    "rotation": "next station",
}
_LINES: Final[tuple[tuple[LineRole, Thing], ...]] = (
    ("bench", "bench"),
    ("net", "net"),
    ("line", "line"),
    ("rope", "rope"),
)
_FOOT = 0.3048


def legend(shapes: Sequence[Shape], words: Mapping[str, str]) -> tuple[tuple[LegendKind, str], ...]:
    """Return what appears in a scene, people first, with its words; ``words`` names areas and walls, or renames."""
    things = {shape.what for shape in shapes if isinstance(shape, Symbol)}
    lines = {shape.role for shape in shapes if isinstance(shape, Segment)}
    things |= {thing for role, thing in _LINES if role in lines}
    ways = {shape.role for shape in shapes if isinstance(shape, Way)}
    areas = {shape.role for shape in shapes if isinstance(shape, Area)}
    entries: list[tuple[LegendKind, str]] = [
        (thing, words.get(thing, WORDS[thing][0])) for thing in WORDS if thing in things
    ]
    entries += [(role, said) for role, said in PATH_WORDS.items() if role in ways]
    entries += [(role, words[role]) for role in ("group", "station", "safety") if role in areas and role in words]
    entries += [("wall", words["wall"])] if "wall" in lines and "wall" in words else []
    return tuple(entries)


def scale_bar(length: float, lengths: Lengths) -> tuple[float, str]:
    """Return a round length, in metres and in the school's words, for the bar below a drawing of a length."""
    if lengths == "feet":
        feet = 10 if length > 6 else 3
        return feet * _FOOT, f"{feet}\u00a0ft"
    metres = 5 if length > 12 else 2 if length > 5 else 1
    return float(metres), f"{metres}\u00a0m"


def spoken(scene: Scene) -> str:
    """Say in a sentence what a scene shows."""
    room = next((shape for shape in scene.shapes if isinstance(shape, Area)), None)
    counts = Counter(shape.what for shape in scene.shapes if isinstance(shape, Symbol))
    lines = Counter(shape.role for shape in scene.shapes if isinstance(shape, Segment))
    parts = [_counted(counts[thing], thing) for thing in WORDS if counts[thing]]
    parts += [_counted(lines[role], thing) for role, thing in _LINES if lines[role]]
    groups = sum(isinstance(shape, Area) and shape.role == "group" for shape in scene.shapes)
    if room and room.role == "room" and groups > 1:
        parts.insert(0, f"{groups} spaces")
    name = room.name if room and room.role == "room" else "Space of one group"
    return f"{name}, {_size(scene)}: {', '.join(parts) or 'nothing marked'}."


def _counted(number: int, thing: Thing) -> str:
    return f"{number} {WORDS[thing][number > 1]}"


def _size(scene: Scene) -> str:
    """Say how large a scene is, in the lengths of its scale bar."""
    shown = next((shape for shape in scene.shapes if isinstance(shape, Area) and shape.role in ("room", "group")), None)
    width, depth = (shown.width, shown.depth) if shown else (scene.width, scene.depth)
    if scene.scale_words.endswith("ft"):
        return f"{round(width / _FOOT):g} by {round(depth / _FOOT):g} feet"
    return f"{round(width, 2):g} by {round(depth, 2):g} metres"
