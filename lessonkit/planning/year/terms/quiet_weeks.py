"""No unit begins or ends in a week of tests, concerts or visits."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "quiet-weeks"


def _touches(span: Span, week: int) -> bool:
    return week in (span.first, span.last)


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for week in sorted(problem.quiet):
        for number, block in enumerate(problem.blocks):
            here = [(1, chosen) for span, chosen in variables.choices[number] if _touches(span, week)]
            if here and not block.held:
                variables.model.at_most(here, 0, Instance(CODE, (week,)))


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (week,), position=number)
        for week in sorted(problem.quiet)
        for number, span in enumerate(schedule.spans)
        if span is not None and _touches(span, week) and not problem.blocks[number].held
    )


def _say(instance: Instance, case: YearCase) -> Said:
    week = int(instance.key[0])
    if instance.position is None:
        return case.in_year(("quiet",), f"No unit may begin or end in {case.week(week)}, which is a quiet one.")
    title = case.title(instance.position)
    return case.at_unit(instance.position, f"{title} begins or ends in {case.week(week)}, which is a quiet one.")


TERM = YearTerm(CODE, "required", lambda problem: bool(problem.quiet), _add, _measure, _say)
