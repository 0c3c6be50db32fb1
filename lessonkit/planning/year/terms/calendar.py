"""A unit takes the weeks that its lessons fill by the calendar, holidays and lost days left out."""

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "calendar"


def _add(_variables: YearVariables, _problem: YearProblem) -> None:
    """Nothing to state: no other weeks can be chosen."""


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number,))
        for number, block in enumerate(problem.blocks)
        if (span := schedule.spans[number]) is not None and span not in block.spans
    )


def _say(instance: Instance, case: YearCase) -> Said:
    block = int(instance.key[0])
    says = f"By the calendar the lessons of {case.title(block)} do not fill these weeks from their first to their last."
    return case.at_unit(block, says)


TERM = YearTerm(CODE, "required", lambda _: True, _add, _measure, _say)
