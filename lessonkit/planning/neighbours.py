"""What the class before leaves out: the equipment of the lesson that ends shortly before, in the same space."""

from collections.abc import Iterator

from lessonkit.planning.case import LessonPlace
from lessonkit.records.library import Library
from lessonkit.records.plan import Lesson, Plan
from lessonkit.records.school import SchoolClass
from lessonkit.records.unit import Unit

_LONGEST_BREAK = 15
"""Minutes between two lessons that still are back to back."""


def left_out_before(
    library: Library, unit: Unit, school_class: SchoolClass, place: LessonPlace
) -> tuple[str, ...] | None:
    """Return the ids of the items that lie ready when a lesson begins; None where no class is known to be before it."""
    kinds: set[str] = set()
    found = False
    for plan, lesson in _others(library, unit, school_class):
        gap = _minute(place.at) - _minute(lesson.at) - lesson.minutes
        if (lesson.date, lesson.space) == (place.date, place.space) and 0 <= gap <= _LONGEST_BREAK:
            found = True
            kinds |= _kinds(library, plan, lesson)
    return tuple(sorted(kinds)) if found else None


def _others(library: Library, unit: Unit, school_class: SchoolClass) -> Iterator[tuple[Plan, Lesson]]:
    for key in sorted(library.plans):
        plan = library.plans[key]
        if plan.school == unit.school and plan.school_class != school_class.id:
            for lesson in plan.lessons:
                yield plan, lesson


def _kinds(library: Library, plan: Plan, lesson: Lesson) -> set[str]:
    grades = {each.id: each.grade for school in library.schools.values() for each in school.classes}
    grade = grades.get(plan.school_class, "K")
    records = [library.activities[slot.activity] for slot in lesson.activities if slot.activity in library.activities]
    return {need.item for record in records for need in record.for_grade(grade).equipment}


def _minute(at: str) -> int:
    hours, _, minutes = at.partition(":")
    return int(hours) * 60 + int(minutes)
