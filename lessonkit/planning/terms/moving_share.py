"""The children move for at least the chosen share of every lesson."""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "moving-share"


def _applies(problem: Problem) -> bool:
    return problem.moving > 0


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        wanted = problem.moving * problem.lessons[lesson].minutes
        variables.model.at_least(variables.moving(lesson), wanted, Instance(CODE, (lesson,)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for lesson in problem.open_lessons:
        moving = sum(problem.rate(item.activity, item.part, lesson) * item.minutes for item in schedule.lessons[lesson])
        if moving < problem.moving * problem.lessons[lesson].minutes:
            broken.append(Instance(CODE, (lesson,), found=moving // problem.lessons[lesson].minutes, lesson=lesson))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    lesson = int(instance.key[0])
    instead = "" if instance.found is None else f", not {instance.found}%"
    says = f"The children move for at least {case.problem.moving}% of {case.lesson(lesson)}{instead}."
    return case.in_unit(("moving",), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
