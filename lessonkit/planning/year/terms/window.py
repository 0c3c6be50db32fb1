"""A unit begins, and is over, when the year request says: not before a day, over by a day, in the week of a day.

A unit that has begun already stays in its weeks.
"""

from collections.abc import Callable, Iterator

from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Block, Span, YearProblem, YearSchedule
from lessonkit.planning.year.term import YearTerm, YearVariables

CODE = "window"
_HELD = "held"


def _demands(block: Block) -> Iterator[tuple[str, Callable[[Span], bool]]]:
    """Yield the field that makes a demand, and the test that weeks must pass."""
    if (earliest := block.not_before) is not None:
        yield "not_before", lambda span: span.first >= earliest
    if (latest := block.over_by) is not None:
        yield "over_by", lambda span: span.last <= latest
    if (week := block.week_of) is not None:
        yield "week_of", lambda span: span.first == week
    if block.held:
        yield _HELD, lambda span: span.first == block.was


def _all(problem: YearProblem) -> Iterator[tuple[int, str, Callable[[Span], bool]]]:
    for number, block in enumerate(problem.blocks):
        for name, test in _demands(block):
            yield number, name, test


def _add(variables: YearVariables, problem: YearProblem) -> None:
    for number, name, test in _all(problem):
        outside = [(1, chosen) for span, chosen in variables.choices[number] if not test(span)]
        variables.model.at_most(outside, 0, Instance(CODE, (number, name)))


def _measure(schedule: YearSchedule, problem: YearProblem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number, name))
        for number, name, test in _all(problem)
        if (span := schedule.spans[number]) is not None and not test(span)
    )


def _say(instance: Instance, case: YearCase) -> Said:
    block, name = int(instance.key[0]), str(instance.key[1])
    asked = case.year.units[block]
    words = {
        "not_before": f"begins on {asked.not_before} at the earliest",
        "over_by": f"is over by {asked.over_by}",
        "week_of": f"begins in the week of {asked.week_of}",
        _HELD: "has begun already and stays in its weeks",
    }
    path = () if name == _HELD else (name,)
    return case.at_unit(block, f"{case.title(block)} {words[name]}.", *path)


TERM = YearTerm(CODE, "required", lambda problem: any(_all(problem)), _add, _measure, _say)
