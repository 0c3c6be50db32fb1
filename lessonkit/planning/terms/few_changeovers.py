"""A lesson puts out few kinds of equipment: each kind in each lesson is one unit given up."""

from collections import defaultdict

from lessonkit.planning.case import Case, counted
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables

CODE = "few-changeovers"


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and any(choice.kinds for choice in problem.choices)


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for lesson in problem.open_lessons:
        users: dict[str, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            for kind in problem.choices[place[0]].kinds:
                users[kind].append(place)
        for kind, places in users.items():
            out = variables.model.choice(f"{kind} out in {lesson}")
            for clique in variables.cliques(places):
                variables.model.at_most([*variables.sum_of(clique), (-1, out)], 0)
            variables.model.pay([(weight, out)])


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    given_up: list[Instance] = []
    for lesson in problem.open_lessons:
        kinds = {kind for item in schedule.lessons[lesson] for kind in problem.choices[item.activity].kinds}
        if kinds:
            given_up.append(Instance(CODE, (lesson,), len(kinds)))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    lesson = int(instance.key[0])
    says = f"{case.lesson(lesson).capitalize()} puts out {counted(instance.amount, 'kind')} of equipment."
    return case.in_lesson(lesson, says)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say)
