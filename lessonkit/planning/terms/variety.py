"""Every activity is used once rather than again and again: each time it comes back is one unit given up."""

from collections.abc import Sequence

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "variety"


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and len(problem.lessons) > 1


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    lessons = range(len(problem.lessons))
    for activity in range(len(problem.choices)):
        taken = [pair for lesson in lessons for pair in variables.of_activity(activity, lesson)]
        if len(taken) > 1:
            used = variables.used(activity)
            variables.model.pay([*((weight * factor, number) for factor, number in taken), (-weight, used)])


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    counts = [len(set(schedule.times(activity))) for activity in range(len(problem.choices))]
    return tuple(Instance(CODE, (activity,), count - 1) for activity, count in enumerate(counts) if count > 1)


def _say(instance: Instance, case: Case) -> Said:
    activity = int(instance.key[0])
    says = f"{case.activity(activity)} is used in {counted(instance.amount + 1, 'lesson')}."
    return case.in_activity(activity, (), says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name the activities that are used in so many lessons together, those used most first."""
    titles: dict[int, list[str]] = {}
    for each in instances:
        titles.setdefault(each.amount + 1, []).append(case.activity(int(each.key[0])))
    return tuple(
        f"In {counted(times, 'lesson')}{' each' if len(titles[times]) > 1 else ''}: {'; '.join(titles[times])}."
        for times in sorted(titles, reverse=True)
    )


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
