"""Floor plans: an activity's groups in their room, and the set-up of one group, as scenes in metres."""

from collections import Counter
from collections.abc import Iterator
from typing import Literal

from lessonkit.document.quarter_turn import Turned
from lessonkit.document.scene import Area, AreaRole, Label, LineRole, PathRole, Scene, Segment, Shape, Symbol, Way
from lessonkit.logistics.floor import fits
from lessonkit.logistics.groups import group
from lessonkit.logistics.layout import Layout, Placed
from lessonkit.records.activity import Activity, Drawing, Mark, Thing
from lessonkit.records.school import Space

_WORDS: dict[Thing, tuple[str, str]] = {
    "child": ("child", "children"),
    "teacher": ("teacher", "teachers"),
    "cone": ("cone", "cones"),
    "spot": ("floor spot", "floor spots"),
    "hoop": ("hoop", "hoops"),
    "ball": ("ball", "balls"),
    "net": ("net", "nets"),
    "line": ("line", "lines"),
    "target": ("target", "targets"),
    "box": ("box", "boxes"),
    "bench": ("bench", "benches"),
    "mat": ("mat", "mats"),
    "goal": ("goal", "goals"),
    "rope": ("rope", "ropes"),
}
_PATH_WORDS: dict[PathRole, str] = {
    "child": "a child's way",
    "ball": "the ball's way",
    "rotation": "next station",
}
_DRAWN_AS_LINES: dict[Thing, LineRole] = {"net": "net", "line": "line", "bench": "bench", "rope": "rope"}
_FOOT = 0.3048
Lengths = Literal["metres", "feet"]


def lesson_scene(activity: Activity, space: Space, children: int, lengths: Lengths) -> Scene:
    """Draw a room to scale with the groups of an activity (already resolved for the grade), children numbered."""
    layout = fits(activity, children, space).layout
    sizes = group(activity.organisation, children).sizes
    shapes: list[Shape] = [Area(0, 0, layout.room_length, layout.room_width, "room", space.title)]
    shapes.extend(_building(space))
    shapes.extend(_areas(layout))
    number = 1
    for placed, size in zip(layout.placed, sizes, strict=False):
        shapes.extend(_group(activity, placed, size, number))
        number += size
    bar, words = _scale_bar(layout.room_length, lengths)
    return Scene(
        layout.room_length, layout.room_width, tuple(shapes), _legend(shapes), scale_bar=bar, scale_words=words
    )


def group_scene(activity: Activity, lengths: Lengths) -> Scene:
    """Draw the set-up of one group, with the labels its author gave."""
    floor = activity.floor
    length, width = floor.length.metres, floor.width.metres
    shapes: list[Shape] = [Area(0, 0, length, width, "group", "space of one group")]
    if floor.wall:
        shapes.append(Segment(0, width, length, width, "wall", "wall"))
    if activity.drawing:
        turned = Turned(0, 0, length, width, 0)
        shapes.extend(_drawing(activity.drawing, turned))
        shapes.extend(_labels(activity.drawing, turned))
    bar, words = _scale_bar(length, lengths)
    return Scene(length, width, tuple(shapes), _legend(shapes), scale_bar=bar, scale_words=words)


def describe(scene: Scene) -> str:
    """Say in a sentence what a scene shows, for readers who cannot see it."""
    room = next((shape for shape in scene.shapes if isinstance(shape, Area)), None)
    counts = Counter(shape.what for shape in scene.shapes if isinstance(shape, Symbol))
    lines = Counter(shape.role for shape in scene.shapes if isinstance(shape, Segment))
    parts = [f"{number} {_WORDS[what][number > 1]}" for what, number in counts.items()]
    parts += [
        f"{lines[role]} {_WORDS[thing][lines[role] > 1]}" for thing, role in _DRAWN_AS_LINES.items() if role in lines
    ]
    groups = sum(isinstance(shape, Area) and shape.role == "group" for shape in scene.shapes)
    name = room.name if room else "Floor"
    if room and room.role == "room" and groups > 1:
        parts.insert(0, f"{groups} spaces")
    shown = ", ".join(parts) or "nothing marked"
    return f"{name[:1].upper()}{name[1:]}, {scene.width:g} by {scene.depth:g} metres, with {shown}."


def _building(space: Space) -> Iterator[Segment]:
    length, width = space.length.metres, space.width.metres
    sides = {
        "near": (0.0, 0.0, length, 0.0),
        "far": (0.0, width, length, width),
        "left": (0.0, 0.0, 0.0, width),
        "right": (length, 0.0, length, width),
    }
    for side in space.walls:
        yield Segment(*sides[side], "wall", f"{side} wall")
    for door in space.doors:
        x1, y1, x2, y2 = sides[door.side]
        start, end = door.at.metres - door.width.metres / 2, door.at.metres + door.width.metres / 2
        if door.side in ("near", "far"):
            yield Segment(start, y1, end, y2, "door", "door")
        else:
            yield Segment(x1, start, x2, end, "door", "door")


def _areas(layout: Layout) -> Iterator[Area]:
    for placed in layout.placed:
        box = placed.box
        yield Area(box.x, box.y, box.length, box.width, "group", f"space {placed.name}")


def _group(activity: Activity, placed: Placed, size: int, first: int) -> Iterator[Shape]:
    """Draw one group: its author's drawing turned into place, its children numbered from ``first``."""
    turned = Turned.into(placed)
    drawing = activity.drawing or _plain_drawing(activity, size)
    yield from (shape for shape in _drawing(drawing, turned) if not _is_child(shape))
    spots = [turned.point(mark.at) for mark in drawing.marks if mark.what == "child"][:size]
    if activity.organisation.form == "whole-class":
        yield from (Symbol(x, y, "child", "child") for x, y in spots)
        return
    while spots and len(spots) < size:
        spots.append(_beside(spots, turned))
    for number, (x, y) in enumerate(spots, first):
        yield Symbol(x, y, "child", f"child {number}", str(number))


def _is_child(shape: Shape) -> bool:
    return isinstance(shape, Symbol) and shape.what == "child"


def _beside(spots: list[tuple[float, float]], turned: Turned) -> tuple[float, float]:
    """Find a place for one more child: the place of the area that is farthest from the others."""
    candidates = [
        (turned.x + turned.box_length * across / 6, turned.y + turned.box_width * up / 6)
        for across in range(1, 6)
        for up in range(1, 6)
    ]
    return max(candidates, key=lambda at: min((at[0] - x) ** 2 + (at[1] - y) ** 2 for x, y in spots))


def _plain_drawing(activity: Activity, size: int) -> Drawing:
    """Stand the children of a group in a row where the author drew nothing."""
    length, width = activity.floor.length.metres, activity.floor.width.metres
    return Drawing(marks=tuple(Mark(what="child", at=(length * (n + 1) / (size + 1), width / 2)) for n in range(size)))


def _drawing(drawing: Drawing, turned: Turned) -> Iterator[Shape]:
    for mark in drawing.marks:
        x, y = turned.point(mark.at)
        if mark.to is not None and mark.what in _DRAWN_AS_LINES:
            x2, y2 = turned.point(mark.to)
            yield Segment(x, y, x2, y2, _DRAWN_AS_LINES[mark.what], _WORDS[mark.what][0])
    for path in drawing.paths:
        yield Way(tuple(turned.point(point) for point in path.through), path.what, _PATH_WORDS[path.what])
    for mark in drawing.marks:
        if mark.to is None or mark.what not in _DRAWN_AS_LINES:
            x, y = turned.point(mark.at)
            label = mark.label if mark.what == "child" else None
            yield Symbol(x, y, mark.what, _WORDS[mark.what][0], label)


def _labels(drawing: Drawing, turned: Turned) -> Iterator[Label]:
    for mark in drawing.marks:
        if mark.label and mark.what != "child":
            x, y = turned.point(mark.at)
            if mark.to is not None:
                x2, y2 = turned.point(mark.to)
                x, y = (x + x2) / 2, (y + y2) / 2
            yield Label(x, y - 0.35, mark.label, "small")


def _legend(shapes: list[Shape]) -> tuple[tuple[Thing | PathRole | AreaRole, str], ...]:
    things = dict.fromkeys(shape.what for shape in shapes if isinstance(shape, Symbol))
    lines = {shape.role for shape in shapes if isinstance(shape, Segment)}
    things.update(dict.fromkeys(thing for thing, role in _DRAWN_AS_LINES.items() if role in lines))
    ways = dict.fromkeys(shape.role for shape in shapes if isinstance(shape, Way))
    entries: list[tuple[Thing | PathRole | AreaRole, str]] = [(thing, _WORDS[thing][0]) for thing in things]
    entries += [(role, _PATH_WORDS[role]) for role in ways]
    return tuple(entries)


def _scale_bar(length: float, lengths: Lengths) -> tuple[float, str]:
    if lengths == "feet":
        feet = 10 if length > 6 else 3
        return feet * _FOOT, f"{feet}\u00a0ft"
    metres = 5 if length > 12 else 2 if length > 5 else 1
    return float(metres), f"{metres}\u00a0m"
