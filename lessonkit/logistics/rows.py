"""Equal areas in rows and columns, as a teacher marks them out, and the most that any arrangement could hold."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from lessonkit.logistics.groups import share_out
from lessonkit.logistics.layout import TINY, Box, Need, Placed, Room

_PARTS = (1, 2, 3, 4, 5, 6)
"""Into how many steps the sides of an area are divided in search of a bound."""
_ALL_PARTS = 60


def most_by_counting(need: Need, room: Room) -> int:
    """Return a number of areas that no arrangement can pass, turned by a quarter or not.

    Half the safety distance goes with each area, so areas become tiles of a floor without gaps. Lay a lattice of points
    over the floor: every tile covers at least a certain number of them, whichever way it is turned, so the number of
    points limits the tiles. Fine lattices give the limit by area, coarse ones the limit by rows.
    """
    long, short = (_exact(side + need.safety) for side in (need.length, need.width))
    across, down = _exact(room.length - need.safety), _exact(room.width - need.safety)
    if min(across, down) <= 0:
        return 0
    steps = sorted({side // part for side in (long, short) for part in _PARTS})
    limit = across * down // (long * short)
    for step_x, step_y in product(steps, steps):
        covered = min((long // step_x) * (short // step_y), (short // step_x) * (long // step_y))
        if covered:
            limit = min(limit, (across // step_x) * (down // step_y) // covered)
    return limit


def _exact(metres: float) -> int:
    """Return a length as a whole number: tenths of a millimetre, as records keep lengths, in sixty parts."""
    return round(metres * 10_000) * _ALL_PARTS


@dataclass(frozen=True, slots=True)
class _Bands:
    """Rows of areas, then rows of areas turned by a quarter: sides of an area and number of rows for each.

    Rows run along the room's length, or with ``flipped`` along its width.
    """

    bands: tuple[tuple[float, float, int], ...]
    flipped: bool


def rows_and_columns(need: Need, room: Room) -> tuple[Placed, ...]:
    """Return the fullest arrangement in rows, some of them perhaps turned by a quarter."""
    ways = [(_count(bands, need, room), bands) for turned in (False, True) for bands in _ways(need, room, turned)]
    best: tuple[Placed, ...] = ()
    for count, bands in sorted(ways, key=lambda way: -way[0]):
        for pushed in (False, True):
            if count > len(best):
                best = max(best, _placed(bands, need, room, pushed), key=len)
    return best


def _ways(need: Need, room: Room, turned: bool) -> Iterator[_Bands]:
    """Lay rows of one kind, then fill what is left with rows of the other, along the room and across it."""
    long, deep = need.sides(turned)
    for flipped in (False, True):
        across = room.length if flipped else room.width
        for rows in range(how_many(across, deep, need.safety), 0, -1):
            left = across - rows * (deep + need.safety)
            yield _Bands(((long, deep, rows), (deep, long, how_many(left, long, need.safety))), flipped)


def _count(bands: _Bands, need: Need, room: Room) -> int:
    """Return how many areas rows hold if no door is in the way."""
    along = room.width if bands.flipped else room.length
    return sum(rows * how_many(along, long, need.safety) for long, _, rows in bands.bands)


def _placed(bands: _Bands, need: Need, room: Room, pushed: bool) -> tuple[Placed, ...]:
    """Fill rows from the near left corner, or with ``pushed`` from the far right one; doors stay clear."""
    along, across = (room.width, room.length) if bands.flipped else (room.length, room.width)
    placed = []
    at = need.safety
    for long, deep, rows in bands.bands:
        for _ in range(rows):
            for column in range(how_many(along, long, need.safety)):
                x, y = need.safety + column * (long + need.safety), at
                if pushed:
                    x, y = along - x - long, across - y - deep
                box = Box(y, x, deep, long) if bands.flipped else Box(x, y, long, deep)
                if room.is_free(box):
                    placed.append(Placed(box, _turn(box, need), ""))
            at += deep + need.safety
    return tuple(placed)


def _turn(box: Box, need: Need) -> int:
    return 0 if abs(box.length - need.length) < TINY and abs(box.width - need.width) < TINY else 1


def how_many(room: float, size: float, safety: float) -> int:
    """Return how many fit in a row with the safety distance between them and at both ends."""
    return max(0, int((room - safety + TINY) / (size + safety)))


def spread_out(need: Need, room: Room, groups: int) -> tuple[Placed, ...]:
    """Return areas spread loosely over the whole room, in rows as equal as can be; none where rows do not do.

    Wide spaces come first, then few gaps in the pattern, then areas that are not turned.
    """
    best: tuple[Placed, ...] = ()
    least = (0.0, groups, 1)
    for turned in (False, True):
        length, width = need.sides(turned)
        for rows in range(1, how_many(room.width, width, need.safety) + 1):
            columns = -(-groups // rows)
            if columns > how_many(room.length, length, need.safety):
                continue
            gaps = ((room.length - columns * length) / (columns + 1), (room.width - rows * width) / (rows + 1))
            worth = (-round(min(gaps), 2), columns * rows - groups, int(turned))
            placed = _loose(need, room, turned, share_out(groups, rows), gaps)
            if placed and (not best or worth < least):
                best, least = placed, worth
    return best


def _loose(
    need: Need, room: Room, turned: bool, rows: tuple[int, ...], gaps: tuple[float, float]
) -> tuple[Placed, ...]:
    """Return rows with equal spaces, each in the middle of the room; none if an area blocks a door."""
    length, width = need.sides(turned)
    placed = []
    for row, columns in enumerate(rows):
        start = (room.length - columns * length - (columns - 1) * gaps[0]) / 2
        y = room.width - (row + 1) * (width + gaps[1])
        for column in range(columns):
            box = Box(round(start + column * (length + gaps[0]), 6), round(y, 6), length, width)
            if not room.is_free(box):
                return ()
            placed.append(Placed(box, int(turned), ""))
    return tuple(placed)
