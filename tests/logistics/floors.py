"""Rooms and activities for the tests of floors, and slow ways to count what a room holds."""

from itertools import combinations, product

import networkx

from lessonkit.logistics.layout import Box, Need, Room
from lessonkit.records.activity import Activity, Drawing, Floor, Form, Inclusion, Minutes, Organisation, Uneven
from lessonkit.records.measures import GradeBand, Length
from lessonkit.records.school import Door, Side, Space


def metres(number: float) -> Length:
    """Return a length in metres."""
    return Length(number, f"{number:g} m")


def gym(length: float = 22, width: float = 14, walls: tuple[Side, ...] = (), doors: tuple[Door, ...] = ()) -> Space:
    """Return a gym."""
    return Space(
        id="gym",
        title="Gym",
        length=metres(length),
        width=metres(width),
        where="indoors",
        surface="wood",
        walls=walls,
        doors=doors,
    )


def door(side: Side, at: float, width: float = 2) -> Door:
    """Return a door."""
    return Door(side=side, at=metres(at), width=metres(width))


def activity(
    length: float,
    width: float,
    safety: float,
    *,
    form: Form = "individuals",
    wall: bool = False,
    side: int | None = None,
    uneven: Uneven | None = None,
    most_children: int | None = None,
    if_more: str | None = "Take turns.",
    drawing: Drawing | None = None,
    title: str = "Test",
) -> Activity:
    """Return an activity that needs a floor of a size for each of its groups."""
    return Activity(
        kind="activity",
        id="test",
        title=title,
        summary="A test.",
        grades=GradeBand("3", "3"),
        parts=("practice",),
        outcomes={},
        minutes=Minutes(least=5, usual=5, most=5),
        organisation=Organisation(form=form, side=side, uneven=uneven),
        floor=Floor(
            length=metres(length),
            width=metres(width),
            safety=metres(safety),
            wall=wall,
            most_children=most_children,
            if_more=if_more,
        ),
        effort="light",
        steps="1. Do it.",
        cues=(),
        easier=(),
        harder=(),
        inclusion=Inclusion(),
        safety=(),
        drawing=drawing,
    )


def every_place(need: Need, room: Room) -> list[Box]:
    """Return every box at whole metres that keeps its safety distance to the sides, and to doors their floor."""
    found = []
    for length, width in {(need.length, need.width), (need.width, need.length)}:
        spaces = (range(int(room.length)), range(int(room.width)))
        for x, y in product(*spaces):
            inside_x = need.safety <= x and x + length + need.safety <= room.length
            inside_y = need.safety <= y and y + width + need.safety <= room.width
            box = Box(x, y, length, width)
            if inside_x and inside_y and not any(_apart(box, other) < 0 for other in room.clear):
                found.append(box)
    return found


def every_place_at_walls(need: Need, room: Room) -> list[Box]:
    """Return every box at whole metres with its far edge at a wall, clear of the ends of the wall and of the doors."""
    found = []
    for side in room.walls:
        along, across = (room.length, room.width) if side in ("near", "far") else (room.width, room.length)
        if need.width + need.safety > across:
            continue
        for at in range(int(need.safety), int(along - need.length - need.safety) + 1):
            box = {
                "near": Box(at, 0, need.length, need.width),
                "far": Box(at, room.width - need.width, need.length, need.width),
                "left": Box(0, at, need.width, need.length),
                "right": Box(room.length - need.width, at, need.width, need.length),
            }[side]
            if not any(_apart(box, other) < 0 for other in room.clear):
                found.append(box)
    return found


def most_at_once(boxes: list[Box], safety: float) -> int:
    """Return how many of the boxes can lie in the room at once: the largest clique of a graph of boxes that agree."""
    agreeing = networkx.Graph()
    agreeing.add_nodes_from(range(len(boxes)))
    agreeing.add_edges_from(
        (one, other) for one, other in combinations(range(len(boxes)), 2) if _apart(boxes[one], boxes[other]) >= safety
    )
    return len(networkx.max_weight_clique(agreeing, weight=None)[0])


def _apart(one: Box, other: Box) -> float:
    """Return the wider of the distances along the two axes, below 0 where the boxes overlap."""
    apart_x = max(one.x - other.x - other.length, other.x - one.x - one.length)
    apart_y = max(one.y - other.y - other.width, other.y - one.y - one.width)
    return max(apart_x, apart_y)
