"""A class has one unit at a time (or as many as the problem allows)."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "room"


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for row, blocks in enumerate(problem.by_row):
        for week in range(problem.weeks):
            here = [(1, number) for block in blocks for span, number in variables.choices[block] if week in span]
            if not here and not problem.least_together:
                continue
            variables.model.at_most(here, problem.together, Instance(CODE, (row,)))
            if problem.least_together:
                variables.model.at_least(here, problem.least_together, Instance(CODE, (row,)))


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    broken = []
    for row, blocks in enumerate(problem.by_row):
        spans = [span for span, _ in schedule.placed(blocks)]
        counts = [sum(week in span for span in spans) for week in range(problem.weeks)]
        wrong = [week for week, n in enumerate(counts) if not problem.least_together <= n <= problem.together]
        if wrong:
            broken.append(Instance(CODE, (row,), lesson=wrong[0]))
    return tuple(broken)


def _say(instance: Instance, case: YearCase) -> Said:
    title = case.classes(int(instance.key[0]))
    if instance.lesson is None:
        return case.in_year(("units",), f"Only one unit at a time is possible for {title}.")
    return case.in_year(("units",), f"Two units of {title} fall into {case.week(instance.lesson)}.")


TERM = YearTerm(CODE, "required", lambda _: True, _add, _measure, _say)
