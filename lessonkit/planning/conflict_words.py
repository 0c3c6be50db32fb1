"""A conflict in as few sentences as can be: steps in a row are one chain, what a lesson must have is one sentence.

A set of demands that is smallest for a solver may still be long to read: a step after a step after a step, then each
part of a lesson. What is said here is the same, at the line of the first of the demands that are said together.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import groupby

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case, counted, lessons_named
from lessonkit.planning.conflict import Conflict, Demand
from lessonkit.planning.linear import Instance
from lessonkit.planning.said import Said

_NAMED = 4
"""Activities that are named one by one; of more the first are named, and the others counted."""


def in_words(conflict: Conflict, case: Case) -> tuple[Said, ...]:
    """Return the sentences of a conflict, in the order of its demands."""
    said: list[Said] = []
    for kind, group in groupby(conflict.demands, key=_kind):
        demands = list(group)
        if kind == "steps":
            said += _steps(demands, case)
        elif kind == "frame":
            said += _frames(demands, case)
        elif kind == "repeats":
            said += [_repeats(demand, case) for demand in demands]
        else:
            said += [demand.said for demand in demands]
    return tuple(said)


def _kind(demand: Demand) -> str:
    """Return what is said together; the demands of one term stand side by side in a conflict."""
    term = demand.instances[0].term
    return {"skill-order": "steps", "shape": "frame", "minutes": "frame", "repeats": "repeats"}.get(term, term)


def _steps(demands: Sequence[Demand], case: Case) -> Iterator[Said]:
    """Say a chain of steps, each of which comes after the one before, in one sentence."""
    at: dict[tuple[int, int], Said] = {}
    for demand in demands:
        for instance in demand.instances:
            _, skill, level = (int(part) for part in instance.key)
            at.setdefault((skill, level), demand.said)
    for _, group in groupby(enumerate(sorted(at)), key=lambda each: (each[1][0], each[1][1] - each[0])):
        run = [key for _, key in group]
        skill, first = run[0]
        if len(run) == 1:
            yield case.in_skill(skill, first, f"{case.step(skill, first)} comes after {case.step(skill, first - 1)}.")
        else:
            names = [case.step(skill, first - 1), *(case.step(*key) for key in run)]
            yield case.in_skill(skill, run[-1][1], f"{listed(names)} come in this order.")


def _frames(demands: Sequence[Demand], case: Case) -> Iterator[Said]:
    """Say in one sentence what some lessons must have in their parts, and that they are filled to the minute."""
    together: dict[tuple[int, ...], list[Demand]] = defaultdict(list)
    for demand in demands:
        together[tuple(sorted({int(instance.key[0]) for instance in demand.instances}))].append(demand)
    for lessons, group in together.items():
        parts = [demand for demand in group if demand.instances[0].term == "shape"]
        lengths = {case.problem.lessons[lesson].minutes for lesson in lessons}
        full = [demand for demand in group if demand.instances[0].term == "minutes"]
        if len(lengths) > 1 or not parts:
            yield from (demand.said for demand in full)
            full = []
        if parts:
            yield _frame(lessons, parts, min(lengths) if full else None, case)


def _frame(lessons: tuple[int, ...], parts: Sequence[Demand], minutes: int | None, case: Case) -> Said:
    many = bool(lessons[1:])
    inside = [_inside(demand.instances[0], case) for demand in sorted(parts, key=lambda each: each.instances[0].key)]
    says = f"{lessons_named(lessons).capitalize()} {'have' if many else 'has'} {listed(inside)}"
    if minutes is not None:
        says += f", and {'are' if many else 'is'} filled to the minute: {counted(minutes, 'minute')}, set-up included"
    alone = len(parts) == 1 and minutes is None
    return parts[0].said if alone and not many else _at(parts, alone, f"{says}.", case)


def _at(parts: Sequence[Demand], alone: bool, says: str, case: Case) -> Said:
    lesson = int(parts[0].instances[0].key[0])
    return case.in_unit(parts[0].said.field, says) if alone else case.in_lesson(lesson, says)


def _inside(instance: Instance, case: Case) -> str:
    lesson, part = int(instance.key[0]), int(instance.key[1])
    frame = case.problem.lessons[lesson].parts[part]
    number = (
        counted(frame.least, "activity") if frame.least == frame.most else f"{frame.least} to {frame.most} activities"
    )
    return f"{number} in {case.part(lesson, part)}"


def _repeats(demand: Demand, case: Case) -> Said:
    """Name the activities that come back no more often, or no sooner."""
    numbers = list(dict.fromkeys(int(instance.key[0]) for instance in demand.instances))
    if len(numbers) == 1:
        return demand.said
    names = [case.activity(number) for number in numbers[:_NAMED]]
    more = numbers[_NAMED:]
    them = listed([*names, f"{len(more)} more"] if more else names)
    if demand.instances[0].key[1] == "most":
        says = f"{them} are used in at most {counted(case.problem.most, 'lesson')} of the unit each."
    else:
        says = f"{them} come back only after {counted(case.problem.apart, 'lesson')} without them."
    return Said(demand.said.kind, demand.said.record, demand.said.field, says)
