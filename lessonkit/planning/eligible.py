"""Which activities a class can do, in which lessons, and why not elsewhere: each bar is a sentence with its place."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lessonkit.logistics.asked_for import for_no_lesson, for_other_grades, for_other_skills, left_out
from lessonkit.logistics.equipment import needed, shortages
from lessonkit.logistics.floor import fits, share_of
from lessonkit.logistics.groups import FOR_ONE, CannotGroupError, group
from lessonkit.logistics.words import listed
from lessonkit.planning.case import LeftOut, counted
from lessonkit.planning.said import Said
from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.measures import GRADES
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.source.location import FieldPath


@dataclass(frozen=True, slots=True)
class Setting:
    """Who is taught, what for, and in which spaces.

    For every lesson one space id, the parts of its shape, and the numbers of stations of its circuits.
    """

    library: Library
    unit: Unit
    school: School
    school_class: SchoolClass
    spaces: tuple[str, ...]
    parts: tuple[tuple[str, ...], ...]
    circuits: tuple[tuple[int, ...], ...] = ()


def bars(activity: Activity, setting: Setting) -> tuple[LeftOut, ...]:
    """Return why an activity, resolved for the class's grade, cannot be used; none where it can be in every lesson."""
    found: list[LeftOut] = []
    for judge in _JUDGES:
        answer = judge(activity, setting)
        if answer is not None:
            code, field, says = answer
            every = tuple(range(len(setting.spaces)))
            station = False if judge in _FOR_THE_WHOLE_CLASS else None
            found.append(LeftOut(activity.id, code, every, Said("activity", activity.id, field, says), station))
    if not any(bar.code in ("grade", "class-size") for bar in found):
        found += _floor(activity, setting)
    return tuple(found)


_Answer = tuple[str, FieldPath, str] | None


def _grade(activity: Activity, setting: Setting) -> _Answer:
    says = for_other_grades(activity, setting.school_class.grades)
    return None if says is None else ("grade", ("grades",), says)


def _excluded(activity: Activity, setting: Setting) -> _Answer:
    says = left_out(activity, setting.unit)
    return None if says is None else ("excluded", (), says)


def _class_size(activity: Activity, setting: Setting) -> _Answer:
    children = setting.school_class.children
    try:
        group(activity.organisation, children)
    except CannotGroupError as error:
        return "class-size", ("organisation",), f"{activity.title} cannot group the class: {error}"
    if children == 1 and activity.organisation.form not in FOR_ONE:
        says = f"{activity.title} is for {activity.organisation.form}, and the class has only one child."
        return "class-size", ("organisation",), says
    return None


def _equipment(activity: Activity, setting: Setting) -> _Answer:
    if _class_size(activity, setting) is not None:
        return None
    children = setting.school_class.children
    items = setting.library.items
    missing = []
    for short in shortages(needed(activity, children), setting.school, items):
        if short.still_short:
            name = items[short.item].plural if short.item in items else short.item
            missing.append(f"{short.needed} {name} (there are {short.owned})")
    if not missing:
        return None
    says = f"{activity.title} needs {listed(missing)} for {counted(children, 'child').replace('childs', 'children')}."
    return "equipment", ("equipment",), says


def _item_grades(activity: Activity, setting: Setting) -> _Answer:
    for number, need in enumerate(activity.equipment):
        item = setting.library.items.get(need.item)
        grades = () if item is None or item.grades is None else item.grades
        missing = [grade for grade in setting.school_class.grades if grade not in grades] if grades else []
        if item is not None and missing:
            listed_grades = listed(missing, "or")
            says = f"{activity.title} uses {item.plural}, which are for grade {grades}, not for grade {listed_grades}."
            return "equipment", ("equipment", number, "item"), says
    return None


def _skill(activity: Activity, setting: Setting) -> _Answer:
    says = for_other_skills(activity, setting.unit)
    return None if says is None else ("skill", ("skills",), says)


def _part(activity: Activity, setting: Setting) -> _Answer:
    says = for_no_lesson(activity, setting.unit, setting.parts)
    return None if says is None else ("part", ("parts",), says)


_JUDGES: tuple[Callable[[Activity, Setting], _Answer], ...] = (
    _grade,
    _excluded,
    _class_size,
    _equipment,
    _item_grades,
    _skill,
    _part,
)


_FOR_THE_WHOLE_CLASS = (_class_size, _equipment)
"""What a squad at a station is not judged by."""


def _floor(activity: Activity, setting: Setting) -> list[LeftOut]:
    """Judge place and floor space by space, so that a lesson in the hall is not barred by what the field lacks."""
    found = []
    for space_id in sorted(set(setting.spaces)):
        space = setting.school.space(space_id)
        lessons = tuple(number for number, other in enumerate(setting.spaces) if other == space_id)
        if activity.floor.where not in ("either", space.where):
            says = f"{activity.title} is for {activity.floor.where} only, and {space.title} is {space.where}."
            said = Said("activity", activity.id, ("floor", "where"), says)
            found.append(LeftOut(activity.id, "where", lessons, said, station=False))
            continue
        answer = fits(activity, setting.school_class.children, space, setting.school.lengths)
        if not answer.fits and share_on_floor(activity, setting, space_id) == 0:
            says = f"{activity.title} does not fit into {space.title}: {answer.says}"
            said = Said("activity", activity.id, ("floor",), says)
            found.append(LeftOut(activity.id, "floor", lessons, said, station=False))
    return found


def share_on_floor(activity: Activity, setting: Setting, space_id: str) -> float:
    """Return the share of a class's groups that have floor at the same time in a space, from 0 to 1."""
    answer = fits(activity, setting.school_class.children, setting.school.space(space_id), setting.school.lengths)
    return share_of(answer, activity)


def met_before(base: Activity, grades: Sequence[str], mastered: frozenset[tuple[str, str]], unit: Unit) -> bool:
    """Tell whether a class knows an activity already, so that what builds on it may come.

    It does where the activity is for younger grades, or where all its steps are mastered; skills that the request says
    nothing about do not count. In a combined class an activity that the older children have outgrown is known where the
    younger ones could have met it in a grade before.
    """
    own = [GRADES.index(grade) for grade in grades]
    first, last = GRADES.index(base.grades.first), GRADES.index(base.grades.last)
    if last < min(own) or (first < min(own) and last < max(own)):
        return True
    named = {*unit.skills, *(skill for skill, _ in mastered)}
    steps = [(step.skill, step.step) for step in base.skills if step.skill in named]
    return bool(steps) and all(step in mastered for step in steps)
