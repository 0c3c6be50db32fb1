"""What a unit follows is over before it begins."""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "follows"


def _pairs(problem: YearProblem) -> Iterator[tuple[int, int]]:
    for later, block in enumerate(problem.blocks):
        for earlier in block.follows:
            yield earlier, later


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for earlier, later in _pairs(problem):
        why = Instance(CODE, (earlier, later))
        for week in sorted({span.first for span in problem.blocks[later].spans}):
            begun = [(1, number) for span, number in variables.choices[later] if span.first <= week]
            over = [(-1, number) for span, number in variables.choices[earlier] if span.last < week]
            variables.model.at_most([*begun, *over], 0, why)


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    broken = []
    for earlier, later in _pairs(problem):
        before, after = schedule.spans[earlier], schedule.spans[later]
        if after is not None and (before is None or before.last >= after.first):
            broken.append(Instance(CODE, (earlier, later)))
    return tuple(broken)


def _say(instance: Instance, case: YearCase) -> Said:
    earlier, later = (int(part) for part in instance.key)
    place = case.problem.blocks[later].follows.index(earlier)
    says = f"{case.title(later)} can begin only when {case.title(earlier)} is over."
    return case.at_unit(later, says, "follows", place)


TERM = YearTerm(CODE, "required", lambda problem: any(_pairs(problem)), _add, _measure, _say)
