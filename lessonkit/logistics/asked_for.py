"""Whether a unit request has a place for an activity: grades, skills, parts of lessons; said once for check and plan.

Room and minutes for several pins together stand in ``pins_together.py``.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from lessonkit.logistics.words import listed
from lessonkit.records.activity import CORE_PARTS, Activity
from lessonkit.records.unit import Unit


class Room(NamedTuple):
    """A part of a lesson: its name, how many activities and minutes it holds at most, whether it is a circuit."""

    part: str
    most: int
    most_minutes: int | None = None
    circuit: bool = False


def shape_of(unit: Unit, number: int) -> int:
    """Return the shape of a lesson (from 1): the one that names it, else the first that is for all other lessons."""
    named = [index for index, shape in enumerate(unit.shapes) if shape.lessons is not None and number in shape.lessons]
    others = [index for index, shape in enumerate(unit.shapes) if shape.lessons is None]
    return (named + others + [0])[0]


def rooms_of(unit: Unit, shape: int) -> tuple[Room, ...]:
    """Return the parts of one of a unit's shapes."""
    return tuple(
        Room(part.part, part.circuit.stations if part.circuit else part.most, part.most_minutes, bool(part.circuit))
        for part in unit.shapes[shape].parts
    )


def usable_parts(activity: Activity, unit: Unit) -> tuple[str, ...]:
    """Return the lesson parts that an activity may fill in a unit.

    A skill, practice or game part is for activities that train one of the unit's skills; one that names no skill at all
    may stand there too if it serves an aim.
    """
    trains = any(step.skill in unit.skills for step in activity.skills)
    codes = activity.outcomes.get(unit.framework, {})
    serves = not activity.skills and any(aim.code in codes for aim in unit.aims)
    return tuple(part for part in activity.parts if trains or serves or part not in CORE_PARTS)


def for_other_grades(activity: Activity, grades: Iterable[str]) -> str | None:
    """Say that an activity is not for all grades of a class; None where it is."""
    missing = [grade for grade in grades if grade not in activity.grades]
    if not missing:
        return None
    return f"{activity.title} is written for grade {activity.grades}, not for grade {listed(missing, 'or')}."


def left_out(activity: Activity, unit: Unit) -> str | None:
    """Say that a unit request excludes an activity; None where it does not."""
    return f"{activity.title} is excluded by the unit request." if activity.id in unit.exclude else None


def for_other_skills(activity: Activity, unit: Unit) -> str | None:
    """Say that an activity has nothing to do with a unit's skills; None where it has, or need not have."""
    if usable_parts(activity, unit):
        return None
    return f"{activity.title} trains none of the unit's skills and is written for skill, practice or game parts only."


def for_no_lesson(activity: Activity, unit: Unit, parts: Iterable[Iterable[str]]) -> str | None:
    """Say that no lesson of a unit, each with its parts, has a part that an activity is for; None where one has."""
    usable = usable_parts(activity, unit)
    if not usable or any(not set(usable).isdisjoint(each) for each in parts):
        return None
    return f"{activity.title} is written for {listed(usable, 'or')}, which no lesson of the unit has."


class Place(NamedTuple):
    """Where an activity may be: the parts that it can fill, whether as a station too, and the one wanted, if one is."""

    usable: tuple[str, ...]
    station: bool
    wanted: str | None = None


def fitting(place: Place, rooms: Sequence[Room]) -> tuple[int, ...]:
    """Return the numbers of a lesson's parts that an activity can be in."""
    return tuple(
        number
        for number, room in enumerate(rooms)
        if room.part in place.usable
        and room.part == (place.wanted or room.part)
        and (place.station or not room.circuit)
    )


def no_part_for(title: str, place: Place, lesson: int, rooms: Sequence[Room]) -> str | None:
    """Say that an activity fits no part of a lesson (from 1), or not the one wanted; None where it fits."""
    if fitting(place, rooms):
        return None
    wanted, written = place.wanted, listed(place.usable, "or") or "other units"
    cannot = f"{title} cannot be {'in' if wanted is None else f'the {wanted} of'} lesson {lesson}"
    if wanted is not None and wanted not in place.usable:
        return f"{cannot}: it is for {written}."
    if any(room.part in place.usable and room.part == (wanted or room.part) for room in rooms):
        return f"{cannot}: a circuit takes stations only, and it is not written as one."
    there = listed(list(dict.fromkeys(room.part for room in rooms)))
    if wanted is not None:
        return f"{cannot}, which has {there} only."
    return f"{cannot}: it is for {written}, and the lesson has {there} only."


def pinned_but(title: str, lesson: int, why: str, how: str = "is pinned to") -> str:
    """Say that an activity is pinned to a lesson (from 1) although something, a sentence, stands in the way."""
    return f"{title} {how} lesson {lesson}, but: {why}"
