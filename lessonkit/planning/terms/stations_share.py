"""The stations of a circuit run side by side, so that their equipment adds up: the school must have enough for all.

The floor is shared, too: one station at most may take what is left over for a second one.

Stand-ins are not counted here: they would have to be in two places at once.
"""

from collections import defaultdict
from collections.abc import Iterator

from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.said import Said
from lessonkit.planning.term import Term
from lessonkit.planning.variables import Variables

CODE = "stations-share"
_FLOOR = "*floor"
"""What stands for the floor in place of an item's id."""


def _circuits(problem: Problem) -> Iterator[tuple[int, int, int]]:
    """Yield (lesson, part, stations) for every circuit still to be filled."""
    for lesson in problem.open_lessons:
        for part, frame in enumerate(problem.lessons[lesson].parts):
            if frame.circuit is not None:
                yield lesson, part, frame.most


def _applies(problem: Problem) -> bool:
    return any(True for _ in _circuits(problem))


def _needs(problem: Problem, activity: int, stations: int) -> dict[str, int]:
    return {item: count for number, item, count in problem.choices[activity].station_needs if number == stations}


def _add(variables: Variables, problem: Problem) -> None:
    owned = dict(problem.owned)
    for lesson, part, stations in _circuits(problem):
        users: dict[str, list[tuple[int, int]]] = defaultdict(list)
        for place in variables.in_part(part, lesson):
            for item, count in _needs(problem, place[0], stations).items():
                users[item].append((count, variables.place[place]))
        wide = [place for place in variables.in_part(part, lesson) if lesson in problem.choices[place[0]].station_wide]
        if wide[1:]:
            variables.model.at_most(variables.sum_of(wide), 1, Instance(CODE, (lesson, part, _FLOOR)))
        for item in sorted(users):
            if sum(sorted((count for count, _ in users[item]), reverse=True)[:stations]) > owned.get(item, 0):
                variables.model.at_most(users[item], owned.get(item, 0), Instance(CODE, (lesson, part, item)))


def _measure(schedule: Schedule, problem: Problem) -> tuple[Instance, ...]:
    owned = dict(problem.owned)
    broken: list[Instance] = []
    for lesson, part, stations in _circuits(problem):
        total: dict[str, int] = defaultdict(int)
        for placed in schedule.lessons[lesson]:
            if placed.part == part:
                for item, count in _needs(problem, placed.activity, stations).items():
                    total[item] += count
        side_by_side = [placed for placed in schedule.lessons[lesson] if placed.part == part]
        wide = sum(lesson in problem.choices[placed.activity].station_wide for placed in side_by_side)
        if wide > 1:
            broken.append(Instance(CODE, (lesson, part, _FLOOR), found=wide, lesson=lesson))
        broken += [
            Instance(CODE, (lesson, part, item), found=count, lesson=lesson)
            for item, count in sorted(total.items())
            if count > owned.get(item, 0)
        ]
    return tuple(broken)


def _say(instance: Instance, case: Case) -> Said:
    lesson, part, item = int(instance.key[0]), int(instance.key[1]), str(instance.key[2])
    owned = dict(case.problem.owned).get(item, 0)
    known = case.library.items.get(item)
    name = item if known is None else known.plural
    says = f"The stations of {case.lesson(lesson)} share {owned} {name}"
    instead = "" if instance.found is None else f", but need {instance.found}"
    if item == _FLOOR:
        says = f"One station of {case.lesson(lesson)} may have the floor of two"
        instead = "" if instance.found is None else f", not {instance.found}"
    place = ("shapes", case.problem.lessons[lesson].shape, "parts", part, "circuit")
    return case.in_unit(place, f"{says}{instead}.")


TERM = Term(CODE, "required", _applies, _add, _measure, _say)
