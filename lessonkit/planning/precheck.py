"""Counting arguments: what cannot be, seen without a search, with the numbers that show it."""

from collections.abc import Iterator

from lessonkit.logistics.asked_for import Place, Room, fitting, no_part_for, pinned_but
from lessonkit.logistics.pins_together import Asked, too_long, too_many, too_often
from lessonkit.planning.case import Case, counted
from lessonkit.planning.problem import Goal, Pinned, Problem
from lessonkit.planning.said import Said
from lessonkit.planning.supply import (
    above_all,
    activities_in_all,
    minutes_in_all,
    missing_bases,
    supply,
    times,
    why_not,
    why_not_serving,
)


def precheck(case: Case) -> tuple[Said, ...]:
    """Return what cannot be, one sentence for each; nothing where counting finds no fault."""
    found = [*_pins(case), *_pins_together(case), *_empty_parts(case)]
    if not found:
        found = [*supply(case), *_minutes(case), *_moving(case), *_aims(case)]
    if not found:
        found = list(minutes_in_all(case)) or list(activities_in_all(case))
    return tuple(dict.fromkeys(found))


def _pins(case: Case) -> Iterator[Said]:
    problem = case.problem
    for number, pin in enumerate(problem.pins):
        if problem.lessons[pin.lesson].taught is not None:
            continue
        barred = problem.barred_at(pin.activity, pin.lesson)
        source = case.from_plan(number)
        how = "was put by hand into" if source and source.by_hand else "is pinned to"
        title, lesson = case.activity(pin.activity), pin.lesson + 1
        for code in barred:
            yield case.at_pin(number, pinned_but(title, lesson, case.bar(pin.activity, pin.lesson, code).says, how))
        choice, rooms = problem.choices[pin.activity], _rooms(problem, pin.lesson)
        says = no_part_for(title, Place(choice.parts, choice.station, pin.part), lesson, rooms)
        if says is not None and not {"skill", "part"} & set(barred):
            yield case.at_pin(number, says, *(() if pin.part is None else ("part",)))


def _rooms(problem: Problem, lesson: int) -> tuple[Room, ...]:
    return tuple(
        Room(frame.part, frame.most, frame.most_minutes, frame.circuit is not None)
        for frame in problem.lessons[lesson].parts
    )


def _pins_together(case: Case) -> Iterator[Said]:
    """Find the request's own pins that cannot all hold; those of a plan at hand are left to the search."""
    problem = case.problem
    asked = [
        _asked(case, number, pin)
        for number, pin in enumerate(problem.pins)
        if case.from_plan(number) is None and problem.lessons[pin.lesson].taught is None
    ]
    clashes = list(too_often(asked, problem.most, problem.apart))
    for lesson in sorted({pin.lesson for pin in asked}):
        own, rooms = [pin for pin in asked if pin.lesson == lesson], _rooms(problem, lesson - 1)
        clashes += [*too_many(own, rooms), *too_long(own, rooms, problem.lessons[lesson - 1].minutes)]
    for clash in clashes:
        yield case.at_pin(clash.number, clash.says)


def _asked(case: Case, number: int, pin: Pinned) -> Asked:
    problem, choice = case.problem, case.problem.choices[pin.activity]
    parts = fitting(Place(choice.parts, choice.station, pin.part), _rooms(problem, pin.lesson))
    in_circuit = any(problem.is_circuit(part, pin.lesson) for part in parts)
    bounds = [problem.bounds(pin.activity, part, pin.lesson) for part in parts]
    shortest = 0 if in_circuit else min((each.least + each.setup for each in bounds), default=0)
    return Asked(number, pin.lesson + 1, choice.id, case.activity(pin.activity), parts, shortest)


def _able(problem: Problem, part: int, lesson: int) -> list[int]:
    return [activity for activity, other, number in problem.places if (other, number) == (part, lesson)]


def _empty_parts(case: Case) -> Iterator[Said]:
    """Find parts of lessons that too few activities fit."""
    problem = case.problem
    seen: set[tuple[int, int, int]] = set()
    for lesson in problem.open_lessons:
        frame = problem.lessons[lesson]
        for part, wanted in enumerate(frame.parts):
            able = len(_able(problem, part, lesson))
            key = (frame.shape, part, able)
            if able >= wanted.least or key in seen:
                continue
            seen.add(key)
            some = (
                "no activity fits"
                if able == 0
                else "only 1 activity fits"
                if able == 1
                else f"only {able} activities fit"
            )
            needs = counted(wanted.least, "activity")
            says = f"{case.part(lesson, part).capitalize()} of {case.lesson(lesson)} needs {needs}, but {some}"
            place, station = ("shapes", frame.shape, "parts", part), wanted.circuit is not None
            reasons = why_not(case, wanted.part, lesson, station=station)
            more = "" if station else missing_bases(case, wanted.part, lesson) + above_all(case, wanted.part, lesson)
            yield case.in_unit(place, f"{says}{reasons}.{more}")


def _minutes(case: Case) -> Iterator[Said]:
    """Find lessons too short or too long for their parts; of several alike the first is named, the others counted."""
    problem = case.problem
    alike: dict[tuple[int, int, str], list[int]] = {}
    for lesson in problem.open_lessons:
        shortest, longest = span(problem, lesson)
        frame = problem.lessons[lesson]
        limit = f"at least {shortest}" if shortest > frame.minutes else f"at most {longest}"
        if not shortest <= frame.minutes <= longest:
            alike.setdefault((frame.shape, frame.minutes, limit), []).append(lesson)
    for (_, length, limit), lessons in alike.items():
        name = case.lesson(lessons[0]).capitalize()
        more = (
            f", like {counted(len(lessons) - 1, 'more lesson').replace('1 more', 'one more')}," if lessons[1:] else ""
        )
        says = f"{name}{more} lasts {length} minutes, but its parts take {limit} with their set-up."
        yield case.in_lesson(lessons[0], says)


def span(problem: Problem, lesson: int) -> tuple[int, int]:
    """Return the fewest and the most minutes that a lesson's parts can take, part by part."""
    shortest = longest = 0
    for part, frame in enumerate(problem.lessons[lesson].parts):
        bounds = [problem.bounds(activity, part, lesson) for activity in _able(problem, part, lesson)]
        low = sum(sorted(each.least + each.setup for each in bounds)[: frame.least])
        high = sum(sorted((each.most + each.setup for each in bounds), reverse=True)[: frame.most])
        shortest += max(low, frame.least_minutes or 0)
        longest += high if frame.most_minutes is None else min(high, frame.most_minutes)
    return shortest, longest


def _moving(case: Case) -> Iterator[Said]:
    """Find lessons whose parts have the children stand still for longer than the request allows, at the very least.

    Every part that must be there costs the set-up and the standing of one of its activities, run as short as can be.
    Of several lessons alike the first is named, the others counted.
    """
    problem = case.problem
    alike: dict[tuple[int, int, int], list[int]] = {}
    for lesson in problem.open_lessons:
        minutes = problem.lessons[lesson].minutes
        still = sum(_least_still(problem, lesson, part) for part in range(len(problem.lessons[lesson].parts)))
        if 100 * minutes - still < problem.moving * minutes:
            alike.setdefault((problem.lessons[lesson].shape, minutes, still), []).append(lesson)
    for (_, minutes, still), lessons in alike.items():
        more = "" if not lessons[1:] else f" and {counted(len(lessons) - 1, 'more lesson')}"
        most = (100 * minutes - still) // minutes
        says = (
            f"Children are to move for {problem.moving}% of {case.lesson(lessons[0])}{more}, but with the set-up and"
            f" the standing that its parts cannot do without they move for {most}% at most."
        )
        yield case.in_unit(("moving",), says)


def _least_still(problem: Problem, lesson: int, part: int) -> int:
    """Return the hundredths of a minute that children at least stand still in a part of a lesson."""
    able = [(problem.bounds(each, part, lesson), each) for each in _able(problem, part, lesson)]
    still = [bounds.setup * 100 + bounds.least * (100 - problem.rate(each, part, lesson)) for bounds, each in able]
    return sum(sorted(still)[: problem.lessons[lesson].parts[part].least])


def _aims(case: Case) -> Iterator[Said]:
    for number, goal in enumerate(case.problem.goals):
        yield from _aim_practised(case, number, goal)
        yield from _aim_assessed(case, number, goal)


def _lessons_for(problem: Problem, outcome: int, *, assess: bool) -> set[int]:
    taught = {
        lesson
        for lesson, frame in enumerate(problem.lessons)
        for placed in frame.taught or ()
        if outcome in (placed.assess if assess else problem.choices[placed.activity].practises)
    }
    return taught | {
        lesson
        for activity, _, lesson in problem.places
        if outcome in (problem.choices[activity].assesses if assess else problem.choices[activity].practises)
    }


def _aim_practised(case: Case, number: int, goal: Goal) -> Iterator[Said]:
    problem = case.problem
    code, lessons = case.outcome(goal.outcome), len(problem.lessons)
    wanted = counted(goal.practise, "lesson")
    if goal.practise > lessons:
        says = f"{code} is to be practiced in {wanted}, but the unit has {lessons}."
        yield case.in_unit(("aims", number, "practise"), says)
        return
    possible = _lessons_for(problem, goal.outcome, assess=False)
    able: dict[int, set[int]] = {}
    for activity, _, lesson in problem.places:
        if goal.outcome in problem.choices[activity].practises:
            able.setdefault(activity, set()).add(lesson)
    taught = sum(problem.lessons[lesson].taught is not None for lesson in possible)
    supply = taught + sum(times(problem, each) for each in able.values())
    if not possible and goal.practise:
        says = f"{code} is to be practiced in {wanted}, but no activity that this class can do practices it"
        says += f"{why_not_serving(case, goal, assess=False)}."
        yield case.in_unit(("aims", number, "code"), says)
    elif min(len(possible), supply) < goal.practise:
        says = (
            f"{code} is to be practiced in {wanted}, but the activities that practice it"
            f" can be in {min(len(possible), supply)} at most{why_not_serving(case, goal, assess=False)}."
        )
        yield case.in_unit(("aims", number, "practise"), says)


def _aim_assessed(case: Case, number: int, goal: Goal) -> Iterator[Said]:
    if not goal.assess:
        return
    problem = case.problem
    code, lessons = case.outcome(goal.outcome), len(problem.lessons)
    possible = _lessons_for(problem, goal.outcome, assess=True)
    late = {lesson for lesson in possible if lesson >= goal.after or problem.lessons[lesson].taught is not None}
    wanted = counted(goal.assess, "lesson")
    if not possible:
        says = f"{code} is to be assessed in {wanted}, but no activity that this class can do assesses it"
        says += f"{why_not_serving(case, goal, assess=True)}."
        yield case.in_unit(("aims", number, "assess"), says)
    elif len(late) < goal.assess:
        says = (
            f"{code} is to be assessed in {wanted}, each after {counted(goal.after, 'lesson')} of practice,"
            f" but a unit of {counted(lessons, 'lesson')} leaves {len(late)} for that."
        )
        yield case.in_unit(("aims", number, "after"), says)
