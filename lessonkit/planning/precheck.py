"""Counting arguments: what cannot be, seen without a search, with the numbers that show it."""

from collections.abc import Iterator

from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case, counted
from lessonkit.planning.problem import Goal, Problem
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
    found = [*_pins(case), *_empty_parts(case)]
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
        for code in problem.barred_at(pin.activity, pin.lesson):
            source = case.from_plan(number)
            how = "was put by hand into" if source and source.by_hand else "is pinned to"
            says = f"{case.activity(pin.activity)} {how} {case.lesson(pin.lesson)}, but: "
            yield case.at_pin(number, says + case.bar(pin.activity, pin.lesson, code).says)
        frames = problem.lessons[pin.lesson].parts
        parts = [part for part in range(len(frames)) if problem.fits(pin.activity, part, pin.lesson)]
        if pin.part is not None and not any(frames[part].part == pin.part for part in parts):
            says = f"{case.activity(pin.activity)} cannot be the {pin.part} of {case.lesson(pin.lesson)}: it is for "
            usual = listed(problem.choices[pin.activity].parts, "or") or "other units"
            yield case.at_pin(number, f"{says}{usual}, and the lesson's shape counts too.", "part")
        elif not parts:
            says = f"{case.activity(pin.activity)} fits no part of {case.lesson(pin.lesson)}."
            yield case.at_pin(number, says)


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
