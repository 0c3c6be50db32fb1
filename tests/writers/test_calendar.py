"""The calendar file says the right instants, before and after the change to daylight-saving time."""

import re
from datetime import UTC, datetime, timedelta
from io import StringIO

import pytest
from dateutil import tz

from lessonkit.document.agenda import Agenda, Event
from lessonkit.writers.calendar import write


def event(day: str, number: int) -> Event:
    """Return a lesson at a quarter past ten."""
    start = datetime.fromisoformat(f"{day}T10:15")
    return Event(
        uid=f"unit.class.lesson-{number}@school.lessonkit",
        start=start,
        end=start + timedelta(minutes=35),
        title=f"Grade 3, lesson {number}: tap; carry, and go",
        where="Gym",
        says="Bring 25 paddles, 30 balls; and\na drum",
    )


def agenda(zone: str = "America/Chicago") -> Agenda:
    """Return two lessons around the change of clocks on March 14, 2027 (source: US Energy Policy Act of 2005)."""
    return Agenda("Paddles", zone, datetime(2027, 1, 5), (event("2027-03-11", 1), event("2027-03-16", 2)))


def lines(content: bytes) -> list[str]:
    """Unfold the lines of an iCalendar file (source: RFC 5545, section 3.1)."""
    return re.sub("\r\n[ \t]", "", content.decode()).split("\r\n")


def test_an_independent_reader_finds_the_right_instants() -> None:
    """A quarter past ten in Chicago is 16:15 UTC in winter, 15:15 in summer, as dateutil reads the file."""
    content = write(agenda())
    zone = tz.tzical(StringIO("\r\n".join(lines(content)))).get("America/Chicago")
    starts = [line.rpartition(":")[2] for line in lines(content) if line.startswith("DTSTART;TZID")]
    instants = [datetime.strptime(start, "%Y%m%dT%H%M%S").replace(tzinfo=zone).astimezone(UTC) for start in starts]

    assert [datetime(2027, 3, 11, 16, 15, tzinfo=UTC), datetime(2027, 3, 16, 15, 15, tzinfo=UTC)] == instants


def test_lines_are_short_and_end_as_the_standard_says() -> None:
    """No line has more than 75 octets; all end in CR LF (source: RFC 5545, section 3.1)."""
    content = write(agenda())

    assert content.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in content.split(b"\r\n"))
    assert b"\n" not in content.replace(b"\r\n", b"")


def test_commas_semicolons_and_new_lines_are_escaped() -> None:
    """Text values escape them (source: RFC 5545, section 3.3.11)."""
    said = next(line for line in lines(write(agenda())) if line.startswith("DESCRIPTION"))

    assert r"DESCRIPTION:Bring 25 paddles\, 30 balls\; and\na drum" == said


def test_a_second_export_updates_and_does_not_double() -> None:
    """Identities stay, and so do the bytes."""
    first = write(agenda())

    assert first == write(agenda())
    assert [
        "UID:unit.class.lesson-1@school.lessonkit",
        "UID:unit.class.lesson-2@school.lessonkit",
    ] == [line for line in lines(first) if line.startswith("UID")]


def test_an_unknown_time_zone_is_refused() -> None:
    """No file is better than one with wrong times."""
    with pytest.raises(KeyError):
        write(agenda("America/Nowhere"))
