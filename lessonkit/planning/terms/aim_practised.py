"""Each aim is practised in as many lessons as the request asks for."""

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "aim-practised"


def _applies(problem: Problem) -> bool:
    return any(goal.practise for goal in problem.goals)


def _add(variables: Variables, problem: Problem) -> None:
    for number, goal in enumerate(problem.goals):
        if goal.practise:
            lessons = range(len(problem.lessons))
            practised = [pair for lesson in lessons for pair in variables.practised(goal.outcome, lesson)]
            variables.model.at_least(practised, goal.practise, Instance(CODE, (number,)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    broken: list[Instance] = []
    for number, goal in enumerate(problem.goals):
        lessons = len(schedule.practising(goal.outcome, problem))
        if lessons < goal.practise:
            broken.append(Instance(CODE, (number,), found=lessons))
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    number = int(instance.key[0])
    goal = case.problem.goals[number]
    instead = "" if instance.found is None else f", not {instance.found}"
    says = f"{case.outcome(goal.outcome)} is practiced in at least {counted(goal.practise, 'lesson')}{instead}."
    return case.in_unit(("aims", number, "practise"), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
