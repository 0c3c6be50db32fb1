"""Plans for the sheets: the starter curriculum's activities in lessons for any grade, class size and paper."""

from functools import cache
from pathlib import Path

import msgspec

from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.loading.folder import load_folder
from lessonkit.records.activity import LESSON_PARTS, Activity, LessonPart
from lessonkit.records.library import Library, build_library
from lessonkit.records.plan import Lesson, Plan, Slot
from lessonkit.records.school import School
from lessonkit.records.unit import Unit
from lessonkit.source.shipped import shipped_folder

CLASSES = {"K": "grade-k-wren", "1": "grade-1-robin", "3": "grade-3-heron", "5": "grade-5-crane"}
DAYS = ("2027-01-05", "2027-01-07", "2027-01-12", "2027-01-14")


@cache
def library() -> Library:
    """Return the starter curriculum."""
    folder = shipped_folder("curriculum")
    return load_folder(Path(folder), "curriculum").library


@cache
def plan_facts(grade: str = "3", children: int = 25, paper: str = "letter", at: str = "10:15") -> PlanFacts:
    """Return four lessons for a class of a size, worked out; the longest activities of each part come first."""
    records = library()
    school = records.schools["quillfeather"]
    classes = tuple(
        msgspec.structs.replace(each, children=children) if each.id == CLASSES[grade] else each
        for each in school.classes
    )
    changed: School = msgspec.structs.replace(school, classes=classes, paper=paper)
    unit = records.units["paddles-grade-3"]
    plan = Plan(
        kind="plan",
        id=f"plan-{grade}",
        title="A plan",
        unit=unit.id,
        school=school.id,
        school_class=CLASSES[grade],
        lessons=tuple(_lesson(number, day, at, grade) for number, day in enumerate(DAYS, 1)),
    )
    kept = [record for record in records.records() if not isinstance(record, School)]
    return work_out(plan, build_library((*kept, changed)))


def with_unit(facts: PlanFacts, **changes: object) -> PlanFacts:
    """Return a plan whose unit is changed."""
    unit: Unit = msgspec.structs.replace(facts.unit, **changes)
    records = [record for record in facts.library.records() if not isinstance(record, Unit)]
    return work_out(facts.plan, build_library((*records, unit)))


def _lesson(number: int, day: str, at: str, grade: str) -> Lesson:
    slots = tuple(
        Slot(
            part=part,
            activity=chosen.id,
            minutes=chosen.minutes.usual,
            setup=chosen.minutes.setup,
            assess=tuple(dict.fromkeys(entry.outcome for entry in chosen.look_for if f".{grade}" in entry.outcome)),
        )
        for part in LESSON_PARTS
        for chosen in _choices(part, grade)[number - 1 : number]
    )
    minutes = sum(slot.setup + slot.minutes for slot in slots)
    return Lesson(lesson=number, date=day, at=at, space="gym", minutes=minutes, shape="Usual", activities=slots)


def _choices(part: LessonPart, grade: str) -> list[Activity]:
    """Return the activities of a part for a grade, the longest first; few ones come again."""
    found = [each for each in library().activities.values() if grade in each.grades and part in each.parts]
    found.sort(key=lambda each: (-len(each.steps), each.id))
    return (found * len(DAYS))[: max(len(found), len(DAYS))] if found else []
