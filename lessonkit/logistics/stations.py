"""Several activities side by side in one room: every station has floor for the squad that visits it, kept apart.

Stations stand in rows where they can, in a ring, so that squads move on to a neighbour. Where rows do not do, the
solver places the stations one by one, or as many of them as there is room for.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, ceil, tau

from lessonkit.logistics.floor import need_of
from lessonkit.logistics.groups import group, share_out
from lessonkit.logistics.layout import Box, Need, Placed, Room, room_of
from lessonkit.logistics.station_rows import Block, Spot, apart, in_rows
from lessonkit.records.activity import Activity
from lessonkit.records.school import Space


@dataclass(frozen=True, slots=True)
class Station:
    """A station: its number from 1, activity, the children there first, its floor, and the areas of its groups."""

    number: int
    activity: Activity
    children: int
    box: Box
    areas: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class StationsAnswer:
    """Whether all stations fit at once, those that were placed, and a sentence."""

    fits: bool
    stations: tuple[Station, ...]
    says: str


def stations(activities: Sequence[Activity], children: int, space: Space) -> StationsAnswer:
    """Place the stations of a class (activities already resolved for the grade), each with room for any squad.

    They are numbered in the order in which squads go round: as given, or where the solver placed them, clockwise.
    Raises CannotGroupError when an activity cannot group its squad.
    """
    squads = share_out(children, len(activities))
    room = room_of(space)
    needs = [need_of(activity) for activity in activities]
    counts = [len(group(activity.organisation, squads[0]).sizes) for activity in activities]
    choices = [tuple(_blocks(need, count, room)) for need, count in zip(needs, counts, strict=True)]
    placed = in_rows(needs, choices, room)
    order = tuple(range(len(activities)))
    if placed is None:
        placed = _by_solver(needs, choices, room)
        order = _around(placed, room)
    found = tuple(
        Station(number, activities[place], squads[number - 1], spot[0], _areas(spot, needs[place], counts[place]))
        for number, place in enumerate(order, 1)
        if (spot := placed[place]) is not None
    )
    fits = len(found) == len(activities)
    missing = [activity.title for activity, spot in zip(activities, placed, strict=True) if spot is None]
    return StationsAnswer(fits, found, _says(len(found), missing, squads, space))


def _around(placed: Sequence[Spot], room: Room) -> tuple[int, ...]:
    """Return the stations that have a place, clockwise around the middle of the room, beginning with the first."""
    angles = {
        number: -atan2(spot[0].y + spot[0].width / 2 - room.width / 2, spot[0].x + spot[0].length / 2 - room.length / 2)
        for number, spot in enumerate(placed)
        if spot is not None
    }
    if not angles:
        return ()
    start = angles[min(angles)]
    return tuple(sorted(angles, key=lambda number: (round((angles[number] - start) % tau, 6), number)))


def _says(found: int, missing: list[str], squads: tuple[int, ...], space: Space) -> str:
    name = f"the {space.title[0].lower()}{space.title[1:]}"
    sizes = f"{squads[0]}" if squads[0] == squads[-1] else f"{squads[-1]} or {squads[0]}"
    if not missing:
        return f"All {found} stations fit {name} at once, for squads of {sizes}."
    if not found:
        return f"None of the stations fits {name} with a squad of {squads[0]}."
    left = ", ".join(missing)
    return f"Only {found} of {found + len(missing)} stations fit {name} at once; there is no room for {left}."


def _blocks(need: Need, count: int, room: Room) -> Iterator[Block]:
    """Yield the ways to lay out a station's areas: rows and columns, turned or not; along a wall if they need one."""
    if need.wall:
        along, deep = count * need.length + (count - 1) * need.safety, need.width
        for wall in room.walls:
            turn = {"far": 0, "left": 1, "near": 2, "right": 3}[wall]
            upright = wall in ("left", "right")
            size = (deep, along) if upright else (along, deep)
            yield Block(*size, *((1, count) if upright else (count, 1)), turn, wall)
        return
    for turned in (False, True) if need.length != need.width else (False,):
        length, width = need.sides(turned)
        for columns in range(1, count + 1):
            rows = ceil(count / columns)
            if ceil(count / rows) == columns:
                yield Block(
                    columns * length + (columns - 1) * need.safety,
                    rows * width + (rows - 1) * need.safety,
                    columns,
                    rows,
                    int(turned),
                )


def _by_solver(needs: Sequence[Need], choices: Sequence[tuple[Block, ...]], room: Room) -> list[Spot]:
    from lessonkit.logistics.packing import place_blocks

    distances = [[apart(one, other) for other in needs] for one in needs]
    found = place_blocks(
        [tuple((block.length, block.width, block.wall) for block in blocks) for blocks in choices],
        [need.safety for need in needs],
        distances,
        room,
    )
    return [None if spot is None else (spot[0], choices[number][spot[1]]) for number, spot in enumerate(found)]


def _areas(spot: tuple[Box, Block], need: Need, count: int) -> tuple[Placed, ...]:
    """Return the areas inside a station's block, far row first."""
    box, block = spot
    length, width = need.sides(block.turn % 2 == 1)
    areas = []
    for number in range(count):
        row, column = divmod(number, block.columns)
        x = box.x + column * (length + need.safety)
        y = box.y + box.width - width - row * (width + need.safety)
        areas.append(Placed(Box(round(x, 4), round(y, 4), length, width), block.turn, str(number + 1)))
    return tuple(areas)
