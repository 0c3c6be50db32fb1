"""A lesson gets by with what the class before leaves out: each other kind of equipment in it is one unit given up.

It counts only where a class is known to be in the same space just before, and only where the request asks for it: the
plan then depends on the other class's plan.
"""

from collections import defaultdict

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables

CODE = "back-to-back"


def _lessons(problem: Problem) -> list[tuple[int, frozenset[str]]]:
    """Return the lessons with a class just before them, and what that class leaves out."""
    frames = [(lesson, problem.lessons[lesson].out) for lesson in problem.open_lessons]
    return [(lesson, frozenset(out)) for lesson, out in frames if out is not None]


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and bool(_lessons(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight, model = problem.weights[CODE], variables.model
    for lesson, out in _lessons(problem):
        users: dict[str, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            for kind in problem.choices[place[0]].kinds:
                if kind not in out:
                    users[kind].append(place)
        for kind in sorted(users):
            brought = model.choice(f"{kind} brought out in {lesson}")
            for clique in variables.cliques(users[kind]):
                model.at_most([*variables.sum_of(clique.places), (-clique.most, brought)], 0)
            model.pay([(weight, brought)])


def _brought(schedule: Schedule, problem: Problem, lesson: int, out: frozenset[str]) -> list[str]:
    kinds = {kind for item in schedule.lessons[lesson] for kind in problem.choices[item.activity].kinds}
    return sorted(kinds - out)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    return tuple(
        Instance(CODE, (lesson, *brought), len(brought))
        for lesson, out in _lessons(problem)
        if (brought := _brought(schedule, problem, lesson, out))
    )


def _say(instance: Instance, case: Case) -> Said:
    lesson, *kinds = instance.key
    items = case.library.items
    names = [items[str(kind)].plural if str(kind) in items else str(kind) for kind in kinds]
    says = f"{case.lesson(int(lesson)).capitalize()} brings out {listed(names)}, which the class before does not use."
    return case.in_lesson(int(lesson), says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
