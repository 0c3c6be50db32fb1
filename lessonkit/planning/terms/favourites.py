"""The teacher's favourites are in the unit: each that is missing is one unit given up."""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "favourites"


def _favourites(problem: Problem) -> list[int]:
    return [activity for activity, choice in enumerate(problem.choices) if choice.favourite]


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and bool(_favourites(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for activity in _favourites(problem):
        variables.model.pay([(-weight, variables.used(activity))], weight)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(Instance(CODE, (activity,)) for activity in _favourites(problem) if not schedule.times(activity))


def _say(instance: Instance, case: Case) -> Said:
    activity = int(instance.key[0])
    says = f"{case.activity(activity)}, a favorite, is not used."
    name = case.problem.choices[activity].id
    return case.in_unit(("favourites", case.unit.favourites.index(name)), says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
