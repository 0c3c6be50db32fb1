"""The unit also serves outcomes of the grade that are not aims: each that it never practises is one unit given up."""

from collections.abc import Sequence

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "further-outcomes"


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and bool(problem.further)


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for outcome in problem.further:
        activities = [number for number, choice in enumerate(problem.choices) if outcome in choice.practises]
        served = variables.model.choice(f"served {outcome}")
        used = [(-1, variables.used(activity)) for activity in activities]
        variables.model.at_most([(1, served), *used], 0)
        variables.model.pay([(-weight, served)], weight)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(Instance(CODE, (outcome,)) for outcome in problem.further if not schedule.practising(outcome, problem))


def _say(instance: Instance, case: Case) -> Said:
    says = f"{case.outcome(int(instance.key[0]))}, a further outcome of the grade, is not practiced."
    return case.in_unit(("aims",), says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name all outcomes in one sentence."""
    codes = listed([case.outcome(int(each.key[0])) for each in instances])
    what = "a further outcome of the grade, is" if len(instances) == 1 else "further outcomes of the grade, are"
    return (f"{codes}, {what} not practiced.",)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
