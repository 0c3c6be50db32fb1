"""An aim is assessed late, so that children have practised most when it counts, and a first time before that.

An aim that is assessed once is so in the last third of the unit. Where it is assessed several times, the earlier ones
have an equal stretch each of what lies before. Every stretch without an activity that could assess the aim, after
enough practice, is one unit given up. The thirds are common practice; no source.
"""

from collections.abc import Iterator
from functools import partial

from lessonkit.planning.aim_stretches import say_all_missing, say_missing
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Goal, Problem, Schedule
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "late-assessment"


def _stretches(problem: Problem) -> Iterator[tuple[int, int, int]]:
    """Yield (goal, first lesson, lesson after the last) for every time that an aim is assessed, where it is open."""
    lessons = len(problem.lessons)
    late = 2 * lessons // 3
    for number, goal in enumerate(problem.goals):
        early = goal.assess - 1
        bounds = [(piece * late // early, (piece + 1) * late // early) for piece in range(early)]
        for first, after in (*bounds, (late, lessons)) if goal.assess else ():
            if any(problem.lessons[lesson].taught is None for lesson in range(first, after)):
                yield number, first, after


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and any(_stretches(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for number, first, after in _stretches(problem):
        goal = problem.goals[number]
        here = variables.model.choice(f"aim {number} assessed between {first} and {after}")
        able = [(-1, variables.assessed(goal, lesson)) for lesson in range(first, after)]
        variables.model.at_most([(1, here), *able], 0)
        variables.model.pay([(-weight, here)], weight)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number, first, after - 1))
        for number, first, after in _stretches(problem)
        if not any(_can_assess(schedule, problem, problem.goals[number], lesson) for lesson in range(first, after))
    )


def _can_assess(schedule: Schedule, problem: Problem, goal: Goal, lesson: int) -> bool:
    if problem.lessons[lesson].taught is not None:
        return any(goal.outcome in item.assess for item in schedule.lessons[lesson])
    practised = schedule.practising(goal.outcome, problem)
    ready = sum(before < lesson for before in practised) >= goal.after
    return ready and any(goal.outcome in problem.choices[item.activity].assesses for item in schedule.lessons[lesson])


TERM = Term(
    CODE,
    "preferred",
    _applies,
    _add,
    _measure,
    partial(say_missing, way="assess"),
    partial(say_all_missing, way="assess"),
)
