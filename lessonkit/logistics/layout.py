"""Where the groups of a class stand in a room, in metres: x from the left side, y from the near side."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle with its near left corner."""

    x: float
    y: float
    length: float
    width: float

    def overlaps(self, other: "Box", apart: float = 0.0) -> bool:
        """Tell whether two boxes overlap, or lie less than ``apart`` metres from each other along both axes."""
        slack = apart - 1e-9
        return (
            self.x < other.x + other.length + slack
            and other.x < self.x + self.length + slack
            and self.y < other.y + other.width + slack
            and other.y < self.y + self.width + slack
        )


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
