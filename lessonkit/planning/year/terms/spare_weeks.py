"""Every class keeps a week free in each stretch of the year, for teaching again what was not reached."""

from collections.abc import Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "spare-weeks"


def _stretches(problem: YearProblem) -> Iterator[tuple[int, int, frozenset[int]]]:
    """Yield (row, stretch, its weeks with lessons)."""
    for row in range(problem.rows):
        for number, stretch in enumerate(problem.stretches):
            weeks = frozenset(week for week in problem.open_weeks[row] if week in stretch)
            if weeks:
                yield row, number, weeks


def _taken(span: Span, weeks: frozenset[int]) -> int:
    return sum(week in span for week in weeks)


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for row, number, weeks in _stretches(problem):
        none_free = variables.model.choice(f"no week free for row {row} in stretch {number}")
        taken = [
            (_taken(span, weeks), variable)
            for block in problem.by_row[row]
            for span, variable in variables.choices[block]
        ]
        variables.model.at_most([*taken, (-problem.together, none_free)], len(weeks) * problem.together - 1)
        variables.model.pay([(problem.weights[CODE], none_free)])


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (row, number))
        for row, number, weeks in _stretches(problem)
        if sum(_taken(span, weeks) for span, _ in schedule.placed(problem.by_row[row])) >= len(weeks)
    )


def _say(instance: Instance, case: YearCase) -> Said:
    row, number = (int(part) for part in instance.key)
    where = case.stretch(case.problem.stretches[number])
    return case.in_year(("units",), f"No week is free for {case.classes(row)} {where}.")


TERM = YearTerm(
    CODE,
    "preferred",
    lambda problem: problem.weights.get(CODE, 0) > 0 and problem.together == 1 and any(_stretches(problem)),
    _add,
    _measure,
    _say,
)
