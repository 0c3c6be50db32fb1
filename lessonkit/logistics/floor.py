"""Does an activity fit the floor: its groups placed in the room with their safety distance.

Neighbours share their safety distance; it is also kept to the room's sides, except to the wall that a group plays
against. The floor in front of a door stays clear. Rows and columns are tried first and held against a bound by
counting; only where these differ, and it matters, is the solver asked.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil

from lessonkit.logistics.along_walls import along_walls, spread_along
from lessonkit.logistics.groups import Grouping, group, share_out
from lessonkit.logistics.layout import TINY, Layout, Need, Placed, Room, in_reading_order, room_of
from lessonkit.logistics.lengths import NO_BREAK, Lengths, in_feet, in_metres, say_length
from lessonkit.logistics.rows import most_by_counting, rows_and_columns, spread_out
from lessonkit.records.activity import Activity
from lessonkit.records.measures import Length
from lessonkit.records.school import Space


@dataclass(frozen=True, slots=True)
class FloorAnswer:
    """Whether an activity fits: the groups it needs, the most the room holds, where they stand, and a sentence.

    ``largest`` is no less than the groups where they fit, and the most that do where they do not; ``proven`` is false
    where a still larger number could not be ruled out. ``layout`` shows as many groups as there is room for.
    """

    fits: bool
    groups: int
    largest: int
    layout: Layout
    says: str
    proven: bool = True


@dataclass(frozen=True, slots=True)
class _Found:
    placed: tuple[Placed, ...]
    largest: int
    proven: bool


@dataclass(frozen=True, slots=True)
class _Words:
    """How an answer names the room, an area and the distance between areas."""

    room: str
    area: str
    apart: str


def need_of(activity: Activity) -> Need:
    """Return the floor that one group of an activity needs."""
    floor = activity.floor
    return Need(floor.length.metres, floor.width.metres, floor.clear, floor.wall)


def fits(activity: Activity, children: int, space: Space, lengths: Lengths | None = None) -> FloorAnswer:
    """Say whether an activity (already resolved for the grade) fits a space with a class of ``children``.

    Lengths are said as a school says them, or as their author wrote them where ``lengths`` is None.

    Where a group is larger than its area holds at once, the record's rule for that is said; without a rule the activity
    does not fit. Raises CannotGroupError when no group can be formed.
    """
    grouping = group(activity.organisation, children)
    floor = activity.floor
    words = _Words(
        f"the {space.title[0].lower()}{space.title[1:]}",
        f"{_said(floor.length, lengths)} by {_said(floor.width, lengths)}",
        _said(floor.safety, lengths) if floor.safety and floor.safety.metres else "",
    )
    answer = _answer(need_of(activity), len(grouping.sizes), room_of(space), words, floor.if_more)
    return _with_crowding(answer, activity, grouping)


def share_of(answer: FloorAnswer, activity: Activity) -> float:
    """Return the share of a class's groups that have floor at the same time, from 0 to 1.

    Where the record says what to do with more children than the floor holds, half of the groups is enough: they take
    turns. Otherwise everyone must fit.
    """
    if answer.fits:
        return 1.0
    turns = activity.floor.if_more is not None and 2 * answer.largest >= answer.groups
    return answer.largest / answer.groups if turns else 0.0


def _said(length: Length, lengths: Lengths | None) -> str:
    return str(length) if lengths is None else say_length(length, lengths).replace(NO_BREAK, " ")


def does_it_fit(need: Need, areas: int, room: Room, lengths: Lengths = "metres") -> FloorAnswer:
    """Say, in a school's own lengths, whether a number of equal areas (1 or more) fits a room, without any record."""
    say = in_feet if lengths == "feet" else in_metres
    length, width, safety = (say(side).replace(NO_BREAK, " ") for side in (need.length, need.width, need.safety))
    words = _Words("the room", f"{length} by {width}", safety if need.safety else "")
    return _answer(need, areas, room, words, None)


def _answer(need: Need, areas: int, room: Room, words: _Words, if_more: str | None) -> FloorAnswer:
    found = _find(need, room, areas)
    layout = Layout(room.length, room.width, found.placed, need.safety)
    fitting = found.largest >= areas
    says = _says(need, areas, found, words) if fitting or not need.wall or room.walls else _no_wall(words)
    if found.largest and not fitting:
        says = f"{says} {if_more or _waves(areas, found.largest)}"
    return FloorAnswer(fitting, areas, found.largest, layout, says, found.proven)


def _says(need: Need, areas: int, found: _Found, words: _Words) -> str:
    against = f"{words.room}'s walls" if need.wall else words.room
    around = f" with {words.apart} clear around it" if words.apart else ""
    if not found.largest:
        return f"Not even one area of {words.area} fits {against}{around}."
    if areas == 1:
        return f"The area of {words.area} fits {against}{around}."
    apart = f", {words.apart} apart" if words.apart else ""
    if found.largest < areas:
        known = "fit" if found.proven else "were found to fit"
        return f"Only {found.largest} of {areas} areas of {words.area} {known} {against}{apart}."
    return f"All {areas} areas of {words.area} fit {against}{apart}; there is room for {found.largest}."


def _no_wall(words: _Words) -> str:
    return f"There is no wall to play against in {words.room}."


def _waves(areas: int, largest: int) -> str:
    """Say how the groups share the floor where the record has no rule."""
    sizes = share_out(areas, ceil(areas / largest))
    if len(sizes) == areas:
        return "The groups take turns, one at a time."
    return f"Work in {len(sizes)} waves of {', '.join(map(str, sizes[:-1]))} and {sizes[-1]} groups, by turns."


def _with_crowding(answer: FloorAnswer, activity: Activity, grouping: Grouping) -> FloorAnswer:
    """Add what happens where the largest group has more children than its area holds at once."""
    most, rule = activity.floor.most_children, activity.floor.if_more
    largest = max(grouping.sizes)
    if most is None or largest <= most:
        return answer
    says = f"{answer.says} One area holds {most} children at once, and a group has {largest}."
    if rule and rule not in says:
        says = f"{says} {rule}"
    return FloorAnswer(
        answer.fits and rule is not None, answer.groups, answer.largest, answer.layout, says, answer.proven
    )


@lru_cache(maxsize=4096)
def _find(need: Need, room: Room, areas: int) -> _Found:
    """Place the areas, or as many as there is room for."""
    if need.wall:
        return _find_along_walls(need, room, areas)
    most = most_by_counting(need, room)
    placed = rows_and_columns(need, room)
    proven = len(placed) == most
    if len(placed) < min(areas, most):
        from lessonkit.logistics.packing import pack

        packed = pack(need, room, areas)
        placed = max(placed, packed.placed, key=len)
        proven = packed.most is not None or len(placed) >= areas
    shown = (spread_out(need, room, areas) if areas <= len(placed) else ()) or placed[:areas]
    return _Found(in_reading_order(shown), len(placed), proven)


def _find_along_walls(need: Need, room: Room, areas: int) -> _Found:
    placed = along_walls(need, room)
    shown = spread_along(need, room, areas) if areas <= len(placed) else placed
    return _Found(in_reading_order(shown), len(placed), len(placed) >= areas or not _walls_interlock(need, room))


def _walls_interlock(need: Need, room: Room) -> bool:
    """Tell whether areas at opposite walls could stand in each other's gaps, which is not looked into."""
    pairs = (("left", "right", room.length), ("near", "far", room.width))
    return any(
        one in room.walls and other in room.walls and 2 * need.width + need.safety > across + TINY
        for one, other, across in pairs
    )
