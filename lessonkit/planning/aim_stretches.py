"""What is said of an aim that goes without something in stretches of lessons: (goal, first lesson, last lesson)."""

from collections.abc import Iterable, Sequence
from typing import Final, Literal

from lessonkit.planning.case import Case, lessons_named
from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said

Way = Literal["practise", "assess"]
"""What the aim goes without, as its field in the request is named."""
_DONE: Final[dict[Way, str]] = {"practise": "practiced", "assess": "assessed"}


def say_missing(instance: Instance, case: Case, way: Way) -> Said:
    """Say in which lessons an aim goes without, at the field that asks for it."""
    goal, first, last = (int(part) for part in instance.key)
    return case.in_unit(("aims", goal, way), _says(goal, range(first, last + 1), case, way))


def say_all_missing(instances: Sequence[Instance], case: Case, way: Way) -> tuple[str, ...]:
    """Name all stretches of an aim in one sentence."""
    missing: dict[int, set[int]] = {}
    for each in instances:
        goal, first, last = (int(part) for part in each.key)
        missing.setdefault(goal, set()).update(range(first, last + 1))
    return tuple(_says(goal, lessons, case, way) for goal, lessons in missing.items())


def _says(goal: int, lessons: Iterable[int], case: Case, way: Way) -> str:
    return f"{case.outcome(case.problem.goals[goal].outcome)} is not {_DONE[way]} in {lessons_named(lessons)}."
