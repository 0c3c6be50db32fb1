"""The effort of the year is spread evenly: what counts is the heaviest stretch of every class."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "even-load"


def _weight(problem: YearProblem, row: int, block: int, span: Span, stretch: Span) -> int:
    """Return the load that a block brings to a stretch: its effort in every week with lessons."""
    return problem.blocks[block].load * len(problem.open_weeks[row].intersection(span.shared(stretch)))


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for row, blocks in enumerate(problem.by_row):
        total = sum(problem.blocks[block].load for block in blocks) * problem.weeks
        heaviest = variables.model.whole(f"heaviest stretch of row {row}", 0, total)
        for stretch in problem.stretches:
            terms = [
                (_weight(problem, row, block, span, stretch), number)
                for block in blocks
                for span, number in variables.choices[block]
            ]
            variables.model.at_most([*terms, (-1, heaviest)], 0)
        variables.model.pay([(problem.weights[CODE], heaviest)])


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    given_up = []
    for row, blocks in enumerate(problem.by_row):
        loads = [
            sum(_weight(problem, row, block, span, stretch) for span, block in schedule.placed(blocks))
            for stretch in problem.stretches
        ]
        if any(loads):
            given_up.append(Instance(CODE, (row, loads.index(max(loads))), max(loads)))
    return tuple(given_up)


def _say(instance: Instance, case: YearCase) -> Said:
    row, stretch = (int(part) for part in instance.key)
    where = case.stretch(case.problem.stretches[stretch])
    return case.in_year(("units",), f"The hardest stretch of {case.classes(row)} is {where}.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and bool(problem.stretches),
    _add,
    _measure,
    _say,
)
