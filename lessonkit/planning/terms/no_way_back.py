"""Skills do not go backwards: a lesson teaches at most one step below the highest step reached in earlier lessons.

Going back one step is review. Warm-ups and closings are free, and so is a measured task that the class has done before:
it comes back so that children can see how they have improved. An activity that trains several skills of the unit goes
backwards only if it does so in all of them.
"""

from collections import defaultdict

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance, Weighted
from lessonkit.planning.problem import Choice, Level, Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Place, Variables, less

CODE = "no-way-back"


def _too_far(choice: Choice, problem: Problem) -> tuple[Level, ...]:
    """Return the levels that, all reached, make an activity a step backwards; none where that cannot happen."""
    beyond = tuple(Level(level.skill, level.level + 2) for level in choice.levels)
    return beyond if all(level.level <= problem.skills[level.skill].levels for level in beyond) else ()


def _applies(problem: Problem) -> bool:
    return any(_too_far(choice, problem) for choice in problem.choices)


def _add(variables: Variables, problem: Problem) -> None:
    for lesson in problem.open_lessons:
        single: dict[Level, list[Place]] = defaultdict(list)
        for place in variables.in_lesson(lesson):
            if not problem.lessons[lesson].parts[place[1]].is_core:
                continue
            choice = problem.choices[place[0]]
            beyond = _too_far(choice, problem)
            if len(beyond) == 1 and not choice.measured:
                single[beyond[0]].append(place)
            elif beyond:
                _add_one(variables, place, beyond, measured=choice.measured)
        for level in sorted(single, key=lambda level: (level.skill, level.level)):
            _add_single(variables, lesson, level, single)


def _add_one(variables: Variables, place: Place, beyond: tuple[Level, ...], *, measured: bool) -> None:
    activity, _, lesson = place
    reached: list[Weighted] = [pair for level in beyond for pair in variables.reached(level, lesson - 1)]
    again = less(variables.seen(activity, lesson - 1)) if measured else ()
    why = Instance(CODE, (activity, lesson))
    variables.model.at_most([*variables.sum_of([place]), *reached, *again], len(beyond), why)


def _add_single(variables: Variables, lesson: int, level: Level, single: dict[Level, list[Place]]) -> None:
    lower = [
        place
        for other, places in single.items()
        for place in places
        if other.skill == level.skill and (other.level == level.level if variables.fine else other.level <= level.level)
    ]
    for clique in variables.cliques(lower):
        why = Instance(CODE, (clique.places[0][0], lesson))
        reached = [(clique.most * factor, number) for factor, number in variables.reached(level, lesson - 1)]
        variables.model.at_most([*variables.sum_of(clique.places), *reached], clique.most, why)


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    highest = [0] * len(problem.skills)
    seen: set[int] = set()
    broken: list[Instance] = []
    for lesson, placed in enumerate(schedule.lessons):
        frame = problem.lessons[lesson]
        core = [
            (position, item)
            for position, item in enumerate(placed)
            if item.part >= 0 and frame.parts[item.part].is_core
        ]
        for position, item in core if frame.taught is None else ():
            choice = problem.choices[item.activity]
            known = choice.measured and item.activity in seen
            back = bool(choice.levels) and all(level.level + 2 <= highest[level.skill] for level in choice.levels)
            if back and not known:
                broken.append(Instance(CODE, (item.activity, lesson), lesson=lesson, position=position))
        for _, item in core:
            for level in problem.choices[item.activity].levels:
                highest[level.skill] = max(highest[level.skill], level.level)
        seen |= {item.activity for item in placed}
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    activity, lesson = (int(part) for part in instance.key)
    level = case.problem.choices[activity].levels[0]
    if instance.lesson is None:
        says = "From one lesson to the next a skill goes back one step at most."
        return case.in_unit(("skills", level.skill), says)
    step = case.step(level.skill, level.level)
    says = f"{case.activity(activity)} is at {step}, more than one step behind what {case.lesson(lesson)} has reached."
    return case.in_activity(activity, ("skills",), says)


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
