"""Every lesson has the parts of its shape, each with as many activities as the shape asks for."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import LessonFrame, Placed, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "shape"


def _applies(problem: Problem) -> bool:
    return bool(problem.open_lessons)


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        for part, frame in enumerate(problem.lessons[lesson].parts):
            taken = variables.sum_of(variables.in_part(part, lesson))
            why = Instance(CODE, (lesson, part))
            variables.model.at_least(taken, frame.least, why)
            variables.model.at_most(taken, frame.most, why)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for lesson in problem.open_lessons:
        placed, frame = schedule.lessons[lesson], problem.lessons[lesson]
        broken += _wrong_numbers(lesson, placed, frame)
        for position, item in enumerate(placed):
            if item.part < 0 or not problem.fits(item.activity, item.part, lesson):
                key = (lesson, item.part, item.activity)
                broken.append(Instance(CODE, key, lesson=lesson, position=position))
        parts = [item.part for item in placed if item.part >= 0]
        if parts != sorted(parts):
            broken.append(Instance(CODE, (lesson, "order"), lesson=lesson))
    return tuple(broken)


def _wrong_numbers(lesson: int, placed: tuple[Placed, ...], frame: LessonFrame) -> list[Instance]:
    found = []
    for part, wanted in enumerate(frame.parts):
        number = sum(item.part == part for item in placed)
        if not wanted.least <= number <= wanted.most:
            found.append(Instance(CODE, (lesson, part), found=number, lesson=lesson))
    return found


def _say(instance: Instance, case: Case) -> Said:
    lesson = int(instance.key[0])
    if instance.key[1] == "order":
        return case.in_lesson(lesson, f"The parts of {case.lesson(lesson)} are not in the order of its shape.")
    part = int(instance.key[1])
    if len(instance.key) > 2:
        title = case.activity(int(instance.key[2]))
        if part < 0:
            shape = case.unit.shapes[case.problem.lessons[lesson].shape].title
            return case.in_lesson(lesson, f"{title} is in a part that the shape “{shape}” does not have.")
        return case.in_lesson(lesson, f"{title} is not written for {case.part(lesson, part)} of {case.lesson(lesson)}.")
    frame = case.problem.lessons[lesson].parts[part]
    number = (
        counted(frame.least, "activity") if frame.least == frame.most else f"{frame.least} to {frame.most} activities"
    )
    instead = "" if instance.found is None else f", not {instance.found}"
    says = f"{case.lesson(lesson).capitalize()} has {number} in {case.part(lesson, part)}{instead}."
    return case.in_unit(("shapes", case.problem.lessons[lesson].shape, "parts", part), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
