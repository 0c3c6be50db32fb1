"""Children move for as much of a lesson as possible: standing, waiting and setting up are given up.

The unit is a twentieth of a minute, so that every moving rate (a whole multiple of 5%) is counted exactly.
"""

from collections.abc import Sequence

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "moving"
UNIT = 5
"""Hundredths of a minute in a unit."""


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for lesson in problem.open_lessons:
        moving = [(-weight * factor // UNIT, number) for factor, number in variables.moving(lesson)]
        variables.model.pay(moving, weight * problem.lessons[lesson].minutes * 100 // UNIT)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        moving = sum(problem.rate(item.activity, item.part, lesson) * item.minutes for item in schedule.lessons[lesson])
        still = problem.lessons[lesson].minutes * 100 - moving
        if still:
            given_up.append(Instance(CODE, (lesson,), still // UNIT))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson = int(instance.key[0])
    minutes = round(instance.amount * UNIT / 100)
    says = f"In {case.lesson(lesson)} a child stands, waits or watches for about {minutes} minutes, set-up included."
    return case.in_lesson(lesson, says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name the minutes of every lesson in one sentence."""
    minutes = [
        f"{round(each.amount * UNIT / 100)} {'of lesson' if number else 'minutes of lesson'} {int(each.key[0]) + 1}"
        for number, each in enumerate(instances)
    ]
    return (f"A child stands, waits or watches for about {listed(minutes)}, set-up included.",)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
