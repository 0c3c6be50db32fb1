"""A pinned activity is in the lesson, and the part, where the teacher wants it."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Pinned, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "pins"


def _pins(problem: Problem) -> list[tuple[int, Pinned]]:
    return [(number, pin) for number, pin in enumerate(problem.pins) if problem.lessons[pin.lesson].taught is None]


def _applies(problem: Problem) -> bool:
    return bool(_pins(problem))


def _meets(problem: Problem, pin: Pinned, activity: int, part: int) -> bool:
    if activity != pin.activity or part < 0:
        return False
    return pin.part is None or problem.lessons[pin.lesson].parts[part].part == pin.part


def _add(variables: Variables, problem: Problem) -> None:
    for number, pin in _pins(problem):
        places = [place for place in variables.in_lesson(pin.lesson) if _meets(problem, pin, place[0], place[1])]
        variables.model.at_least(variables.sum_of(places), 1, Instance(CODE, (number,)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (number,), lesson=pin.lesson)
        for number, pin in _pins(problem)
        if not any(_meets(problem, pin, item.activity, item.part) for item in schedule.lessons[pin.lesson])
    )


def _say(instance: Instance, case: Case) -> Said:
    number = int(instance.key[0])
    pin = case.problem.pins[number]
    part = "" if pin.part is None else f" as {pin.part}"
    source = case.from_plan(number)
    how = "was put by hand into" if source and source.by_hand else "is pinned to"
    minutes = "" if pin.minutes is None else f" for {counted(pin.minutes, 'minute')}"
    return case.at_pin(number, f"{case.activity(pin.activity)} {how} {case.lesson(pin.lesson)}{part}{minutes}.")


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
