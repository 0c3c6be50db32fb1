"""A step of a skill comes after the step before it, in an earlier lesson or earlier in the same one; none is jumped.

It holds in every part of a lesson. Only skill, practice and game parts count as having met a step, and a step that no
activity of the library can teach to the class is passed over. An activity that trains two neighbouring steps leads from
one to the other itself.
"""

from collections import defaultdict

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Choice, Level, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables, less

CODE = "skill-order"


def _asked(choice: Choice) -> tuple[Level, ...]:
    """Return the levels of an activity that ask for the level before."""
    return tuple(
        level for level in choice.levels if level.level > 1 and Level(level.skill, level.level - 1) not in choice.levels
    )


def _applies(problem: Problem) -> bool:
    return any(_asked(choice) for choice in problem.choices)


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        following: dict[Level, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            for level in _asked(problem.choices[place[0]]):
                following[level].append(place)
        for level, places in following.items():
            earlier = Level(level.skill, level.level - 1)
            teaching = variables.teaching(earlier, lesson)
            for clique in variables.cliques(places):
                now = variables.sum_of(variables.before(clique, teaching))
                why = Instance(CODE, (clique.places[0][0], level.skill, level.level))
                ready = less([*variables.met(earlier, lesson - 1), *now], clique.most)
                variables.model.at_most([*variables.sum_of(clique.places), *ready], 0, why)
        if not variables.fine:
            _tighten(variables, lesson)


def _tighten(variables: Variables, lesson: int) -> None:
    """Say again for all activities of a part at once, whatever step they are at, what follows for each of them."""
    for clique in variables.cliques(variables.in_lesson(lesson)):
        for easy, reached in variables.rising(clique.places):
            hard = [place for place in clique.places if place not in easy]
            variables.model.at_most([*variables.sum_of(hard), *less(reached, clique.most)], 0)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    met: set[Level] = set()
    broken: list[Instance] = []
    for lesson, placed in enumerate(schedule.lessons):
        frame = problem.lessons[lesson]
        beside: set[Level] = set()
        for position, item in enumerate(placed):
            if position and item.part != placed[position - 1].part:
                met |= beside
            choice = problem.choices[item.activity]
            if frame.taught is None:
                broken += [
                    Instance(CODE, (item.activity, level.skill, level.level), lesson=lesson, position=position)
                    for level in _asked(choice)
                    if Level(level.skill, level.level - 1) not in met
                ]
            if item.part >= 0 and frame.parts[item.part].is_core:
                (beside if problem.is_circuit(item.part, lesson) else met).update(choice.levels)
        met |= beside
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    activity, skill, level = (int(part) for part in instance.key)
    step, earlier = case.step(skill, level), case.step(skill, level - 1)
    if instance.lesson is None:
        return case.in_skill(skill, level, f"{step} comes after {earlier}.")
    says = f"{case.activity(activity)} is at the step {step}, which comes after {earlier}."
    return case.in_activity(activity, ("skills",), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
