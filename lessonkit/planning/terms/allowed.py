"""An activity is used only where the class can do it: right grade, enough equipment, floor that fits, not excluded.

Setup finds these bars once for every lesson, with the logistics of the class's real number of children; a barred
activity has no variable, unless it is pinned and the request contradicts itself.
"""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "allowed"


def _applies(problem: Problem) -> bool:
    return any(choice.bars for choice in problem.choices)


def _add(variables: Variables, problem: Problem) -> None:
    for pin in problem.pins:
        if problem.lessons[pin.lesson].taught is None:
            for code in problem.barred_at(pin.activity, pin.lesson):
                taken = variables.of_activity(pin.activity, pin.lesson)
                variables.model.at_most(taken, 0, Instance(CODE, (pin.activity, pin.lesson, code)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (item.activity, lesson, code), lesson=lesson, position=position)
        for lesson in problem.open_lessons
        for position, item in enumerate(schedule.lessons[lesson])
        for code in problem.barred_at(item.activity, lesson, item.part)
    )


def _say(instance: Instance, case: Case) -> Said:
    activity, lesson, code = int(instance.key[0]), int(instance.key[1]), str(instance.key[2])
    return case.bar(activity, lesson, code)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
