"""An activity comes after what it builds on: in an earlier lesson, or earlier in the same one."""

from collections import defaultdict

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables, less

CODE = "builds-on"


def _applies(problem: Problem) -> bool:
    return any(choice.builds_on for choice in problem.choices)


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        following: dict[int, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            for base in problem.choices[place[0]].builds_on:
                following[base].append(place)
        for base, places in following.items():
            bases = [place for place in variables.in_lesson(lesson) if place[0] == base]
            for clique in variables.cliques(places):
                ready = [*variables.seen(base, lesson - 1), *variables.sum_of(variables.before(clique, bases))]
                why = Instance(CODE, (clique.places[0][0], base))
                least = less(ready, clique.most)
                variables.model.at_most([*variables.sum_of(clique.places), *least], 0, why)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    seen: set[int] = set()
    broken: list[Instance] = []
    for lesson, placed in enumerate(schedule.lessons):
        beside: list[int] = []
        for position, item in enumerate(placed):
            if position and item.part != placed[position - 1].part:
                seen.update(beside)
            missing = [base for base in problem.choices[item.activity].builds_on if base not in seen]
            if problem.lessons[lesson].taught is None:
                broken += [Instance(CODE, (item.activity, base), lesson=lesson, position=position) for base in missing]
            (beside.append if problem.is_circuit(item.part, lesson) else seen.add)(item.activity)
        seen.update(beside)
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    activity, base = int(instance.key[0]), int(instance.key[1])
    says = f"{case.activity(activity)} builds on {case.activity(base)}, which has to come first."
    return case.in_activity(activity, ("builds_on",), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
