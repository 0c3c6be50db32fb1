"""Every unit that is not optional has its weeks."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "placed"


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for number, block in enumerate(problem.blocks):
        spans = [(1, chosen) for _, chosen in variables.choices[number]]
        if block.optional:
            variables.model.at_most(spans, 1)
        else:
            variables.model.exactly(spans, 1, Instance(CODE, (number,)))


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number,))
        for number, block in enumerate(problem.blocks)
        if not block.optional and schedule.spans[number] is None
    )


def _say(instance: Instance, case: YearCase) -> Said:
    block = int(instance.key[0])
    return case.at_unit(block, f"{case.title(block)} must have its weeks.")


TERM = YearTerm(CODE, "required", lambda _: True, _add, _measure, _say)
