"""The variables of a block that is placed in a room by the solver, on a grid of decimetres."""

from collections.abc import Iterable
from math import ceil, floor
from typing import Any

from lessonkit.logistics.layout import Box, Room
from lessonkit.records.school import Side

_TENTHS = 10
_HAIR = 1e-6
Choice = tuple[float, float, Side | None]
"""One way to lay out a block, in metres: its sides along the room's length and width, and the wall it lies against."""


class BlockVariables:
    """A block's variables in a model: where it lies, how it is laid out, and whether it is placed at all."""

    def __init__(self, model: Any, options: tuple[Choice, ...], safety: float, room: Room) -> None:
        self.model = model
        self.options = options
        long, deep = floor(room.length * _TENTHS + _HAIR), floor(room.width * _TENTHS + _HAIR)
        self.x, self.y = model.new_int_var(0, long, ""), model.new_int_var(0, deep, "")
        self.right, self.far = model.new_int_var(0, long, ""), model.new_int_var(0, deep, "")
        self.chosen = [model.new_bool_var("") for _ in options]
        self.placed = model.new_bool_var("")
        model.add(sum(self.chosen) == self.placed)
        self.along = self._span(self.x, self.right, [up(option[0]) for option in options])
        self.across = self._span(self.y, self.far, [up(option[1]) for option in options])
        for var, option in zip(self.chosen, options, strict=True):
            self._keep_to_sides(var, option[2], up(safety), (long, deep))

    def _span(self, start: Any, end: Any, sizes: list[int]) -> Any:
        """Return the interval of the block along one axis, as long as the choice made."""
        size = self.model.new_int_var(0, max(sizes, default=0), "")
        self.model.add(size == sum(var * length for var, length in zip(self.chosen, sizes, strict=True)))
        return self.model.new_optional_interval_var(start, size, end, self.placed, "")

    def _keep_to_sides(self, chosen: Any, wall: Side | None, safety: int, room: tuple[int, int]) -> None:
        """Keep the safety distance to every side but a wall, which the block touches."""
        gaps = {"left": self.x, "right": room[0] - self.right, "near": self.y, "far": room[1] - self.far}
        for side, gap in gaps.items():
            self.model.add(gap == 0 if side == wall else gap >= safety).only_enforce_if(chosen)

    def keep_apart(self, other: "BlockVariables", distance: int) -> None:
        """Keep a distance along one of the axes from another block."""
        ways = (
            self.right + distance <= other.x,
            other.right + distance <= self.x,
            self.far + distance <= other.y,
            other.far + distance <= self.y,
        )
        self._one_of(ways, (self.placed, other.placed))

    def keep_clear(self, clear: Box) -> None:
        """Keep off a box."""
        left, right = floor(clear.x * _TENTHS + _HAIR), up(clear.x + clear.length)
        near, far = floor(clear.y * _TENTHS + _HAIR), up(clear.y + clear.width)
        self._one_of((self.right <= left, self.x >= right, self.far <= near, self.y >= far), (self.placed,))

    def _one_of(self, ways: Iterable[Any], where: tuple[Any, ...]) -> None:
        choices = []
        for way in ways:
            choice = self.model.new_bool_var("")
            self.model.add(way).only_enforce_if(choice)
            choices.append(choice)
        self.model.add_bool_or(choices).only_enforce_if(*where)

    def found(self, solver: Any) -> tuple[Box, int] | None:
        """Return where the block lies in the solution, and the number of its choice."""
        if not solver.value(self.placed):
            return None
        number = next(place for place, var in enumerate(self.chosen) if solver.value(var))
        length, width, wall = self.options[number]
        x, y = solver.value(self.x) / _TENTHS, solver.value(self.y) / _TENTHS
        if wall == "right":
            x = solver.value(self.right) / _TENTHS - length
        if wall == "far":
            y = solver.value(self.far) / _TENTHS - width
        return Box(round(x, 4), round(y, 4), length, width), number


def up(metres: float) -> int:
    """Return a length in whole decimetres, rounded up so that a block is never squeezed."""
    return ceil(metres * _TENTHS - _HAIR)
