"""The dates of a unit."""

from datetime import date, datetime, timedelta

import pytest
from dateutil.rrule import FR, MO, TH, TU, WE, WEEKLY, rrule
from hypothesis import given, settings
from hypothesis import strategies as some

from lessonkit.planning.dates import LessonDate, public_holidays, timetable
from lessonkit.records.measures import read_length
from lessonkit.records.school import Calendar, Closure, Day, Holidays, Meeting, School, SchoolClass, Space
from lessonkit.records.unit import Unit

_DAYS: tuple[Day, ...] = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday")


def _space(space_id: str) -> Space:
    return Space(
        id=space_id,
        title=space_id.title(),
        length=read_length("22 m"),
        width=read_length("14 m"),
        where="indoors",
        surface="wood",
    )


def _class(*meets: Meeting) -> SchoolClass:
    return SchoolClass(id="grade-3", title="Grade 3", grade="3", children=25, space="gym", meets=meets)


def _school(
    first: str, last: str, *meets: Meeting, holidays: Holidays | None = None, closures: tuple[Closure, ...] = ()
) -> School:
    return School(
        kind="school",
        id="quillfeather",
        title="Quillfeather School",
        time_zone="America/New_York",
        spaces=(_space("gym"), _space("hall")),
        equipment=(),
        classes=(_class(*meets),),
        calendar=Calendar(first_day=first, last_day=last, holidays=holidays, closures=closures),
    )


def _unit(start: str, lessons: int | None = None, weeks: int | None = None, lost: tuple[str, ...] = ()) -> Unit:
    return Unit(
        kind="unit",
        id="paddles",
        title="Paddles",
        summary="",
        school="quillfeather",
        classes=("grade-3",),
        framework="us-pe-2013",
        start=start,
        lessons=lessons,
        weeks=weeks,
        skills=(),
        aims=(),
        shapes=(),
        lost_days=lost,
    )


def _meets(*days: Day) -> tuple[Meeting, ...]:
    return tuple(Meeting(day=day, at="10:15", minutes=35) for day in days)


def _dates(unit: Unit, school: School) -> list[str]:
    return [lesson.date.isoformat() for lesson in timetable(unit, school, school.classes[0]).lessons]


def test_weekly_tuesday_and_thursday() -> None:
    """Ten lessons on Tuesdays and Thursdays (RFC 5545 section 3.8.5.3, page 125)."""
    school = _school("1997-08-25", "1998-06-12", *_meets("Tuesday", "Thursday"))

    expected = "1997-09-02 1997-09-04 1997-09-09 1997-09-11 1997-09-16 1997-09-18 1997-09-23 1997-09-25 1997-09-30"
    assert [*expected.split(), "1997-10-02"] == _dates(_unit("1997-09-02", lessons=10), school)


def test_every_other_week_by_closing_the_others() -> None:
    """Eight lessons on Tuesdays and Thursdays of every other week (RFC 5545 section 3.8.5.3, page 126)."""
    closures = tuple(
        Closure(first=first, last=last, why="Other half of the school year group")
        for first, last in (("1997-09-08", "1997-09-14"), ("1997-09-22", "1997-09-28"), ("1997-10-06", "1997-10-12"))
    )
    school = _school("1997-08-25", "1998-06-12", *_meets("Tuesday", "Thursday"), closures=closures)

    expected = "1997-09-02 1997-09-04 1997-09-16 1997-09-18 1997-09-30 1997-10-02 1997-10-14 1997-10-16"
    assert expected.split() == _dates(_unit("1997-09-02", lessons=8), school)


_RULE_DAYS = {"Monday": MO, "Tuesday": TU, "Wednesday": WE, "Thursday": TH, "Friday": FR}


@settings(max_examples=60, deadline=None)
@given(
    start=some.dates(date(2026, 1, 1), date(2027, 12, 31)),
    days=some.lists(some.sampled_from(_DAYS), min_size=1, max_size=5, unique=True),
    lessons=some.integers(1, 30),
    lost=some.sets(some.integers(0, 120), max_size=12),
)
def test_agrees_with_an_independent_recurrence_library(
    start: date, days: list[Day], lessons: int, lost: set[int]
) -> None:
    """Lesson dates are the weekly recurrence without the lost days (python-dateutil as the second source)."""
    off = {start + timedelta(days=offset) for offset in lost}
    school = _school("2025-08-25", "2029-06-12", *_meets(*days))
    unit = _unit(start.isoformat(), lessons=lessons, lost=tuple(sorted(day.isoformat() for day in off)))
    weekly = rrule(
        WEEKLY,
        byweekday=[_RULE_DAYS[day] for day in days],
        dtstart=datetime(start.year, start.month, start.day),
        count=lessons + len(off),
    )
    expected = [moment.date().isoformat() for moment in weekly if moment.date() not in off][:lessons]

    assert expected == _dates(unit, school)


def test_holidays_of_a_year() -> None:
    """The days off in 2027 are the federal holidays as observed (5 U.S.C. 6103, public tables)."""
    legal = "01-01 01-18 02-15 05-31 06-19 07-04 09-06 10-11 11-11 11-25 12-25"
    observed = "06-18 07-05 12-24 12-31"
    expected = sorted(f"2027-{day}" for day in (legal + " " + observed).split())

    closed = public_holidays(Holidays(country="US"), date(2027, 1, 1), date(2027, 12, 31))

    assert expected == [day.isoformat() for day in closed]
    assert "Juneteenth National Independence Day (observed)" == closed[date(2027, 6, 18)]


def test_a_holiday_can_be_a_school_day() -> None:
    """A holiday that the school keeps open is a school day, on its own date and on the day it is observed."""
    rule = Holidays(country="US", open=("Columbus Day", "juneteenth national independence day"))

    closed = public_holidays(rule, date(2027, 1, 1), date(2027, 12, 31))

    assert set() == closed.keys() & {date(2027, 10, 11), date(2027, 6, 18), date(2027, 6, 19)}
    assert date(2027, 11, 25) in closed


def test_skipped_lessons_say_why() -> None:
    """A lesson that falls out is listed with its reason, and the unit goes on to later dates."""
    closures = (Closure(first="2027-02-01", last="2027-02-05", why="Winter break"),)
    school = _school(
        "2026-08-24", "2027-06-10", *_meets("Monday", "Thursday"), holidays=Holidays(country="US"), closures=closures
    )
    unit = _unit("2027-01-14", lessons=4, lost=("2027-01-25",))

    found = timetable(unit, school, school.classes[0])

    assert ["2027-01-14", "2027-01-21", "2027-01-28", "2027-02-08"] == _dates(unit, school)
    assert [
        ("2027-01-18", "Martin Luther King Jr. Day"),
        ("2027-01-25", "lost day named in the unit request"),
        ("2027-02-01", "Winter break"),
        ("2027-02-04", "Winter break"),
    ] == [(skip.date.isoformat(), skip.why) for skip in found.skipped]
    assert () == found.faults


def test_weeks_lose_their_skipped_lessons() -> None:
    """A unit asked for in weeks ends with its last week, however many lessons fall out."""
    school = _school("2026-08-24", "2027-06-10", *_meets("Monday", "Wednesday"), holidays=Holidays(country="US"))

    assert ["2027-01-13", "2027-01-20", "2027-01-25"] == _dates(_unit("2027-01-13", weeks=2), school)


def test_place_and_time_come_from_the_meeting() -> None:
    """A meeting in another space says so; two meetings of one day stand in the order of the clock."""
    meets = (
        Meeting(day="Friday", at="13:05", minutes=40, space="hall"),
        Meeting(day="Friday", at="9:00", minutes=30),
    )
    school = _school("2026-08-24", "2027-06-10", *meets)

    assert (
        LessonDate(date(2027, 1, 15), "9:00", 30, "gym"),
        LessonDate(date(2027, 1, 15), "13:05", 40, "hall"),
    ) == timetable(_unit("2027-01-13", lessons=2), school, school.classes[0]).lessons


@pytest.mark.parametrize(
    ("lessons", "weeks", "says", "field"),
    [
        (
            5,
            None,
            "The unit needs 5, but 2 lessons are left for Grade 3 from 2027-06-01 to the last day of school, "
            "2027-06-10.",
            "lessons",
        ),
        (None, 0, "The unit needs 1, but no lesson is left for Grade 3 in the 0 weeks from 2027-06-01.", "weeks"),
    ],
)
def test_too_few_dates(lessons: int | None, weeks: int | None, says: str, field: str) -> None:
    """A unit that does not fit into the school year says how many lessons are left, at its own field."""
    school = _school("2026-08-24", "2027-06-10", *_meets("Wednesday"))

    faults = timetable(_unit("2027-06-01", lessons=lessons, weeks=weeks), school, school.classes[0]).faults

    assert [("unit", "paddles", (field,), says)] == [(f.kind, f.record, f.field, f.says) for f in faults]


def test_a_class_that_never_meets() -> None:
    """A class without weekly lessons is told to write when it meets."""
    school = _school("2026-08-24", "2027-06-10")

    (fault,) = timetable(_unit("2027-01-13", lessons=1), school, school.classes[0]).faults

    assert ("school", ("classes", 0, "meets")) == (fault.kind, fault.field)
    assert "Grade 3 has no weekly lessons; write when it meets." == fault.says


def test_an_unknown_country() -> None:
    """A country without known holidays is a sentence, not a crash, and the rest of the calendar still counts."""
    school = _school("2026-08-24", "2027-06-10", *_meets("Monday"), holidays=Holidays(country="QQ"))

    found = timetable(_unit("2027-01-13", lessons=1), school, school.classes[0])

    assert "2027-01-18" == found.lessons[0].date.isoformat()
    assert ["No public holidays are known for QQ; write a country code such as US, and closures by hand."] == [
        fault.says for fault in found.faults
    ]
