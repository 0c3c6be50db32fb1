"""Stations in rows that make a ring: far row first, every second row backwards, so that the next station is near."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, permutations
from math import ceil

from lessonkit.logistics.groups import share_out
from lessonkit.logistics.layout import TINY, Box, Need, Room
from lessonkit.records.school import Side

APART = 1.0
"""Metres between two stations at least, to walk and to fetch a ball (common practice, no source)."""
_MOST_ORDERS = 300


@dataclass(frozen=True, slots=True)
class Block:
    """One way to lay out a station: its outer sides, columns and rows of areas, and the wall it stands against.

    ``turn`` is how far the areas are turned, in quarter turns anticlockwise.
    """

    length: float
    width: float
    columns: int
    rows: int
    turn: int
    wall: Side | None = None


Spot = tuple[Box, Block] | None
"""Where a station lies and how it is laid out; None for one without a place."""


def apart(one: Need, other: Need) -> float:
    """Return the distance between two stations: the larger safety distance, and room to walk."""
    return max(one.safety, other.safety, APART)


def in_rows(needs: Sequence[Need], choices: Sequence[tuple[Block, ...]], room: Room) -> list[Spot] | None:
    """Place the stations in rows, in a ring; None where no order of them and no number of rows works."""
    count = len(needs)
    for rows in _row_numbers(count, room):
        for order in islice(_orders(count), _MOST_ORDERS):
            spots = _laid_out(order, share_out(count, rows), needs, choices, room)
            if spots is not None:
                return [spots[number] for number in range(count)]
    return None


def _row_numbers(count: int, room: Room) -> list[int]:
    """Return numbers of rows, those with the squarest cells first."""
    return sorted(range(1, count + 1), key=lambda rows: abs(room.length / ceil(count / rows) - room.width / rows))


def _orders(count: int) -> Iterator[tuple[int, ...]]:
    """Yield orders of stations along the ring: as given, started elsewhere, then any."""
    given = tuple(range(count))
    for start in range(count):
        yield given[start:] + given[:start]
    yield from permutations(given)


def _laid_out(
    order: tuple[int, ...],
    rows: tuple[int, ...],
    needs: Sequence[Need],
    choices: Sequence[tuple[Block, ...]],
    room: Room,
) -> dict[int, tuple[Box, Block]] | None:
    """Lay stations out in rows from the far side, every second row backwards, so that the next one is a neighbour."""
    lined: list[list[tuple[int, Block]]] = []
    start = 0
    for row, size in enumerate(rows):
        members = order[start : start + size]
        start += size
        chosen = _chosen(members if row % 2 == 0 else members[::-1], row, len(rows), choices, room)
        if chosen is None:
            return None
        lined.append(chosen)
    heights = [max(block.width for _, block in row) for row in lined]
    spare = (room.width - sum(heights)) / (len(rows) + 1)
    spots: dict[int, tuple[Box, Block]] = {}
    top = room.width
    for line, height in zip(lined, heights, strict=True):
        top -= spare
        spots.update(_along_row(line, top, height, room))
        top -= height
    return spots if _agree(spots, needs, room) else None


def _chosen(
    members: tuple[int, ...], row: int, rows: int, choices: Sequence[tuple[Block, ...]], room: Room
) -> list[tuple[int, Block]] | None:
    """Choose how each station of a row is laid out: the shortest way that is not too deep, at a wall it is near."""
    deepest = (room.width - (rows + 1) * APART) / rows
    chosen = []
    for place, member in enumerate(members):
        near: dict[Side | None, bool] = {
            None: True,
            "far": row == 0,
            "near": row == rows - 1,
            "left": place == 0,
            "right": place == len(members) - 1,
        }
        fitting = [block for block in choices[member] if near[block.wall] and block.width <= deepest + TINY]
        if not fitting:
            return None
        chosen.append((member, min(fitting, key=lambda block: (block.length, block.width))))
    return chosen


def _along_row(
    row: list[tuple[int, Block]], top: float, height: float, room: Room
) -> Iterator[tuple[int, tuple[Box, Block]]]:
    """Set a row's stations side by side with equal spaces; those at a wall touch it."""
    spare = (room.length - sum(block.length for _, block in row)) / (len(row) + 1)
    x = spare
    for member, block in row:
        y = top - (height + block.width) / 2
        corner = {
            None: (x, y),
            "left": (0.0, y),
            "right": (room.length - block.length, y),
            "near": (x, 0.0),
            "far": (x, room.width - block.width),
        }[block.wall]
        yield member, (Box(round(corner[0], 4), round(corner[1], 4), block.length, block.width), block)
        x += block.length + spare


def _agree(spots: dict[int, tuple[Box, Block]], needs: Sequence[Need], room: Room) -> bool:
    """Tell whether every station keeps to the room and its distance from the others."""
    return all(
        _keeps_to_room(box, block, needs[number], room)
        and not any(
            box.overlaps(spots[other][0], apart(needs[number], needs[other])) for other in spots if other < number
        )
        for number, (box, block) in spots.items()
    )


def _keeps_to_room(box: Box, block: Block, need: Need, room: Room) -> bool:
    """Tell whether a block keeps its safety distance to every side but the wall it stands against, and to doors."""
    distances: dict[Side, float] = {
        "left": box.x,
        "right": room.length - box.x - box.length,
        "near": box.y,
        "far": room.width - box.y - box.width,
    }
    kept = all(distance >= need.safety - TINY for side, distance in distances.items() if side != block.wall)
    return kept and room.is_free(box)
