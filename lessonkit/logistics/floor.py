"""Does an activity fit the floor: its groups placed in the room with their safety distance.

All groups of an activity need the same rectangle, so rows and columns of it, in either direction, hold as many as any
arrangement that a teacher could mark out. Neighbours share their safety distance; it is also kept to the room's sides,
except to the wall that a group plays against. The floor in front of a door stays clear.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import floor as whole

from lessonkit.logistics.groups import group
from lessonkit.logistics.layout import Box, Layout, Placed
from lessonkit.records.activity import Activity
from lessonkit.records.school import Door, Side, Space

DOOR_CLEARANCE = 1.0
"""Metres kept clear in front of a door (common practice, no source)."""
_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class FloorAnswer:
    """Whether an activity fits: the groups it needs, the most the room holds, where they stand, and a sentence.

    ``layout`` shows as many groups as there is room for.
    """

    fits: bool
    groups: int
    largest: int
    layout: Layout
    says: str


@dataclass(frozen=True, slots=True)
class _Need:
    length: float
    width: float
    safety: float
    wall: bool


def fits(activity: Activity, children: int, space: Space) -> FloorAnswer:
    """Say whether an activity (already resolved for the grade) fits a space with a class of ``children``."""
    groups = len(group(activity.organisation, children).sizes)
    floor = activity.floor
    need = _Need(floor.length.metres, floor.width.metres, floor.safety.metres if floor.safety else 0.0, floor.wall)
    places = _places(need, space)
    shown = _spread(need, space, places, groups)
    layout = Layout(space.length.metres, space.width.metres, shown, need.safety)
    largest = len(places)
    if activity.organisation.form == "whole-class" and largest:
        return FloorAnswer(True, 1, 1, layout, f"The class fits {_the(space)}.")
    return FloorAnswer(largest >= groups, groups, largest, layout, _says(activity, groups, largest, space))


def _the(space: Space) -> str:
    return f"the {space.title[0].lower()}{space.title[1:]}"


def _says(activity: Activity, groups: int, largest: int, space: Space) -> str:
    floor = activity.floor
    size = f"{floor.length} by {floor.width}"
    against = " against its walls" if floor.wall else ""
    if not largest:
        return f"Not even one group fits {_the(space)}{against}: it needs {size}."
    if largest >= groups:
        return f"{groups} of at most {largest} groups fit {_the(space)}{against}."
    rest = f" {floor.if_more}" if floor.if_more else ""
    return f"Only {largest} of {groups} groups fit {_the(space)}{against}, each {size}.{rest}"


@lru_cache(maxsize=4096)
def _places(need: _Need, space: Space) -> tuple[Placed, ...]:
    """Return as many places as the room holds."""
    if need.wall:
        return _along_walls(need, space)
    ways = [_grid(need, space, turned) for turned in (False, True)]
    return max(ways, key=len)


def _grid(
    need: _Need, space: Space, turned: bool, columns: int | None = None, rows: int | None = None
) -> tuple[Placed, ...]:
    """Return the rows and columns of a room, spread evenly over it, without those that block a door."""
    length, width = (need.width, need.length) if turned else (need.length, need.width)
    columns = columns or _how_many(space.length.metres, length, need.safety, 2)
    rows = rows or _how_many(space.width.metres, width, need.safety, 2)
    if not columns or not rows:
        return ()
    gap_x = (space.length.metres - columns * length) / (columns + 1)
    gap_y = (space.width.metres - rows * width) / (rows + 1)
    boxes = [
        Box(gap_x + column * (length + gap_x), gap_y + row * (width + gap_y), length, width)
        for row in range(rows)
        for column in range(columns)
    ]
    clear = [door_area(door, space) for door in space.doors]
    free = [box for box in boxes if not any(box.overlaps(door) for door in clear)]
    return tuple(Placed(box, 1 if turned else 0, str(number)) for number, box in enumerate(free, 1))


def _how_many(room: float, size: float, safety: float, sides: int) -> int:
    """Return how many fit in a row with the safety distance between them and to ``sides`` of the row's ends."""
    return max(0, whole((room - (sides - 1) * safety + _TINY) / (size + safety)))


def _spread(need: _Need, space: Space, places: tuple[Placed, ...], groups: int) -> tuple[Placed, ...]:
    """Choose where the groups stand: loosely over the whole room where it holds more than are needed."""
    if need.wall or len(places) <= groups:
        return places[:groups]
    best: tuple[Placed, ...] = places[:groups]
    least = len(places) + 1
    for turned in (False, True):
        length, width = (need.width, need.length) if turned else (need.length, need.width)
        most_columns = _how_many(space.length.metres, length, need.safety, 2)
        most_rows = _how_many(space.width.metres, width, need.safety, 2)
        for rows in range(1, most_rows + 1):
            columns = -(-groups // rows)
            if columns > most_columns or columns * rows > least:
                continue
            found = _grid(need, space, turned, columns, rows)
            if len(found) >= groups and columns * rows < least:
                best, least = found[:groups], columns * rows
    return best


def door_area(door: Door, space: Space) -> Box:
    """Return the floor in front of a door that stays clear."""
    middle, half = door.at.metres, door.width.metres / 2
    match door.side:
        case "near":
            return Box(middle - half, 0, 2 * half, DOOR_CLEARANCE)
        case "far":
            return Box(middle - half, space.width.metres - DOOR_CLEARANCE, 2 * half, DOOR_CLEARANCE)
        case "left":
            return Box(0, middle - half, DOOR_CLEARANCE, 2 * half)
        case "right":
            return Box(space.length.metres - DOOR_CLEARANCE, middle - half, DOOR_CLEARANCE, 2 * half)


_TURNS: dict[Side, int] = {"far": 0, "left": 1, "near": 2, "right": 3}


def _along_walls(need: _Need, space: Space) -> tuple[Placed, ...]:
    """Return places against the usable walls. Walls are filled in every order; the order that holds most wins."""
    best: tuple[Placed, ...] = ()
    walls = sorted(space.walls)
    for first in range(len(walls)):
        order = walls[first:] + walls[:first]
        for sequence in (order, order[::-1]):
            found = _fill(need, space, sequence)
            if len(found) > len(best):
                best = found
    return tuple(Placed(placed.box, placed.turn, str(number)) for number, placed in enumerate(best, 1))


def _fill(need: _Need, space: Space, walls: list[Side]) -> tuple[Placed, ...]:
    taken = [door_area(door, space) for door in space.doors]
    doors = len(taken)
    placed: list[Placed] = []
    for wall in walls:
        along = space.length.metres if wall in ("near", "far") else space.width.metres
        across = space.width.metres if wall in ("near", "far") else space.length.metres
        if need.width + need.safety > across + _TINY:
            continue
        at = need.safety
        while at + need.length + need.safety <= along + _TINY:
            box = _against(wall, at, need, space)
            blocked = any(box.overlaps(other) for other in taken[:doors])
            close = any(box.overlaps(other, need.safety) for other in taken[doors:])
            if blocked or close:
                at += 0.1
                continue
            placed.append(Placed(box, _TURNS[wall], ""))
            taken.append(box)
            at += need.length + need.safety
    return tuple(placed)


def _against(wall: Side, at: float, need: _Need, space: Space) -> Box:
    at = round(at, 6)
    match wall:
        case "far":
            return Box(at, space.width.metres - need.width, need.length, need.width)
        case "near":
            return Box(at, 0, need.length, need.width)
        case "left":
            return Box(0, at, need.width, need.length)
        case "right":
            return Box(space.length.metres - need.width, at, need.width, need.length)
