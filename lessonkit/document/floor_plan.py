"""Floor plans: an activity's groups in their room, and the set-up of one group, as scenes in metres."""

from collections.abc import Iterator
from functools import lru_cache

from lessonkit.document.group_drawing import drawn, labels_of, one_more, plain_drawing
from lessonkit.document.plan_words import legend, scale_bar, spoken
from lessonkit.document.quarter_turn import Turned
from lessonkit.document.same import Same
from lessonkit.document.scene import Area, Label, Scene, Segment, Shape, Symbol
from lessonkit.logistics.floor import FloorAnswer, fits
from lessonkit.logistics.groups import Grouping, group
from lessonkit.logistics.layout import Layout, Placed
from lessonkit.logistics.lengths import Lengths, say_length
from lessonkit.records.activity import Activity
from lessonkit.records.school import Door, Space

_MARGIN = 0.4
"""Metres of floor shown around a group that needs no clear space."""
_KEPT = 64
"""How many drawings are kept."""


def lesson_scene(activity: Activity, space: Space, children: int, lengths: Lengths) -> Scene:
    """Draw a room to scale with the groups of an activity (already resolved for the grade), children numbered.

    Pages are tried in many sizes with the same drawing, so the last ones are kept.
    """
    return _lesson_scene(Same(activity), Same(space), children, lengths)


@lru_cache(maxsize=_KEPT)
def _lesson_scene(of: Same[Activity], where: Same[Space], children: int, lengths: Lengths) -> Scene:
    activity, space = of.record, where.record
    answer = fits(activity, children, space)
    grouping = group(activity.organisation, children)
    room = answer.layout
    shapes: list[Shape] = [Area(0, 0, room.room_length, room.room_width, "room", space.title)]
    shapes.extend(
        Area(each.box.x, each.box.y, each.box.length, each.box.width, "group", f"space {each.name}")
        for each in room.placed
    )
    shapes.extend(building(space))
    number = 1
    for placed, size in zip(room.placed, grouping.sizes, strict=False):
        shapes.extend(group_in_place(activity, placed, size, number))
        number += size
    words = {"child": _children_words(activity, grouping, shapes), "group": _group_words(activity, answer)}
    if activity.floor.wall:
        words["wall"] = "wall to play against"
    bar, said = scale_bar(room.room_length, lengths)
    return Scene(
        room.room_length, room.room_width, tuple(shapes), legend(shapes, words), scale_bar=bar, scale_words=said
    )


def group_scene(activity: Activity, lengths: Lengths) -> Scene:
    """Draw the set-up of one group with the labels its author gave, and the floor around it that stays clear."""
    return _group_scene(Same(activity), lengths)


@lru_cache(maxsize=_KEPT)
def _group_scene(of: Same[Activity], lengths: Lengths) -> Scene:
    activity = of.record
    floor = activity.floor
    length, width = floor.length.metres, floor.width.metres
    words = {"safety": f"kept clear, {say_length(floor.safety, lengths)}"} if floor.safety and floor.clear else {}
    margin = floor.clear or _MARGIN
    across, deep = length + 2 * margin, width + (1 if floor.wall else 2) * margin
    shapes: list[Shape] = [Area(0, 0, across, deep, "safety", "kept clear")] if floor.clear else []
    shapes.append(Area(margin, margin, length, width, "group", "space of one group"))
    if floor.wall:
        shapes.append(Segment(0, deep, across, deep, "wall", "wall"))
    drawing = activity.drawing or plain_drawing(activity, 1)
    turned = Turned(margin, margin, length, width, 0)
    shapes.extend(drawn(drawing, turned))
    shapes.extend(labels_of(drawing, turned))
    bar, said = scale_bar(across, lengths)
    return Scene(across, deep, tuple(shapes), legend(shapes, words), scale_bar=bar, scale_words=said)


def areas_scene(layout: Layout, lengths: Lengths) -> Scene:
    """Draw a room with numbered areas and nothing in them."""
    shapes: list[Shape] = [Area(0, 0, layout.room_length, layout.room_width, "room", "Room")]
    for placed in layout.placed:
        box = placed.box
        shapes.append(Area(box.x, box.y, box.length, box.width, "group", f"area {placed.name}"))
        shapes.append(Label(box.x + box.length / 2, box.y + box.width / 2, placed.name, "large"))
    bar, said = scale_bar(layout.room_length, lengths)
    return Scene(
        layout.room_length,
        layout.room_width,
        tuple(shapes),
        legend(shapes, {"group": "area"}),
        scale_bar=bar,
        scale_words=said,
    )


def describe(scene: Scene) -> str:
    """Say in a sentence what a scene shows, for readers who cannot see it."""
    return spoken(scene)


def building(space: Space) -> Iterator[Shape]:
    """Draw the walls of a space that may be played against, and its doors."""
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
        yield from _door(door, sides[door.side])


def _door(door: Door, side: tuple[float, float, float, float]) -> Iterator[Shape]:
    x, y, _, _ = side
    start, end = door.at.metres - door.width.metres / 2, door.at.metres + door.width.metres / 2
    if door.side in ("near", "far"):
        yield Segment(start, y, end, y, "door", "door")
        yield Label(door.at.metres, y, "door", "small", clear=0.1, needed=False)
    else:
        yield Segment(x, start, x, end, "door", "door")
        yield Label(x, door.at.metres, "door", "small", clear=0.1, needed=False)


def group_in_place(activity: Activity, placed: Placed, size: int, first: int) -> Iterator[Shape]:
    """Draw one group: its author's drawing turned into place, its children numbered from ``first``."""
    turned = Turned.into(placed)
    drawing = activity.drawing or plain_drawing(activity, size)
    shapes = [shape for shape in drawn(drawing, turned) if not _is_child(shape)]
    yield from shapes
    spots = [turned.point(mark.at) for mark in drawing.marks if mark.what == "child"][:size]
    if activity.organisation.form == "whole-class":
        yield from (Symbol(x, y, "child", "child") for x, y in spots)
        return
    while len(spots) < size:
        spots.append(one_more(spots, shapes, turned))
    for number, (x, y) in enumerate(spots, first):
        yield Symbol(x, y, "child", f"child {number}", str(number))


def _is_child(shape: Shape) -> bool:
    return isinstance(shape, Symbol) and shape.what == "child"


def _children_words(activity: Activity, grouping: Grouping, shapes: list[Shape]) -> str:
    """Say who the children of a plan are, where they are not simply all there and numbered."""
    shown = sum(_is_child(shape) for shape in shapes)
    everyone = sum(grouping.sizes)
    if activity.organisation.form == "whole-class" and shown < everyone:
        return f"child, {shown} of {everyone} drawn"
    if grouping.rotating_in:
        return f"child, {grouping.rotating_in} more changing in"
    return "child"


def _group_words(activity: Activity, answer: FloorAnswer) -> str:
    """Say whose floor a marked space is, and how many have none at the same time."""
    whose = {"individuals": "own space", "whole-class": "space to play in"}
    words = whose.get(activity.organisation.form, "group's space")
    return words if answer.fits else f"{words}, {answer.largest} of {answer.groups}"
