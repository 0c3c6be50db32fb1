"""Each skill rises steadily, lesson by lesson, from what the class has mastered to the last step the library can teach.

A steady rise arrives in the last lesson, and takes no more than three new steps in two lessons. Every step that a skill
is ahead of it or behind it after a lesson is one unit given up.
"""

from collections.abc import Iterator, Sequence

from lessonkit.planning.case import Case, counted, lessons_named
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Level, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "rising-challenge"
_SIDES = {"behind": "behind", "ahead": "ahead of"}


def _targets(problem: Problem) -> Iterator[tuple[int, int, int]]:
    """Yield (skill, lesson, steps that a steady rise has met after it)."""
    lessons = len(problem.lessons)
    for number, skill in enumerate(problem.skills):
        goal = min(skill.levels, 3 * lessons // 2)
        if goal > 0:
            for lesson in problem.open_lessons:
                yield number, lesson, -(-goal * (lesson + 1) // lessons)


def _applies(problem: Problem) -> bool:
    return problem.weights.get(CODE, 0) > 0 and any(_targets(problem))


def _add(variables: Variables, problem: Problem) -> None:
    weight = problem.weights[CODE]
    for skill, lesson, target in _targets(problem):
        for level in range(1, problem.skills[skill].levels + 1):
            met = variables.met(Level(skill, level), lesson)
            if level <= target:
                variables.model.pay([(-weight * factor, number) for factor, number in met], weight)
            else:
                variables.model.pay([(weight * factor, number) for factor, number in met])


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    met: list[set[Level]] = []
    so_far: set[Level] = set()
    for frame, placed in zip(problem.lessons, schedule.lessons, strict=True):
        for item in placed:
            if item.part >= 0 and frame.parts[item.part].is_core:
                so_far |= set(problem.choices[item.activity].levels)
        met.append(set(so_far))
    given_up: list[Instance] = []
    for skill, lesson, target in _targets(problem):
        reached = {level.level for level in met[lesson] if level.skill == skill and level.level > 0}
        steady = set(range(1, target + 1))
        if reached != steady:
            side = "behind" if len(reached) < target else "ahead"
            given_up.append(Instance(CODE, (skill, lesson, side), len(reached ^ steady)))
    return tuple(given_up)


def _say(instance: Instance, case: Case) -> Said:
    skill, lesson, side = int(instance.key[0]), int(instance.key[1]), instance.key[2]
    title = case.library.skills[case.problem.skills[skill].id].title
    says = (
        f"After {case.lesson(lesson)}, {title} is {counted(instance.amount, 'step')} {_SIDES[str(side)]} a steady rise."
    )
    return case.in_unit(("skills", skill), says)


def _together(instances: Sequence[Instance], case: Case) -> tuple[str, ...]:
    """Name in one sentence all lessons after which a skill is as far ahead of a steady rise, or behind it."""
    lessons: dict[tuple[int, str, int], list[int]] = {}
    for each in instances:
        lessons.setdefault((int(each.key[0]), str(each.key[2]), each.amount), []).append(int(each.key[1]))
    titles = [case.library.skills[skill.id].title for skill in case.problem.skills]
    return tuple(
        f"{titles[skill]} is {counted(amount, 'step')} {_SIDES[side]} a steady rise after {lessons_named(after)}."
        for (skill, side, amount), after in lessons.items()
    )


TERM = Term(CODE, "preferred", _applies, _add, _measure, _say, _together)
