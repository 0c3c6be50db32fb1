"""A year that is mapped again moves as few units as it can, and those by as few weeks as it can."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "few-moves"
_MOVED = 3
"""A unit that moves at all costs as much as so many weeks, and each week of the move one more."""


def _cost(first: int, was: int) -> int:
    return 0 if first == was else _MOVED + abs(first - was)


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for number, block in enumerate(problem.blocks):
        if block.was is None:
            continue
        terms = [(_cost(span.first, block.was), variable) for span, variable in variables.choices[number]]
        variables.model.pay([(problem.weights[CODE] * cost, variable) for cost, variable in terms])


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number,), cost)
        for number, block in enumerate(problem.blocks)
        if block.was is not None
        and (span := schedule.spans[number]) is not None
        and (cost := _cost(span.first, block.was))
    )


def _say(instance: Instance, case: YearCase) -> Said:
    block = int(instance.key[0])
    was = case.problem.blocks[block].was
    before = "" if was is None else f" from {case.week(was)}"
    return case.at_unit(block, f"{case.title(block)} moves{before}.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and any(block.was is not None for block in problem.blocks),
    _add,
    _measure,
    _say,
)
