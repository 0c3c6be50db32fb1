"""A unit is followed by one of another family of skills."""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "changing-families"
_NEAR = 2
"""A unit that begins at most so many weeks after another ends comes right after it."""


def _pairs(problem: YearProblem) -> Iterator[tuple[int, int]]:
    """Yield (earlier, later) for blocks of one row that share a family."""
    for earlier, one in enumerate(problem.blocks):
        for later, other in enumerate(problem.blocks):
            if earlier != later and one.families & other.families and set(one.rows) & set(other.rows):
                yield earlier, later


def _follows_closely(before: Span, after: Span) -> bool:
    return 0 < after.first - before.last <= _NEAR


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for earlier, later in _pairs(problem):
        near = variables.model.choice(f"{later} right after {earlier}")
        variables.model.pay([(problem.weights[CODE], near)])
        for week in sorted({span.last for span in problem.blocks[earlier].spans}):
            ends = [(1, number) for span, number in variables.choices[earlier] if span.last == week]
            begins = [(1, number) for span, number in variables.choices[later] if 0 < span.first - week <= _NEAR]
            if begins:
                variables.model.at_most([*ends, *begins, (-1, near)], 1)


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    given_up = []
    for earlier, later in _pairs(problem):
        before, after = schedule.spans[earlier], schedule.spans[later]
        if before is not None and after is not None and _follows_closely(before, after):
            given_up.append(Instance(CODE, (earlier, later)))
    return tuple(given_up)


def _say(instance: Instance, case: YearCase) -> Said:
    earlier, later = (int(part) for part in instance.key)
    shared = case.problem.blocks[earlier].families & case.problem.blocks[later].families
    family = case.families[min(shared)]
    says = f"{case.title(later)} comes right after {case.title(earlier)}, of the same family ({family})."
    return case.at_unit(later, says)


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and any(_pairs(problem)),
    _add,
    _measure,
    _say,
)
