"""An author's drawing of one group, turned into its place in a room."""

from dataclasses import dataclass

from lessonkit.logistics.layout import Placed


@dataclass(frozen=True, slots=True)
class Turned:
    """A box in a room (metres), and the quarter turns anticlockwise by which the drawing inside it is turned.

    The drawing's own area is ``box_length`` by ``box_width``, or the other way round after one or three turns.
    """

    x: float
    y: float
    box_length: float
    box_width: float
    turn: int

    @classmethod
    def into(cls, placed: Placed) -> "Turned":
        """Return the transformation into a placed area."""
        box = placed.box
        return cls(box.x, box.y, box.length, box.width, placed.turn)

    def point(self, at: tuple[float, float]) -> tuple[float, float]:
        """Return the place in the room of a point of the drawing."""
        x, y = at
        match self.turn % 4:
            case 0:
                turned = (x, y)
            case 1:
                turned = (self.box_length - y, x)
            case 2:
                turned = (self.box_length - x, self.box_width - y)
            case _:
                turned = (y, self.box_width - x)
        return round(self.x + turned[0], 4), round(self.y + turned[1], 4)
