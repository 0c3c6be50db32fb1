"""What the library holds for a unit, by counting: enough activities for every part, and enough minutes in them."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence

from lessonkit.logistics.equipment import needed, shortages
from lessonkit.logistics.words import listed
from lessonkit.planning.case import Case, counted
from lessonkit.planning.problem import Goal, Problem
from lessonkit.planning.said import Said
from lessonkit.records.activity import CORE_PARTS, How

_WHY = {
    "excluded": "excluded",
    "class-size": "unable to group the class",
    "equipment": "short of equipment",
    "where": "for another kind of space",
    "floor": "too big for the space",
    "builds-on": "building on one that cannot be used",
    "station": "not written as a station",
    "station-size": "unable to group a squad",
    "station-equipment": "short of equipment for a squad",
    "station-where": "for another kind of space",
    "station-floor": "too big for a station",
    "taken-out": "taken out by hand",
}
_ELSEWHERE = ("grade", "skill", "part")
"""Reasons of activities that are for another unit anyway: nobody expects them here."""

_SHARE = 3
"""What activities build on in vain is said where it keeps out at least one of so many that are left out."""


def times(problem: Problem, lessons: set[int]) -> int:
    """Return how often an activity that fits some lessons may be used, taking them as early as the gap allows."""
    used, free = 0, -1
    for lesson in sorted(lessons):
        if lesson >= free and used < problem.most:
            used += 1
            free = lesson + problem.apart + 1
    return used


def why_not(case: Case, part: str, lesson: int, *, station: bool) -> str:
    """Say why activities that one would expect in a part are left out of a lesson, counted by reason, in brackets.

    Those for other grades and other skills are not expected; where no others are left, that is said.
    """
    named = [activity for activity, record in case.library.activities.items() if part in record.parts]
    return _counted(case, named, lesson, station=station)


def why_not_serving(case: Case, goal: Goal, *, assess: bool) -> str:
    """Say why activities that serve an aim are left out of the first lesson still to come, in brackets."""
    framework, code = case.unit.framework, case.outcome(goal.outcome)
    how: How = "assessed" if assess else "practised"
    named = [key for key, record in case.library.activities.items() if code in record.served(framework, how)]
    return _counted(case, named, case.problem.open_lessons[0], station=False) if case.problem.open_lessons else ""


def above_all(case: Case, part: str, lesson: int) -> str:
    """Say which item keeps most activities of a part out of a lesson, with the numbers; '' where none is short."""
    return _scarcest(case, [key for key, record in case.library.activities.items() if part in record.parts], lesson)


def _scarcest(case: Case, named: Sequence[str], lesson: int) -> str:
    elsewhere = {bar.activity for bar in case.left_out if bar.code in _ELSEWHERE}
    barred = {bar.activity for bar in case.left_out if bar.code == "equipment" and lesson in bar.lessons}
    most: dict[str, list[int]] = defaultdict(list)
    for activity in sorted(barred & set(named) - elsewhere):
        record = case.library.activities[activity].for_grade(case.school_class.grade)
        needs = needed(record, case.school_class.children)
        for short in shortages(needs, case.school, case.library.items):
            if short.still_short:
                most[short.item].append(needs[short.item])
    if not most:
        return ""
    item = min(most, key=lambda each: (-len(most[each]), each))
    owned = case.school.owned(item)
    there = f"there {'is' if owned == 1 else 'are'} {owned or 'none'}"
    plural = case.library.items[item].plural if item in case.library.items else item
    return f" Above all {plural} are short: {max(most[item])} are needed, and {there}."


def _counted(case: Case, named: Sequence[str], lesson: int, *, station: bool) -> str:
    codes: Counter[str] = Counter()
    elsewhere = {bar.activity for bar in case.left_out if bar.code in _ELSEWHERE}
    left_out = {
        bar.activity: bar.code
        for bar in reversed(case.left_out)
        if lesson in bar.lessons and bar.station in (None, station)
    }
    for activity in named:
        if activity not in elsewhere and station and not case.library.activities[activity].station:
            codes["station"] += 1
        elif activity not in elsewhere and activity in left_out:
            codes[left_out[activity]] += 1
    reasons = [f"{count} {_WHY.get(code, code)}" for code, count in sorted(codes.items())]
    return f" ({listed(reasons)})" if reasons else ""


def missing_bases(case: Case, part: str, lesson: int) -> str:
    """Say which activities others of a part build on in vain, and why they cannot be used; '' where there are none."""
    activities = case.library.activities
    elsewhere = {bar.activity for bar in case.left_out if bar.code in ("grade", "skill", "part")}
    here = {
        bar.activity
        for bar in case.left_out
        if lesson in bar.lessons and bar.activity not in elsewhere and part in activities[bar.activity].parts
    }
    waiting = here & {bar.activity for bar in case.left_out if bar.code == "builds-on"}
    if _SHARE * len(waiting) < len(here):
        return ""
    says: dict[str, str] = {}
    for activity in sorted(waiting):
        record = activities[activity]
        for base in record.builds_on:
            barred = [bar for bar in case.left_out if bar.activity == base and bar.code != "builds-on"]
            if barred:
                says.setdefault(base, barred[0].said.says)
    return "".join(f" What they build on is missing: {each}" for each in list(says.values())[:1])


def supply(case: Case) -> Iterator[Said]:
    """Find parts that all lessons together need more often than the activities written for them may be used."""
    problem = case.problem
    frames = [frame for number in problem.open_lessons for frame in problem.lessons[number].parts]
    for name, station in sorted({(frame.part, frame.circuit is not None) for frame in frames}):
        needed = sum(frame.least for frame in frames if (frame.part, frame.circuit is not None) == (name, station))
        able: dict[int, set[int]] = {}
        for activity, part, lesson in problem.places:
            frame = problem.lessons[lesson].parts[part]
            if (frame.part, frame.circuit is not None) == (name, station):
                able.setdefault(activity, set()).add(lesson)
        supplied = sum(times(problem, lessons) for lessons in able.values())
        if supplied < needed:
            some = "the only one that fits" if len(able) == 1 else f"the {len(able)} that fit"
            lesson = problem.open_lessons[0]
            needs = f"circuits need {needed} stations" if station else f"unit needs {needed} activities for the {name}"
            says = (
                f"The {needs}, but {some} may be used {_times(supplied)} in all"
                f"{why_not(case, name, lesson, station=station)}."
                f"{'' if station else missing_bases(case, name, lesson) + above_all(case, name, lesson)}"
            )
            yield case.in_unit(("repeats", "most"), says)


def minutes_in_all(case: Case) -> Iterator[Said]:
    """Find a unit whose lessons are longer together than what may be put into them, with every repeat allowed."""
    problem = case.problem
    wanted = sum(problem.lessons[lesson].minutes for lesson in problem.open_lessons)
    core, core_activities = _most_minutes(problem, core=True)
    rest, _ = _most_minutes(problem, core=False)
    if not problem.open_lessons or core + rest >= wanted:
        return
    teaching = (
        f"the {counted(core_activities, 'activity')} for its skill, practice and game parts fill {core} at most,"
        if core_activities > 1
        else f"the only activity for its skill, practice and game parts fills {core} at most,"
    )
    each = counted(problem.most, "lesson")
    named = [key for key, record in case.library.activities.items() if set(record.parts) & set(CORE_PARTS)]
    reasons = _counted(case, named, problem.open_lessons[0], station=False)
    says = (
        f"The unit has {counted(wanted, 'minute')} to fill, but {teaching} used in {each} each,"
        f" and the other parts {rest}{reasons}.{_scarcest(case, named, problem.open_lessons[0])}"
    )
    yield case.in_unit(("repeats", "most"), says)


def activities_in_all(case: Case) -> Iterator[Said]:
    """Find a unit whose lessons need more teaching activities to be filled than may be used, with every repeat allowed.

    A lesson needs as many as it takes of the longest to fill what its other parts leave, at their longest.
    """
    problem = case.problem
    able: dict[tuple[int, int], list[int]] = defaultdict(list)
    for activity, part, lesson in problem.places:
        able[lesson, part].append(activity)
    needed_in = {lesson: _fewest(problem, lesson, able) for lesson in problem.open_lessons}
    lessons: dict[int, set[int]] = defaultdict(set)
    for activity, part, lesson in problem.places:
        if problem.lessons[lesson].parts[part].is_core:
            lessons[activity].add(lesson)
    wanted, supplied = sum(needed_in.values()), sum(times(problem, each) for each in lessons.values())
    if supplied >= wanted:
        return
    most = max(needed_in, key=lambda lesson: (needed_in[lesson], -lesson))
    each = "in each lesson" if len(set(needed_in.values())) == 1 else f"in {case.lesson(most)}"
    parts = dict.fromkeys(frame.part for frame in problem.lessons[most].parts if frame.is_core)
    where = f"{listed(list(parts))} part{'s' if len(parts) > 1 else ''}"
    some = "the only one that fits" if len(lessons) == 1 else f"the {len(lessons)} that fit"
    named = [key for key, record in case.library.activities.items() if set(record.parts) & set(parts)]
    says = (
        f"To fill its minutes the unit needs {wanted} activities in the {where}, {needed_in[most]} {each},"
        f" but {some} may be used {_times(supplied)} in all"
        f"{_counted(case, named, problem.open_lessons[0], station=False)}."
        f"{_scarcest(case, named, problem.open_lessons[0])}"
    )
    yield case.in_unit(("repeats", "most"), says)


def _fewest(problem: Problem, lesson: int, able: Mapping[tuple[int, int], list[int]]) -> int:
    """Return the fewest teaching activities that fill a lesson, its other parts, and circuits, at their longest."""
    left, room = problem.lessons[lesson].minutes, 0
    longest: dict[int, int] = defaultdict(int)
    for part, frame in enumerate(problem.lessons[lesson].parts):
        bounds = {activity: problem.bounds(activity, part, lesson) for activity in able[lesson, part]}
        most = {activity: each.most + each.setup for activity, each in bounds.items()}
        if frame.is_core and frame.circuit is None:
            room += frame.most
            longest |= {activity: max(minutes, longest[activity]) for activity, minutes in most.items()}
        else:
            held = sum(sorted(most.values(), reverse=True)[: frame.most])
            left -= held if frame.most_minutes is None else min(held, frame.most_minutes)
    count = 0
    for minutes in sorted(longest.values(), reverse=True)[:room]:
        if left <= 0:
            break
        left -= minutes
        count += 1
    return count


def _most_minutes(problem: Problem, *, core: bool) -> tuple[int, int]:
    """Return the most minutes that the teaching parts, or the others, can hold in all, and how many activities fit."""
    longest: dict[int, int] = defaultdict(int)
    lessons: dict[int, set[int]] = defaultdict(set)
    by_part: dict[tuple[int, int], list[int]] = defaultdict(list)
    for activity, part, lesson in problem.places:
        if (problem.lessons[lesson].parts[part].part in CORE_PARTS) == core:
            bounds = problem.bounds(activity, part, lesson)
            longest[activity] = max(longest[activity], bounds.most + bounds.setup)
            lessons[activity].add(lesson)
            by_part[lesson, part].append(bounds.most + bounds.setup)
    by_activity = sum(longest[activity] * times(problem, lessons[activity]) for activity in longest)
    by_lesson = 0
    for (lesson, part), each in by_part.items():
        frame = problem.lessons[lesson].parts[part]
        held = sum(sorted(each, reverse=True)[: frame.most])
        by_lesson += held if frame.most_minutes is None else min(held, frame.most_minutes)
    return min(by_activity, by_lesson), len(longest)


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number} times"
