"""Activities get by with the equipment that is out anyway: each further kind that an activity puts out is one unit.

Out anyway is what at least half of the unit's skill, practice and game activities use (paddles, balls and spots in a
unit on paddles). Kinds are counted activity by activity, because each time somebody has to fetch and clear them.
"""

from collections import Counter
from collections.abc import Sequence

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables
from lessonkit.records.activity import CORE_PARTS

CODE = "few-changeovers"


def further_kinds(problem: Problem) -> tuple[tuple[str, ...], ...]:
    """Return, for each activity, the kinds of equipment that it puts out besides what is out anyway."""
    teaching = [choice for choice in problem.choices if set(choice.parts) & set(CORE_PARTS)]
    users = Counter(kind for choice in teaching for kind in choice.kinds)
    usual = {kind for kind, number in users.items() if 2 * number >= len(teaching)}
    return tuple(tuple(kind for kind in choice.kinds if kind not in usual) for choice in problem.choices)


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and any(further_kinds(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight, further = problem.weights[CODE], further_kinds(problem)
    for lesson in problem.open_lessons:
        for place in variables.in_lesson(lesson):
            variables.model.pay(variables.sum_of([place], weight * len(further[place[0]])))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    further = further_kinds(problem)
    return tuple(
        Instance(CODE, (lesson, item.activity), len(further[item.activity]))
        for lesson in problem.open_lessons
        for item in schedule.lessons[lesson]
        if further[item.activity]
    )


def _say(instance: Instance, case: Case) -> Said:
    lesson, activity = (int(part) for part in instance.key)
    items = case.library.items
    kinds = further_kinds(case.problem)[activity]
    names = [items[kind].plural if kind in items else kind for kind in kinds]
    says = f"{case.activity(activity)} puts out {listed(names)} besides the usual equipment in {case.lesson(lesson)}."
    return case.in_activity(activity, ("equipment",), says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name what each lesson puts out besides the usual equipment, lesson by lesson."""
    items, further = case.library.items, further_kinds(case.problem)
    lessons: dict[int, dict[str, None]] = {}
    for each in instances:
        kinds = lessons.setdefault(int(each.key[0]), {})
        kinds.update(dict.fromkeys(further[int(each.key[1])]))
    put_out = [
        f"in lesson {lesson + 1} {listed([items[kind].plural if kind in items else kind for kind in lessons[lesson]])}"
        for lesson in sorted(lessons)
    ]
    return (f"Besides the usual equipment there is {'; '.join(put_out)}.",)


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
