"""One measured task is done early in the unit and again late, so that children see how they have improved.

Early is the first third of the lessons, late the last third, both rounded up. The task trains a skill of the unit or
practises an aim, if the library has such a task: how far a beanbag slides says nothing about paddles. It applies to
units of four lessons or more in which some measured task may be used twice.
"""

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance, Weighted
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables, less

CODE = "retest"


def thirds(problem: Problem) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the early lessons and the late ones."""
    lessons = len(problem.lessons)
    third = -(-lessons // 3)
    return tuple(range(third)), tuple(range(lessons - third, lessons))


def _candidates(problem: Problem) -> list[int]:
    possible: dict[int, set[int]] = {}
    for activity, _, lesson in problem.places:
        possible.setdefault(activity, set()).add(lesson)
    for lesson, frame in enumerate(problem.lessons):
        for placed in frame.taught or ():
            possible.setdefault(placed.activity, set()).add(lesson)
    early, late = thirds(problem)
    twice = [
        activity
        for activity, lessons in sorted(possible.items())
        if problem.choices[activity].measured and lessons & set(early) and lessons & set(late)
    ]
    aims = {goal.outcome for goal in problem.goals}
    own = [
        activity
        for activity in twice
        if problem.choices[activity].levels or aims & set(problem.choices[activity].practises)
    ]
    return own or twice


def _applies(problem: Problem) -> bool:
    return problem.retest and len(problem.lessons) > 3 and problem.most > 1 and bool(_candidates(problem))


def _add(variables: Variables, problem: Problem) -> None:
    early, late = thirds(problem)
    tried: list[Weighted] = []
    for activity in _candidates(problem):
        twice = variables.model.choice(f"retest {activity}")
        for lessons in (early, late):
            done = [pair for lesson in lessons for pair in variables.of_activity(activity, lesson)]
            variables.model.at_most([(1, twice), *less(done)], 0)
        every = [pair for lesson in range(len(problem.lessons)) for pair in variables.of_activity(activity, lesson)]
        variables.model.at_most([(1, twice), (1, variables.used(activity)), *less(every)], 0)
        tried.append((1, twice))
    variables.model.at_least(tried, 1, Instance(CODE, ()))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    early, late = thirds(problem)
    for activity in _candidates(problem):
        lessons = set(schedule.times(activity))
        if lessons & set(early) and lessons & set(late):
            return ()
    return (Instance(CODE, ()),)


def _say(instance: Instance, case: Case) -> Said:
    early, late = thirds(case.problem)
    says = f"One measured task is done by lesson {early[-1] + 1} and again from lesson {late[0] + 1} on."
    return case.in_unit(("lessons",), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
