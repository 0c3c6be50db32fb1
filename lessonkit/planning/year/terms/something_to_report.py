"""Every class finishes a unit in each stretch between report days."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "something-to-report"


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for row, blocks in enumerate(problem.by_row):
        for place, stretch in enumerate(problem.stretches):
            nothing = variables.model.choice(f"row {row} finishes nothing in stretch {place}")
            ends = [(1, number) for b in blocks for span, number in variables.choices[b] if span.last in stretch]
            variables.model.at_least([*ends, (1, nothing)], 1)
            variables.model.pay([(problem.weights[CODE], nothing)])


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (row, number))
        for row, blocks in enumerate(problem.by_row)
        for number, stretch in enumerate(problem.stretches)
        if not any(span.last in stretch for span, _ in schedule.placed(blocks))
    )


def _say(instance: Instance, case: YearCase) -> Said:
    row, number = (int(part) for part in instance.key)
    where = case.stretch(case.problem.stretches[number])
    return case.in_year(("reports",), f"No unit ends for {case.classes(row)} {where}.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and bool(problem.stretches),
    _add,
    _measure,
    _say,
)
