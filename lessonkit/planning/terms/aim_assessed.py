"""Each aim is assessed as often as the request asks for, every time after enough earlier lessons of practice."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Goal, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "aim-assessed"


def _applies(problem: Problem) -> bool:
    return any(goal.assess for goal in problem.goals)


def _add(variables: Variables, problem: Problem) -> None:
    for number, goal in enumerate(problem.goals):
        if goal.assess:
            lessons = range(len(problem.lessons))
            times = [(1, variables.assessed(goal, lesson)) for lesson in lessons]
            variables.model.at_least(times, goal.assess, Instance(CODE, (number,)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for number, goal in enumerate(problem.goals):
        times = _times(schedule, problem, goal)
        if times < goal.assess:
            broken.append(Instance(CODE, (number,), found=times))
    return tuple(broken)


def _times(schedule: Schedule, problem: Problem, goal: Goal) -> int:
    practised = schedule.practising(goal.outcome, problem)
    times = 0
    for lesson, placed in enumerate(schedule.lessons):
        here = any(
            goal.outcome in item.assess
            and (problem.lessons[lesson].taught is not None or goal.outcome in problem.choices[item.activity].assesses)
            for item in placed
        )
        ready = sum(before < lesson for before in practised) >= goal.after
        times += here and (ready or problem.lessons[lesson].taught is not None)
    return times


def _say(instance: Instance, case: Case) -> Said:
    number = int(instance.key[0])
    goal = case.problem.goals[number]
    after = f", each time after {counted(goal.after, 'lesson')} of practice" if goal.after else ""
    instead = "" if instance.found is None else f"; it is in {instance.found}"
    says = f"{case.outcome(goal.outcome)} is assessed in at least {counted(goal.assess, 'lesson')}{after}{instead}."
    return case.in_unit(("aims", number, "assess"), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
