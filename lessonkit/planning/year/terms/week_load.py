"""The load of a week lies between two limits, where the problem has them (a balanced curriculum has)."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "week-load"


def _add(variables: YearVariables, problem: YearProblem) -> None:
    assert problem.week_load is not None
    least, most = problem.week_load
    for row, blocks in enumerate(problem.by_row):
        for week in range(problem.weeks):
            here = [
                (problem.blocks[block].load, number)
                for block in blocks
                for span, number in variables.choices[block]
                if week in span
            ]
            variables.model.at_least(here, least, Instance(CODE, (row, week)))
            variables.model.at_most(here, most, Instance(CODE, (row, week)))


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    assert problem.week_load is not None
    least, most = problem.week_load
    return tuple(
        Instance(CODE, (row, week), found=load)
        for row, blocks in enumerate(problem.by_row)
        for week in range(problem.weeks)
        if not least <= (load := sum(problem.blocks[b].load for s, b in schedule.placed(blocks) if week in s)) <= most
    )


def _say(instance: Instance, case: YearCase) -> Said:
    row, week = (int(part) for part in instance.key)
    return case.in_year(("units",), f"The load of {case.classes(row)} keeps to its limits in {case.week(week)}.")


TERM = YearTerm(CODE, "required", lambda problem: problem.week_load is not None, _add, _measure, _say)
