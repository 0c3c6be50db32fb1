"""A lesson ends calmly: a moderate activity in its last part is one unit given up, a vigorous one two."""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "calm-closing"
_CALM = 1


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for lesson in problem.open_lessons:
        for place in variables.in_part(len(problem.lessons[lesson].parts) - 1, lesson):
            excess = problem.choices[place[0]].effort - _CALM
            if excess > 0:
                variables.model.pay(variables.sum_of([place], weight * excess))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        last = len(problem.lessons[lesson].parts) - 1
        for item in schedule.lessons[lesson]:
            excess = problem.choices[item.activity].effort - _CALM
            if item.part == last and excess > 0:
                given_up.append(Instance(CODE, (lesson, item.activity), excess))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson, activity = (int(part) for part in instance.key)
    effort = "vigorous" if instance.amount > 1 else "moderate"
    says = f"{case.lesson(lesson).capitalize()} ends with {case.activity(activity)}, which is {effort}."
    return case.in_activity(activity, ("effort",), says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
