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
            broken.append(Instance(CODE, (lesson,), found=total, lesson=lesson))
        for position, item in enumerate(placed):
            bounds = problem.bounds(item.activity, item.part, lesson)
            if not bounds.least <= item.minutes <= bounds.most:
                limits = (lesson, item.activity, bounds.least, bounds.most)
                broken.append(Instance(CODE, limits, found=item.minutes, lesson=lesson, position=position))
            if item.setup < bounds.setup:
                ready = (lesson, item.activity, bounds.setup)
                broken.append(Instance(CODE, ready, found=item.setup, lesson=lesson, position=position))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    lesson, *about = (int(part) for part in instance.key)
    length = counted(case.problem.lessons[lesson].minutes, "minute")
    if not about:
        says = f"{case.lesson(lesson).capitalize()} is filled to the minute: {length}, set-up included."
        if instance.found is not None:
            taken = f"its activities and set-up take {instance.found}"
            says = f"{case.lesson(lesson).capitalize()} lasts {length}, but {taken}."
        return case.in_lesson(lesson, says)
    title = case.activity(about[0])
    if len(about) == 2:
        says = f"{title} needs {counted(about[1], 'minute')} of set-up, not {instance.found}."
    else:
        limits = f"{about[1]} to {about[2]} minutes" if about[1] < about[2] else counted(about[1], "minute")
        says = f"{title} runs for {limits}, not {instance.found}."
    return case.in_lesson(lesson, says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
