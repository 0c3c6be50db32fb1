"""Equal areas along the walls that a class plays against: as many as the walls hold, and a loose choice of them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, product
from typing import Final

from lessonkit.logistics.layout import TINY, Box, Need, Placed, Room
from lessonkit.records.school import Side

_TURNS: Final[dict[Side, int]] = {"far": 0, "left": 1, "near": 2, "right": 3}
_CORNERS: Final[tuple[tuple[Side, Side], ...]] = (
    ("left", "near"),
    ("left", "far"),
    ("right", "near"),
    ("right", "far"),
)
_OPPOSITE: Final[dict[Side, Side]] = {"left": "right", "right": "left", "near": "far", "far": "near"}


@dataclass(frozen=True, slots=True)
class _Wall:
    """A wall with the stretch along it that areas may take, in metres from the left or near corner."""

    side: Side
    start: float
    end: float


def along_walls(need: Need, room: Room) -> tuple[Placed, ...]:
    """Return the most areas that stand against the walls, each with its far edge at one.

    Where two walls meet, one of them leaves the corner to the other, so every choice of walls and corners is tried;
    along a wall the areas are set as early as they can be, which no other order of equal areas beats. Opposite walls
    so near that their areas would meet are not used together.
    """
    ways = (_filled(walls, need, room) for walls in _choices(need, room))
    return max(ways, key=len, default=())


def spread_along(need: Need, room: Room, groups: int) -> tuple[Placed, ...]:
    """Return areas for ``groups`` along the walls, loosely where a wall has room to spare; ``groups`` must fit."""
    chosen = min(
        (walls for walls in _choices(need, room) if len(_filled(walls, need, room)) >= groups),
        key=lambda walls: (_tightness(walls, need, room, groups), len(walls)),
    )
    counts = _shared(chosen, need, room, groups)
    placed: list[Placed] = []
    for wall, count in zip(chosen, counts, strict=True):
        placed.extend(_loosely(wall, count, need, room))
    return tuple(placed)


def _choices(need: Need, room: Room) -> Iterator[tuple[_Wall, ...]]:
    """Yield every set of walls that can be used together, with every way to share the corners between them."""
    for number in range(len(room.walls), 0, -1):
        for sides in combinations(room.walls, number):
            if all(_deep_enough(side, sides, need, room) for side in sides):
                yield from _corners(sides, need, room)


def _deep_enough(side: Side, sides: tuple[Side, ...], need: Need, room: Room) -> bool:
    across = room.width if side in ("near", "far") else room.length
    return (2 if _OPPOSITE[side] in sides else 1) * need.width + need.safety <= across + TINY


def _corners(sides: tuple[Side, ...], need: Need, room: Room) -> Iterator[tuple[_Wall, ...]]:
    shared = [corner for corner in _CORNERS if corner[0] in sides and corner[1] in sides]
    kept = need.width + need.safety
    for leaving in product((0, 1), repeat=len(shared)):
        walls = {side: _Wall(side, need.safety, _along(side, room) - need.safety) for side in sides}
        for corner, which in zip(shared, leaving, strict=True):
            side, other = corner[which], corner[1 - which]
            wall = walls[side]
            if other in ("left", "near"):
                walls[side] = replace(wall, start=max(wall.start, kept))
            else:
                walls[side] = replace(wall, end=min(wall.end, _along(side, room) - kept))
        yield tuple(walls[side] for side in sides)


def _along(side: Side, room: Room) -> float:
    return room.length if side in ("near", "far") else room.width


def _filled(walls: tuple[_Wall, ...], need: Need, room: Room) -> tuple[Placed, ...]:
    return tuple(placed for wall in walls for placed in _fill(wall, need, room))


def _fill(wall: _Wall, need: Need, room: Room) -> Iterator[Placed]:
    """Set areas along a wall, each as early as it can be."""
    at = wall.start
    while at + need.length <= wall.end + TINY:
        box = _against(wall.side, at, need, room)
        blocking = [clear for clear in room.clear if box.overlaps(clear)]
        if blocking:
            at = max(_ends(wall.side, clear) for clear in blocking)
            continue
        yield Placed(box, _TURNS[wall.side], "")
        at += need.length + need.safety


def _ends(side: Side, box: Box) -> float:
    return box.x + box.length if side in ("near", "far") else box.y + box.width


def _tightness(walls: tuple[_Wall, ...], need: Need, room: Room, groups: int) -> int:
    """Return how full the fullest wall gets, in thousandths, when groups are shared over walls."""
    most = _most(walls, need, room)
    counts = _shared(walls, need, room, groups)
    return max(1000 * count // max(1, holds) for count, holds in zip(counts, most, strict=True))


def _most(walls: tuple[_Wall, ...], need: Need, room: Room) -> list[int]:
    return [len(tuple(_fill(wall, need, room))) for wall in walls]


def _shared(walls: tuple[_Wall, ...], need: Need, room: Room, groups: int) -> list[int]:
    """Share groups over walls so that all walls are about equally full."""
    most = _most(walls, need, room)
    counts = [0] * len(walls)
    for _ in range(groups):
        free = [place for place in range(len(walls)) if counts[place] < most[place]]
        emptiest = min(free, key=lambda place: ((counts[place] + 1) / most[place], place))
        counts[emptiest] += 1
    return counts


def _loosely(wall: _Wall, count: int, need: Need, room: Room) -> list[Placed]:
    """Spread a wall's areas evenly over its stretch; where a door is in the way they stand as early as they can."""
    tight = list(_fill(wall, need, room))[:count]
    spare = wall.end - wall.start - count * need.length - (count - 1) * need.safety
    gap = spare / (count + 1) if count else 0.0
    starts = [wall.start + gap + place * (need.length + need.safety + gap) for place in range(count)]
    loose = [Placed(_against(wall.side, at, need, room), _TURNS[wall.side], "") for at in starts]
    return loose if all(room.is_free(placed.box) for placed in loose) else tight


def _against(side: Side, at: float, need: Need, room: Room) -> Box:
    at = round(at, 6)
    match side:
        case "far":
            return Box(at, room.width - need.width, need.length, need.width)
        case "near":
            return Box(at, 0, need.length, need.width)
        case "left":
            return Box(0, at, need.width, need.length)
        case "right":
            return Box(room.length - need.width, at, need.width, need.length)
