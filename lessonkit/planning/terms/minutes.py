"""Every lesson is filled to the minute: set-up and activities together last as long as the lesson."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "minutes"


def _applies(problem: Problem) -> bool:
    return bool(problem.open_lessons)


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        length = problem.lessons[lesson].minutes
        variables.model.exactly(variables.minutes(lesson), length, Instance(CODE, (lesson,)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for lesson in problem.open_lessons:
        placed = schedule.lessons[lesson]
        total = sum(item.minutes + item.setup for item in placed)
        if total != problem.lessons[lesson].minutes:
            broken.append(Instance(CODE, (lesson,), total))
        for item in placed:
            bounds = problem.bounds(item.activity, item.part, lesson)
            if not bounds.least <= item.minutes <= bounds.most:
                broken.append(Instance(CODE, (lesson, item.activity, "length"), item.minutes))
            if item.setup < bounds.setup:
                broken.append(Instance(CODE, (lesson, item.activity, "setup"), item.setup))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    lesson = int(instance.key[0])
    length = case.problem.lessons[lesson].minutes
    if len(instance.key) == 1:
        says = (
            f"{case.lesson(lesson).capitalize()} is filled to the minute: {counted(length, 'minute')}, set-up included."
        )
        return case.in_lesson(lesson, says)
    activity = int(instance.key[1])
    bounds = case.problem.choices[activity].bounds
    if instance.key[2] == "setup":
        says = f"{case.activity(activity)} needs {counted(bounds.setup, 'minute')} of set-up, not {instance.amount}."
    else:
        says = f"{case.activity(activity)} runs for {bounds.least} to {bounds.most} minutes, not {instance.amount}."
    return case.in_lesson(lesson, says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
