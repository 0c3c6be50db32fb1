"""No week without lessons falls into the middle of a unit: what is half learned before a break is taught twice."""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Block, Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "unbroken"


def _is_broken(block: Block, span: Span, problem: YearProblem) -> bool:
    weeks = range(span.first, span.last + 1)
    return any(week not in problem.open_weeks[row] for row in block.rows for week in weeks)


def _breakable(problem: YearProblem) -> Iterator[tuple[int, Block]]:
    for number, block in enumerate(problem.blocks):
        if any(_is_broken(block, span, problem) for span in block.spans):
            yield number, block


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for number, block in _breakable(problem):
        broken = [chosen for span, chosen in variables.choices[number] if _is_broken(block, span, problem)]
        variables.model.pay([(problem.weights[CODE], chosen) for chosen in broken])


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number,))
        for number, block in _breakable(problem)
        if (span := schedule.spans[number]) is not None and _is_broken(block, span, problem)
    )


def _say(instance: Instance, case: YearCase) -> Said:
    block = int(instance.key[0])
    return case.at_unit(block, f"{case.title(block)} goes on after a break of a week or more.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and any(_breakable(problem)),
    _add,
    _measure,
    _say,
)
