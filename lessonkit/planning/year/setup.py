"""From a year request to a problem of numbers: weeks, the weeks that each unit can take, loads, families, outcomes."""

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from msgspec import structs

from lessonkit.outcomes.practised import outcomes_of
from lessonkit.planning.dates import minute_of_day, timetable
from lessonkit.planning.said import Said
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.problem import Block, Span, YearProblem
from lessonkit.planning.year.weights import year_weights
from lessonkit.records.library import Library
from lessonkit.records.school import Closure, School, SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year, YearMap, YearUnit

_EFFORT: Final = {"rest": 0, "light": 10, "moderate": 20, "vigorous": 30}
_STRETCHES: Final = 4
"""Stretches of a year without report days."""


@dataclass(frozen=True, slots=True)
class Again:
    """A year that is mapped again: the earlier map, and the day from which units may move (None: all may)."""

    earlier: YearMap
    since: date | None = None


@dataclass(frozen=True, slots=True)
class _Days:
    """The calendar of a year: Mondays, and by class the days of its lessons."""

    mondays: tuple[date, ...]
    lessons: Mapping[str, tuple[date, ...]]

    def week(self, day: date) -> int:
        """Return the number of a day's week; before the first or after the last one where it lies outside."""
        return (day - self.mondays[0]).days // 7


def set_up_year(library: Library, year: Year, again: Again | None = None) -> YearCase:
    """Return the problem of a year with its records.

    Raises KeyError for a school, unit or class that the library does not have.
    """
    school = library.schools[year.school]
    units = [library.units[each.unit] for each in year.units]
    rows = _rows(school, units)
    days = _calendar(year, units, school)
    names = _Names(library, units)
    blocks, lasts = [], []
    for asked, unit in zip(year.units, units, strict=True):
        ends = _ends(unit, days)
        blocks.append(_block(asked, unit, (year, rows, days, names, again), ends))
        lasts.append(ends)
    problem = YearProblem(
        weeks=len(days.mondays),
        rows=len(rows),
        blocks=tuple(blocks),
        open_weeks=tuple(frozenset(days.week(day) for one in row for day in days.lessons[one.id]) for row in rows),
        stretches=_stretches(year, days),
        quiet=frozenset(week for closure in year.quiet for week in _weeks_of(closure, days)),
        setups=len(names.skills),
        weights=year_weights(year.wishes),
    )
    return YearCase(
        problem=problem,
        library=library,
        year=year,
        school=school,
        rows=rows,
        mondays=days.mondays,
        lasts=tuple(lasts),
        lessons=tuple(min(len(days.lessons[one.id]) for one in row) for row in rows),
        skills=tuple(library.skills[skill].title.lower() for skill in names.skills),
        families=names.families,
        outcomes=names.outcomes,
        faults=tuple(_faults(year, units, school)),
    )


def _rows(school: School, units: list[Unit]) -> tuple[tuple[SchoolClass, ...], ...]:
    """Gather the classes that have the same units, as parallel classes of a grade do: each group is a row."""
    groups: dict[tuple[str, ...], list[SchoolClass]] = {}
    for one in school.classes:
        taught = tuple(unit.id for unit in units if one.id in unit.classes)
        if taught:
            groups.setdefault(taught, []).append(one)
    return tuple(tuple(group) for group in groups.values())


def _faults(year: Year, units: list[Unit], school: School) -> Iterator[Said]:
    seen: set[str] = set()
    for number, unit in enumerate(units):
        path = ("units", number, "unit")
        if unit.id in seen:
            yield Said("year", year.id, path, f"{unit.title} is in the year twice.")
        if unit.school != school.id:
            says = f"{unit.title} is for the school {unit.school!r}, the year for {school.id!r}."
            yield Said("year", year.id, path, says)
        seen.add(unit.id)
    yield from _double_bookings(school, [one for one in school.classes if any(one.id in u.classes for u in units)])


def _double_bookings(school: School, classes: list[SchoolClass]) -> Iterator[Said]:
    """Yield a sentence for every two classes of the year that are in one space at the same time."""
    booked: list[tuple[str, str, int, int, SchoolClass]] = []
    for one in classes:
        for place, meeting in enumerate(one.meets):
            space = meeting.space or one.space
            begins = minute_of_day(meeting.at)
            for day, where, starts, ends, other in booked:
                if (day, where) == (meeting.day, space) and begins < ends and starts < begins + meeting.minutes:
                    says = f"{one.title} and {other.title} are both in the {space} on {meeting.day} at {meeting.at}."
                    number = school.classes.index(one)
                    yield Said("school", school.id, ("classes", number, "meets", place), says)
            booked.append((meeting.day, space, begins, begins + meeting.minutes, one))


def _calendar(year: Year, units: list[Unit], school: School) -> _Days:
    first = date.fromisoformat(school.calendar.first_day)
    last = date.fromisoformat(school.calendar.last_day)
    monday = first - timedelta(days=first.weekday())
    mondays = tuple(monday + timedelta(weeks=n) for n in range((last - monday).days // 7 + 1))
    lost = {day for closure in year.lost for day in _days_of(closure)}
    lessons = {}
    for one in (each for each in school.classes if any(each.id in unit.classes for unit in units)):
        whole = structs.replace(units[0], start=school.calendar.first_day, lessons=None, weeks=80, lost_days=())
        taken = timetable(whole, school, one).lessons
        lessons[one.id] = tuple(lesson.date for lesson in taken if lesson.date not in lost)
    return _Days(mondays, lessons)


def _days_of(closure: Closure) -> list[date]:
    first = date.fromisoformat(closure.first)
    last = date.fromisoformat(closure.last or closure.first)
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def _weeks_of(closure: Closure, days: _Days) -> set[int]:
    return {days.week(day) for day in _days_of(closure)}


def _ends(unit: Unit, days: _Days) -> dict[int, date]:
    """Return, by the week that a unit begins in, the day of the last lesson that any of its classes has in it."""
    found: dict[int, date] = {}
    taught = [days.lessons[one] for one in unit.classes if one in days.lessons]
    begins = {days.week(day) for lessons in taught for day in lessons}
    lost = {date.fromisoformat(day) for day in unit.lost_days}
    kept = [[day for day in lessons if day not in lost] for lessons in taught]
    for week, monday in enumerate(days.mondays):
        ends = [_end(unit, monday, lessons) for lessons in kept] if week in begins else []
        if ends and None not in ends:
            found[week] = max(end for end in ends if end is not None)
    return found


def _end(unit: Unit, monday: date, lessons: list[date]) -> date | None:
    """Return the day of a unit's last lesson when it begins in the week of a Monday; None where the year ends first.

    ``lessons`` are the days that are not lost to the unit, in their order.
    """
    left = lessons[bisect_left(lessons, monday) :]
    if unit.lessons is not None:
        return left[unit.lessons - 1] if len(left) >= unit.lessons else None
    within = [day for day in left if day < monday + timedelta(weeks=unit.weeks or 1)]
    return within[-1] if within and left[-1] >= monday + timedelta(weeks=(unit.weeks or 1) - 1) else None


def _stretches(year: Year, days: _Days) -> tuple[Span, ...]:
    """Return the stretches between report days, or four like ones where there are none."""
    weeks = len(days.mondays)
    cuts = sorted({days.week(date.fromisoformat(day)) for day in year.reports})
    ends = [week for week in cuts if 0 <= week < weeks]
    if not ends:
        ends = [(n + 1) * weeks // _STRETCHES - 1 for n in range(_STRETCHES)]
    starts = [0, *(end + 1 for end in ends)]
    return tuple(Span(start, end) for start, end in zip(starts, ends, strict=False) if start <= end)


class _Names:
    """The numbers of skills, families and outcomes in a problem, and the efforts of the activities of each skill."""

    def __init__(self, library: Library, units: list[Unit]) -> None:
        self.library = library
        self.skills = tuple(sorted({skill for unit in units for skill in unit.skills}))
        self.families = tuple(sorted({library.skills[skill].family for skill in self.skills}))
        self.covered = {unit.id: outcomes_of(unit, library) for unit in units}
        self.outcomes = tuple(sorted(set().union(*self.covered.values()))) if units else ()
        self.efforts: dict[str, dict[str, int]] = {}
        for activity in library.activities.values():
            for step in activity.skills:
                self.efforts.setdefault(step.skill, {})[activity.id] = _EFFORT[activity.effort]

    def block(self, unit: Unit) -> tuple[frozenset[int], frozenset[int], frozenset[int]]:
        """Return a unit's families, skills and outcomes as numbers."""
        families = {self.library.skills[skill].family for skill in unit.skills}
        return (
            frozenset(self.families.index(family) for family in families),
            frozenset(self.skills.index(skill) for skill in unit.skills),
            frozenset(self.outcomes.index(code) for code in self.covered[unit.id]),
        )


_Frame = tuple[Year, tuple[tuple[SchoolClass, ...], ...], _Days, _Names, Again | None]


def _block(asked: YearUnit, unit: Unit, frame: _Frame, ends: Mapping[int, date]) -> Block:
    year, rows, days, names, again = frame
    families, setups, covers = names.block(unit)
    order = [each.unit for each in year.units]
    was, held = _before(unit, days, again)
    return Block(
        id=unit.id,
        rows=tuple(number for number, row in enumerate(rows) if any(one.id in unit.classes for one in row)),
        spans=tuple(Span(week, days.week(end)) for week, end in sorted(ends.items())),
        load=_load(unit, names),
        families=families,
        setups=setups,
        covers=covers,
        follows=tuple(order.index(earlier) for earlier in asked.follows),
        optional=asked.optional,
        not_before=_not_before(asked, days),
        over_by=None if asked.over_by is None else _over_by(date.fromisoformat(asked.over_by), days, ends),
        week_of=None if asked.week_of is None else days.week(date.fromisoformat(asked.week_of)),
        was=was,
        held=held,
    )


def _not_before(asked: YearUnit, days: _Days) -> int | None:
    """Return the first week that a unit may begin in: one whose Monday is not before the day, for nothing is cut."""
    if asked.not_before is None:
        return None
    day = date.fromisoformat(asked.not_before)
    return days.week(day) + (1 if day.weekday() else 0)


def _over_by(day: date, days: _Days, ends: Mapping[int, date]) -> int:
    """Return the last week that a unit may end in so that its last lesson is on the day or before."""
    ending = [days.week(end) for end in ends.values() if end <= day]
    return max(ending, default=-1)


def _before(unit: Unit, days: _Days, again: Again | None) -> tuple[int | None, bool]:
    """Return the first week of a unit in the earlier map, and whether it has begun by then."""
    for each in again.earlier.units if again else ():
        if each.unit == unit.id:
            monday = date.fromisoformat(each.week_of)
            since = again.since if again else None
            return days.week(monday), since is not None and monday < since
    return None, False


def _load(unit: Unit, names: _Names) -> int:
    """Return the effort of a unit: of its planned activities by their minutes, else the mean of its skills' ones."""
    library = names.library
    planned = [
        (slot.minutes, _EFFORT[library.activities[slot.activity].effort])
        for plan in library.plans.values()
        if plan.unit == unit.id
        for lesson in plan.lessons
        for slot in lesson.activities
        if slot.activity in library.activities
    ]
    trained = {name: effort for skill in unit.skills for name, effort in names.efforts.get(skill, {}).items()}
    weighted = planned or [(1, effort) for effort in trained.values()]
    total = sum(minutes for minutes, _ in weighted)
    return round(sum(minutes * effort for minutes, effort in weighted) / total) if total else 20
