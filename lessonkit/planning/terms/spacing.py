"""Practice of an aim is spread over the unit rather than massed.

The unit is cut into as many equal stretches as the aim asks for lessons of practice; each stretch without any is one
unit given up. Spaced practice is remembered longer than massed practice: well established for facts learnt by adults
(Cepeda and others, Psychological Science 19(11), 2008, 1095-1102). The best gap for children's movement skills is not
known, so no gap in days is claimed here.
"""

from collections.abc import Iterator
from functools import partial

from lessonkit.planning.aim_stretches import say_all_missing, say_missing
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "spacing"


def _stretches(problem: Problem) -> Iterator[tuple[int, int, int]]:
    """Yield (goal, first lesson, lesson after the last) for every stretch of every aim practised more than once."""
    lessons = len(problem.lessons)
    for number, goal in enumerate(problem.goals):
        pieces = min(goal.practise, lessons)
        for piece in range(pieces if pieces > 1 else 0):
            yield number, piece * lessons // pieces, (piece + 1) * lessons // pieces


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and any(_stretches(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for goal, first, after in _stretches(problem):
        outcome = problem.goals[goal].outcome
        here = variables.model.choice(f"aim {goal} between {first} and {after}")
        practised = [pair for lesson in range(first, after) for pair in variables.practised(outcome, lesson)]
        variables.model.at_most([(1, here), *((-factor, number) for factor, number in practised)], 0)
        variables.model.pay([(-weight, here)], weight)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for goal, first, after in _stretches(problem):
        lessons = schedule.practising(problem.goals[goal].outcome, problem)
        if not any(first <= lesson < after for lesson in lessons):
            given_up.append(Instance(CODE, (goal, first, after - 1)))
    return tuple(given_up)


TERM = Term(
    CODE,
    "preferred",
    _applies,
    _add,
    _measure,
    partial(say_missing, way="practise"),
    partial(say_all_missing, way="practise"),
)
