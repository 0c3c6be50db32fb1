"""Minutes and order of a plan that is planned again: as they were before, wherever the requirements allow it."""

from dataclasses import replace

from lessonkit.planning.audit import audit
from lessonkit.planning.order import split_evenly, with_assessments
from lessonkit.planning.problem import Placed, Problem, Schedule

Lesson = tuple[Placed, ...]


def as_before(problem: Problem, plan: Schedule, before: tuple[Lesson, ...]) -> Schedule:
    """Give lessons their old order and minutes back: all of it where the activities are the same.

    In a lesson where some activities are new, those that stay keep their minutes if the new ones can fill the rest.
    """
    for lesson in problem.open_lessons:
        for wanted in _wishes(problem, lesson, plan.lessons[lesson], before[lesson]):
            lessons = (*plan.lessons[:lesson], wanted, *plan.lessons[lesson + 1 :])
            candidate = with_assessments(problem, Schedule(lessons))
            if audit(candidate, problem).holds:
                plan = candidate
                break
    return plan


def _wishes(problem: Problem, lesson: int, now: Lesson, before: Lesson) -> list[Lesson]:
    plain = tuple(replace(item, assess=()) for item in before)
    if {(item.activity, item.part) for item in now} == {(item.activity, item.part) for item in plain}:
        pinned = {item.activity: item.pinned for item in now}
        return [tuple(replace(item, pinned=pinned[item.activity]) for item in plain)]
    filled = _filled(problem, lesson, now, {(item.activity, item.part): item.minutes for item in before})
    return [filled] if filled else []


def _filled(problem: Problem, lesson: int, now: Lesson, minutes: dict[tuple[int, int], int]) -> Lesson | None:
    """Return the lesson with old minutes where there are any, the rest shared among the new activities."""
    new = [item for item in now if (item.activity, item.part) not in minutes]
    bounds = [problem.bounds(item.activity, item.part, lesson) for item in new]
    kept = sum(minutes.get((item.activity, item.part), 0) + item.setup for item in now)
    left = problem.lessons[lesson].minutes - kept - sum(each.usual for each in bounds)
    try:
        shared = iter(split_evenly(bounds, left))
    except ValueError:
        return None
    return tuple(
        replace(item, minutes=minutes[item.activity, item.part])
        if (item.activity, item.part) in minutes
        else replace(item, minutes=next(shared))
        for item in now
    )
