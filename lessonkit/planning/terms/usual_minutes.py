"""Activities run for about their usual time: one minute more or less is nothing, each further one a unit given up.

In the model the minutes of a lesson's activities with one moving rate are one sum, which is shared out evenly; so many
minutes of it are free as there are activities that can run longer (or shorter).
"""

from collections import defaultdict
from collections.abc import Sequence

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Group, Place, Variables, less

CODE = "usual-minutes"
FREE = 1
"""Minutes more or less that nobody minds."""


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0


def _add(variables: Variables, problem: Problem) -> None:
    weight, model = problem.weights[CODE], variables.model
    members: dict[Group, list[Place]] = defaultdict(list)
    for place in problem.places:
        members[variables.group(place)].append(place)
    for group, (up, down) in variables.groups.items():
        bounds = [(place, problem.bounds(*place)) for place in members[group]]
        longer = [place for place, each in bounds if each.most > each.usual]
        shorter = [place for place, each in bounds if each.least < each.usual]
        for name, minutes, free in (("much longer", up, longer), ("much shorter", down, shorter)):
            most = model.variables[minutes].most
            if most:
                paid = model.whole(f"{name} {group}", 0, most)
                model.at_most([(1, minutes), (-1, paid), *less(variables.sum_of(free))], 0)
                model.pay([(weight, paid)])


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        for item in schedule.lessons[lesson]:
            usual = problem.bounds(item.activity, item.part, lesson).usual
            if abs(item.minutes - usual) > FREE:
                side = "longer" if item.minutes > usual else "shorter"
                given_up.append(Instance(CODE, (lesson, item.activity, side), abs(item.minutes - usual) - FREE))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson, activity, side = int(instance.key[0]), int(instance.key[1]), instance.key[2]
    amount = counted(instance.amount + FREE, "minute")
    says = f"{case.activity(activity)} runs {amount} {side} than usual in {case.lesson(lesson)}."
    return case.in_activity(activity, ("minutes", "usual"), says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name the activities with the same minutes more or less than usual together, each with its lesson."""
    places: dict[tuple[int, str], list[str]] = {}
    for each in instances:
        lesson, activity, side = int(each.key[0]), int(each.key[1]), str(each.key[2])
        places.setdefault((each.amount + FREE, side), []).append(f"{case.activity(activity)} (lesson {lesson + 1})")
    return tuple(
        f"{counted(minutes, 'minute')} {side} than usual: {'; '.join(places[minutes, side])}."
        for minutes, side in sorted(places, key=lambda each: (-each[0], each[1]))
    )


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
