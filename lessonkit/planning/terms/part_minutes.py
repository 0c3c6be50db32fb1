"""A part of a lesson keeps to the minutes its shape allows, set-up included."""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import PartFrame, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "part-minutes"


def _limited(problem: Problem) -> list[tuple[int, int, PartFrame]]:
    return [
        (lesson, part, frame)
        for lesson in problem.open_lessons
        for part, frame in enumerate(problem.lessons[lesson].parts)
        if frame.least_minutes is not None or frame.most_minutes is not None
    ]


def _applies(problem: Problem) -> bool:
    return bool(_limited(problem))


def _add(variables: Variables, problem: Problem) -> None:
    for lesson, part, frame in _limited(problem):
        taken = variables.minutes(lesson, part)
        if frame.least_minutes is not None:
            variables.model.at_least(taken, frame.least_minutes, Instance(CODE, (lesson, part, "least")))
        if frame.most_minutes is not None:
            variables.model.at_most(taken, frame.most_minutes, Instance(CODE, (lesson, part, "most")))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for lesson, part, frame in _limited(problem):
        total = sum(item.minutes + item.setup for item in schedule.lessons[lesson] if item.part == part)
        if frame.least_minutes is not None and total < frame.least_minutes:
            broken.append(Instance(CODE, (lesson, part, "least"), found=total, lesson=lesson))
        if frame.most_minutes is not None and total > frame.most_minutes:
            broken.append(Instance(CODE, (lesson, part, "most"), found=total, lesson=lesson))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    lesson, part, side = int(instance.key[0]), int(instance.key[1]), instance.key[2]
    frame = case.problem.lessons[lesson].parts[part]
    limit = f"at least {frame.least_minutes}" if side == "least" else f"at most {frame.most_minutes}"
    place = ("shapes", case.problem.lessons[lesson].shape, "parts", part, f"{side}_minutes")
    where = f"{case.part(lesson, part).capitalize()} of {case.lesson(lesson)}"
    instead = "" if instance.found is None else f", not {instance.found}"
    return case.in_unit(place, f"{where} takes {limit} minutes, set-up included{instead}.")


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
