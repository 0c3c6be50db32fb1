"""An activity comes back no more often than the request allows, with enough lessons between, and once a lesson."""

from itertools import pairwise

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "repeats"


def _applies(problem: Problem) -> bool:
    return bool(problem.open_lessons)


def _add(variables: Variables, problem: Problem) -> None:
    open_lessons = set(problem.open_lessons)
    for activity in range(len(problem.choices)):
        lessons = [lesson for lesson in range(len(problem.lessons)) if variables.of_activity(activity, lesson)]
        for lesson in lessons:
            if lesson in open_lessons:
                variables.model.at_most(variables.of_activity(activity, lesson), 1)
        if len(lessons) > 1 and open_lessons & set(lessons):
            _add_most(variables, problem, activity, lessons)
            _add_apart(variables, problem, activity, lessons)


def _add_most(variables: Variables, problem: Problem, activity: int, lessons: list[int]) -> None:
    limit = max(problem.most, _taught(problem, activity, lessons))
    if len(lessons) > limit:
        taken = [pair for lesson in lessons for pair in variables.of_activity(activity, lesson)]
        variables.model.at_most(taken, limit, Instance(CODE, (activity, "most")))


def _add_apart(variables: Variables, problem: Problem, activity: int, lessons: list[int]) -> None:
    for first in range(len(problem.lessons) - 1):
        near = [lesson for lesson in lessons if first <= lesson <= first + problem.apart]
        if len(near) > 1 and any(lesson in problem.open_lessons for lesson in near):
            taken = [pair for lesson in near for pair in variables.of_activity(activity, lesson)]
            limit = max(1, _taught(problem, activity, near))
            variables.model.at_most(taken, limit, Instance(CODE, (activity, "apart")))


def _taught(problem: Problem, activity: int, lessons: list[int]) -> int:
    return sum(
        any(placed.activity == activity for placed in problem.lessons[lesson].taught or ()) for lesson in lessons
    )


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    open_lessons = set(problem.open_lessons)
    for activity in sorted({placed.activity for lesson in schedule.lessons for placed in lesson}):
        times = schedule.times(activity)
        lessons = sorted(set(times))
        broken += [
            Instance(CODE, (activity, "once", lesson), lesson=lesson)
            for lesson in lessons
            if times.count(lesson) > 1 and lesson in open_lessons
        ]
        if len(lessons) > max(problem.most, _taught(problem, activity, lessons)):
            broken.append(Instance(CODE, (activity, "most"), found=len(lessons), lesson=lessons[-1]))
        for earlier, later in pairwise(lessons):
            if later - earlier <= problem.apart and {earlier, later} & open_lessons:
                broken.append(Instance(CODE, (activity, "apart"), found=later - earlier - 1, lesson=later))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    title, what = case.activity(int(instance.key[0])), instance.key[1]
    if what == "once":
        return case.in_lesson(int(instance.key[2]), f"{title} is used once in a lesson, not twice.")
    if what == "most":
        instead = "" if instance.found is None else f", not {instance.found}"
        says = f"{title} is used in at most {counted(case.problem.most, 'lesson')} of the unit{instead}."
        return case.in_unit(("repeats", "most"), says)
    says = f"{title} comes back only after {counted(case.problem.apart, 'lesson')} without it."
    return case.in_unit(("repeats", "apart"), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
