"""What a library of activities lacks: outcomes, steps of skills, and parts of a lesson, grade by grade."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from lessonkit.outcomes.coverage import coverage
from lessonkit.records.activity import LESSON_PARTS
from lessonkit.records.framework import Framework
from lessonkit.records.library import Library
from lessonkit.records.measures import GRADES

_ENOUGH: Final = 2
"""Activities that practise an outcome, so that a class can return to it without doing the same again."""
_CHOICE: Final = 5
"""Activities for a part of a lesson, so that a week need not repeat one."""


@dataclass(frozen=True, slots=True)
class Lack:
    """Something missing for a grade: what about ('S1.E3.2', 'Jumping and landing: over a rope'), and a sentence."""

    grade: str
    about: str
    says: str


def missing(library: Library, framework: Framework, grade: str | None = None) -> tuple[Lack, ...]:
    """Return what the library lacks for a grade, or for every grade that it has any activities for."""
    grades = [grade] if grade else [g for g in GRADES if any(g in a.grades for a in library.activities.values())]
    return tuple(lack for each in grades for lack in _of_grade(library, framework, each))


def _of_grade(library: Library, framework: Framework, grade: str) -> Iterator[Lack]:
    yield from _outcomes(library, framework, grade)
    for skill in library.skills.values():
        for step in skill.steps:
            if step.grades is not None and grade in step.grades and not _trained(library, grade, skill.id, step.id):
                says = f"No activity trains {step.title!r} of {skill.title!r}."
                yield Lack(grade, f"{skill.title}: {step.title}", says)
    for part in LESSON_PARTS:
        count = sum(grade in activity.grades and part in activity.parts for activity in library.activities.values())
        if count < _CHOICE:
            yield Lack(grade, part, f"Activities that can be the {part} part: {count}.")


def _outcomes(library: Library, framework: Framework, grade: str) -> Iterator[Lack]:
    for row in coverage(framework, grade, library.activities.values()).rows:
        code = row.outcome.code
        if not row.practised:
            yield Lack(grade, code, f"No activity practices {code}: {row.outcome.says or row.outcome.topic}.")
        elif len(row.practised) < _ENOUGH:
            title = library.activities[row.practised[0]].title
            yield Lack(grade, code, f"Only one activity practices {code}: {title}.")
        if row.practised and not row.assessed:
            yield Lack(grade, code, f"No activity checks {code}.")


def _trained(library: Library, grade: str, skill: str, step: str) -> bool:
    return any(
        grade in activity.grades and any((each.skill, each.step) == (skill, step) for each in activity.skills)
        for activity in library.activities.values()
    )
