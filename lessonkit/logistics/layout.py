"""Where the groups of a class stand in a room, in metres: x from the left side, y from the near side."""

from dataclasses import dataclass

from lessonkit.records.school import Door, Side, Space

DOOR_CLEARANCE = 1.0
"""Metres kept clear in front of a door (common practice, no source)."""
TINY = 1e-6
"""Metres within which two lengths count as equal."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with its near left corner."""

    x: float
    y: float
    length: float
    width: float

    def overlaps(self, other: "Box", apart: float = 0.0) -> bool:
        """Tell whether two boxes overlap, or lie less than ``apart`` metres from each other along both axes."""
        slack = apart - TINY
        return (
            self.x < other.x + other.length + slack
            and other.x < self.x + self.length + slack
            and self.y < other.y + other.width + slack
            and other.y < self.y + self.width + slack
        )


@dataclass(frozen=True, slots=True)
class Need:
    """The floor that one group needs: its area and the clear distance around it.

    With ``wall`` the far edge of the area lies against a wall.
    """

    length: float
    width: float
    safety: float = 0.0
    wall: bool = False

    def sides(self, turned: bool) -> tuple[float, float]:
        """Return the sides of the area along the room's length and width, turned by a quarter or not."""
        return (self.width, self.length) if turned else (self.length, self.width)


@dataclass(frozen=True, slots=True)
class Room:
    """A room: its size, the sides with a wall to play against, and the boxes that stay clear."""

    length: float
    width: float
    walls: tuple[Side, ...] = ()
    clear: tuple[Box, ...] = ()

    def is_free(self, box: Box) -> bool:
        """Tell whether a box leaves clear what has to stay so."""
        return not any(box.overlaps(other) for other in self.clear)


@dataclass(frozen=True, slots=True)
class Placed:
    """The area of one group. ``turn`` is how far its own drawing is turned, in quarter turns anticlockwise."""

    box: Box
    turn: int
    name: str


@dataclass(frozen=True, slots=True)
class Layout:
    """A room with the areas placed in it, and the clear distance kept around each of them."""

    room_length: float
    room_width: float
    placed: tuple[Placed, ...]
    safety: float


def room_of(space: Space) -> Room:
    """Return a school's space as a room; the floor in front of its doors stays clear."""
    return Room(
        space.length.metres,
        space.width.metres,
        tuple(sorted(space.walls)),
        tuple(door_area(door, space) for door in space.doors),
    )


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


def in_reading_order(placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return areas numbered from 1 as they are read on a plan: the far row first, from left to right."""
    order = sorted(placed, key=lambda each: (-round(each.box.y + each.box.width / 2, 3), round(each.box.x, 3)))
    return tuple(Placed(each.box, each.turn, str(number)) for number, each in enumerate(order, 1))
