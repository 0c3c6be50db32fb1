"""The dates of a unit: the class's weekly lessons, less holidays, closures and lost days.

Days are local dates of the school; no time zone enters here.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from lessonkit.planning.said import Said
from lessonkit.records.school import Closure, Holidays, Meeting, School, SchoolClass
from lessonkit.records.unit import Unit

_WEEK = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_OBSERVED = " (observed)"
_NAMED = 4
"""Lessons that fall out and are named one by one; of more the first are named, and the others counted."""


@dataclass(frozen=True, slots=True)
class LessonDate:
    """When and where a lesson takes place: local date, time of day as written, minutes, space id."""

    date: date
    at: str
    minutes: int
    space: str


@dataclass(frozen=True, slots=True)
class Skipped:
    """A weekly lesson that does not take place, and why, as part of a sentence ("Memorial Day")."""

    date: date
    at: str
    why: str


@dataclass(frozen=True, slots=True)
class Timetable:
    """The lessons of a unit in order, the weekly lessons skipped on the way, and what is wrong with the request."""

    lessons: tuple[LessonDate, ...]
    skipped: tuple[Skipped, ...] = ()
    faults: tuple[Said, ...] = ()


def timetable(unit: Unit, school: School, school_class: SchoolClass) -> Timetable:
    """Return the dates of a unit for a class.

    ``unit.lessons`` counts lessons that take place; ``unit.weeks`` counts weeks of seven days from the start, in which
    a skipped lesson is lost. When the school year ends first, the timetable is shorter and says so.
    """
    start = max(date.fromisoformat(unit.start), date.fromisoformat(school.calendar.first_day))
    end = date.fromisoformat(school.calendar.last_day)
    if unit.weeks is not None:
        end = min(end, start + timedelta(days=7 * unit.weeks - 1))
    reasons, faults = _days_off(unit, school, start, end)
    taken: list[LessonDate] = []
    skipped: list[Skipped] = []
    for day, meeting in _meetings(school_class, start, end):
        if unit.lessons is not None and len(taken) == unit.lessons:
            break
        if day in reasons:
            skipped.append(Skipped(day, meeting.at, reasons[day]))
        else:
            taken.append(LessonDate(day, meeting.at, meeting.minutes, meeting.space or school_class.space))
    faults += _too_short(unit, school, school_class, len(taken), skipped)
    return Timetable(tuple(taken), tuple(skipped), faults)


def _meetings(school_class: SchoolClass, start: date, end: date) -> Iterator[tuple[date, Meeting]]:
    weekly = sorted(school_class.meets, key=lambda meeting: minute_of_day(meeting.at))
    for offset in range((end - start).days + 1):
        day = start + timedelta(days=offset)
        for meeting in weekly:
            if _WEEK[day.weekday()] == meeting.day:
                yield day, meeting


def minute_of_day(at: str) -> int:
    """Return the minutes since midnight of a time such as ``10:15``."""
    hours, _, minutes = at.partition(":")
    return int(hours) * 60 + int(minutes)


def _days_off(unit: Unit, school: School, start: date, end: date) -> tuple[dict[date, str], tuple[Said, ...]]:
    reasons: dict[date, str] = {}
    faults: tuple[Said, ...] = ()
    if school.calendar.holidays is not None:
        try:
            reasons |= public_holidays(school.calendar.holidays, start, end)
        except NotImplementedError:
            says = _unknown_place(school.calendar.holidays)
            faults = (Said("school", school.id, ("calendar", "holidays"), says),)
    for closure in school.calendar.closures:
        reasons |= dict.fromkeys(_closed(closure), closure.why)
    reasons |= {date.fromisoformat(day): "lost day named in the unit request" for day in unit.lost_days}
    return reasons, faults


def _unknown_place(holidays: Holidays) -> str:
    place = holidays.country if holidays.region is None else f"{holidays.country}, region {holidays.region}"
    return f"No public holidays are known for {place}; write a country code such as US, and closures by hand."


def _closed(closure: Closure) -> list[date]:
    first = date.fromisoformat(closure.first)
    last = date.fromisoformat(closure.last or closure.first)
    return [first + timedelta(days=offset) for offset in range((last - first).days + 1)]


def public_holidays(rule: Holidays, start: date, end: date) -> dict[date, str]:
    """Return the public holidays from start to end that close the school, by date, observed days included.

    A holiday named in ``rule.open`` (upper or lower case) is a school day, and so is the day it is observed on.
    Raises NotImplementedError for a country or region that the ``holidays`` library does not know.
    """
    import holidays as library

    kept = {name.casefold() for name in rule.open}
    years = range(start.year, end.year + 1)
    closed: dict[date, str] = {}
    for day, names in sorted(library.country_holidays(rule.country, subdiv=rule.region, years=years).items()):
        closing = [name for name in names.split("; ") if name.removesuffix(_OBSERVED).casefold() not in kept]
        if closing and start <= day <= end:
            closed[day] = " and ".join(closing)
    return closed


def _too_short(
    unit: Unit, school: School, school_class: SchoolClass, found: int, skipped: Sequence[Skipped]
) -> tuple[Said, ...]:
    if not school_class.meets:
        says = f"{school_class.title} has no weekly lessons; write when it meets."
        place = [candidate.id for candidate in school.classes].index(school_class.id)
        return (Said("school", school.id, ("classes", place, "meets"), says),)
    wanted = unit.lessons if unit.lessons is not None else 1
    if found >= wanted:
        return ()
    lessons = "no lesson is" if found == 0 else "1 lesson is" if found == 1 else f"{found} lessons are"
    until = f"from {unit.start} to the last day of school, {school.calendar.last_day}"
    if unit.weeks is not None and unit.lessons is None:
        until = f"in the {unit.weeks} weeks from {unit.start}"
    says = f"The unit needs {wanted}, but {lessons} left for {school_class.title} {until}{_fallen_out(skipped)}."
    return (Said("unit", unit.id, ("lessons" if unit.lessons is not None else "weeks",), says),)


def _fallen_out(skipped: Sequence[Skipped]) -> str:
    """Say which weekly lessons do not take place, and why, as the end of a sentence."""
    if not skipped:
        return ""
    named = [f"{each.date.isoformat()}, {each.why}" for each in skipped[:_NAMED]]
    if skipped[_NAMED:]:
        named.append(f"and {len(skipped) - _NAMED} more")
    return f"; {'one falls' if len(skipped) == 1 else f'{len(skipped)} fall'} out ({'; '.join(named)})"
