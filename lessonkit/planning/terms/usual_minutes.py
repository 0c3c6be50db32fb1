"""Activities run for about their usual time: each minute more or less is one unit given up."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "usual-minutes"


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for up, down in variables.groups.values():
        variables.model.pay([(weight, up), (weight, down)])


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        for item in schedule.lessons[lesson]:
            usual = problem.bounds(item.activity, item.part, lesson).usual
            if item.minutes != usual:
                side = "longer" if item.minutes > usual else "shorter"
                given_up.append(Instance(CODE, (lesson, item.activity, side), abs(item.minutes - usual)))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson, activity, side = int(instance.key[0]), int(instance.key[1]), instance.key[2]
    amount = counted(instance.amount, "minute")
    says = f"{case.activity(activity)} runs {amount} {side} than usual in {case.lesson(lesson)}."
    return case.in_activity(activity, ("minutes", "usual"), says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
