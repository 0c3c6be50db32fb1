"""A lesson groups children in two or three ways: only one way, or each way beyond three, is one unit given up."""

from collections import defaultdict

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables

CODE = "varied-groups"
_FEW, _MANY = 2, 3


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0


def _add(variables: Variables, problem: Problem) -> None:
    weight, model = problem.weights[CODE], variables.model
    for lesson in problem.open_lessons:
        users: dict[str, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            users[problem.choices[place[0]].form].append(place)
        model.pay([(weight, _too_few(variables, lesson, users))])
        if sum(frame.most for frame in problem.lessons[lesson].parts) > _MANY and len(users) > _MANY:
            model.pay([(weight, _too_many(variables, lesson, users))])


def _too_few(variables: Variables, lesson: int, users: dict[str, list[Place]]) -> int:
    """Return the variable that is 1 where a lesson has one way only: whichever it is, no activity has another."""
    few = variables.model.choice(f"too few forms in {lesson}")
    everything = variables.in_lesson(lesson)
    for form in users:
        others = [place for place in everything if variables.problem.choices[place[0]].form != form]
        variables.model.at_least([(1, few), *variables.sum_of(others)], 1)
    return few


def _too_many(variables: Variables, lesson: int, users: dict[str, list[Place]]) -> int:
    """Return the variable that counts the ways beyond three."""
    model = variables.model
    many = model.whole(f"too many forms in {lesson}", 0, len(users) - _MANY)
    forms = []
    for form, places in users.items():
        used = model.choice(f"{form} in {lesson}")
        for clique in variables.cliques(places):
            model.at_most([*variables.sum_of(clique.places), (-clique.most, used)], 0)
        forms.append((1, used))
    model.at_most([*forms, (-1, many)], _MANY)
    return many


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        forms = {problem.choices[item.activity].form for item in schedule.lessons[lesson]}
        excess = max(_FEW - len(forms), len(forms) - _MANY)
        if excess > 0:
            given_up.append(Instance(CODE, (lesson, len(forms)), excess))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson, forms = (int(part) for part in instance.key)
    says = f"{case.lesson(lesson).capitalize()} groups the children in {counted(forms, 'way')}, not two or three."
    return case.in_lesson(lesson, says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
