"""Exact packing into a room by constraint programming; the door to OR-Tools for floors.

Equal areas: every packing can be pushed towards the near left corner until each area touches the room's safety
distance, another area's, or a door's clear floor. So it is enough to look at the places that sums of such lengths
reach. One yes or no a place and turn; at each point of that lattice at most one area lies. This proves more, and
sooner, than intervals without overlap in two dimensions do. Blocks of different sizes, which are few, are placed by
such intervals.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from lessonkit.logistics.block_variables import BlockVariables, Choice, up
from lessonkit.logistics.layout import Box, Need, Placed, Room

_PER_METRE = 10_000
_MOST_PLACES = 6000
_WORK = 4.0
"""Limit of the search in the solver's deterministic seconds, so that every machine stops at the same answer."""

_Place = tuple[int, int, int, int, int]
"""Near left corner, length, width, and quarter turns, in tenths of a millimetre."""


@dataclass(frozen=True, slots=True)
class Packed:
    """The areas placed, and the number that is proven to be the most; None where the search stopped early."""

    placed: tuple[Placed, ...]
    most: int | None


def pack(need: Need, room: Room, at_most: int) -> Packed:
    """Place as many areas as the room holds, turned by a quarter or not, up to ``at_most``."""
    places = _places(need, room)
    if places is None:
        return Packed((), None)
    return _solve(places, _ticks(need.safety), at_most)


def _ticks(metres: float) -> int:
    return round(metres * _PER_METRE)


def _places(need: Need, room: Room) -> list[_Place] | None:
    """Return every place where an area can stand in a packing pushed to the near left corner; None if too many."""
    safety = _ticks(need.safety)
    sides = (_ticks(need.length), _ticks(need.width))
    columns = _reached(sides, safety, _ticks(room.length), (_ticks(box.x + box.length) for box in room.clear))
    rows = _reached(sides, safety, _ticks(room.width), (_ticks(box.y + box.width) for box in room.clear))
    if len(columns) * len(rows) > _MOST_PLACES:
        return None
    places = []
    for turned in (0,) if sides[0] == sides[1] else (0, 1):
        long, deep = sides[::-1] if turned else sides
        for x in columns:
            for y in rows:
                inside = x + long + safety <= _ticks(room.length) and y + deep + safety <= _ticks(room.width)
                if inside and room.is_free(_box((x, y, long, deep, turned))):
                    places.append((x, y, long, deep, turned))
    return places


def _reached(sides: tuple[int, int], safety: int, end: int, doors: Iterable[int]) -> list[int]:
    """Return the places along one side of the room that sums of areas and distances reach."""
    reached = {safety, *(door for door in doors if safety < door < end)}
    new = set(reached)
    while new:
        new = {start + side + safety for start in new for side in sides if start + side + safety < end} - reached
        reached |= new
    return sorted(reached)


def _box(place: _Place) -> Box:
    x, y, long, deep, _ = (number / _PER_METRE for number in place)
    return Box(x, y, long, deep)


def _solve(places: list[_Place], safety: int, at_most: int) -> Packed:
    from ortools.sat.python import cp_model

    model: Any = cp_model.CpModel()
    chosen = [model.new_bool_var("") for _ in places]
    for covering in _points(places, safety):
        model.add_at_most_one(chosen[number] for number in covering)
    model.add(sum(chosen) <= at_most)
    model.maximize(sum(chosen))
    solver: Any = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.catch_sigint_signal = False  # else it takes Ctrl-C away from the rest of the program
    solver.parameters.max_deterministic_time = _WORK
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Packed((), None)
    placed = [Placed(_box(place), place[4], "") for place, var in zip(places, chosen, strict=True) if solver.value(var)]
    return Packed(tuple(placed), len(placed) if status == cp_model.OPTIMAL else None)


def _points(places: list[_Place], safety: int) -> list[tuple[int, ...]]:
    """Return, for the points where two areas could meet, the places whose areas would cover the point."""
    columns = sorted({x for x, *_ in places})
    rows = sorted({y for _, y, *_ in places})
    covering: dict[tuple[int, int], list[int]] = {}
    for number, (x, y, long, deep, _) in enumerate(places):
        for column in columns:
            if x <= column < x + long + safety:
                for row in rows:
                    if y <= row < y + deep + safety:
                        covering.setdefault((column, row), []).append(number)
    return sorted({tuple(found) for found in covering.values() if len(found) > 1})


def place_blocks(
    choices: Sequence[tuple[Choice, ...]], safety: Sequence[float], apart: Sequence[Sequence[float]], room: Room
) -> list[tuple[Box, int] | None]:
    """Place different blocks, each in one of its choices, on a grid of decimetres; as many as there is room for.

    ``safety`` is each block's distance to the room's sides, ``apart`` that between every two. Returns, for each block,
    its box and the number of its choice, or None.
    """
    from ortools.sat.python import cp_model

    model: Any = cp_model.CpModel()
    blocks = [BlockVariables(model, options, kept, room) for options, kept in zip(choices, safety, strict=True)]
    model.add_no_overlap_2d([block.along for block in blocks], [block.across for block in blocks])
    for number, block in enumerate(blocks):
        for other, before in enumerate(blocks[:number]):
            block.keep_apart(before, up(apart[number][other]))
        for clear in room.clear:
            block.keep_clear(clear)
    model.maximize(sum(block.placed for block in blocks))
    solver: Any = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.catch_sigint_signal = False  # else it takes Ctrl-C away from the rest of the program
    solver.parameters.max_deterministic_time = _WORK
    if solver.solve(model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return [None] * len(blocks)
    return [block.found(solver) for block in blocks]
