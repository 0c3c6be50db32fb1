"""What ical.js and libical make of a calendar file: the instants that zoneinfo says, and every letter of the words."""

import ctypes
import json
import subprocess
from ctypes.util import find_library
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from lessonkit.document.agenda import Agenda, Event
from lessonkit.writers.calendar import write
from tests.node_readers import ICAL, without_ical

SAYS = 'Höfe, Bänke; 30 Bälle\n"Ready?" \\ und los: ' + "äöüß€🏃" * 12
"""Commas, semicolons, a new line and a backslash, and letters of two to four octets across the folds."""
DAYS = ("2027-03-12", "2027-03-15", "2027-03-30", "2027-10-29", "2027-11-01", "2027-11-08", "2028-01-10")
"""School days beside the changes of clocks: March 14 and November 7 in the US, March 28 and October 31 in Europe."""
ZONES = ("America/Chicago", "America/Phoenix", "Europe/Berlin", "Australia/Sydney", "UTC")
_VEVENT = 4
"""The number of an event among libical's kinds of component (libical 3.0, icalenums.h)."""
_SCRIPT = """
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
const ICAL = (await import(pathToFileURL(process.argv[1]).href)).default;
const read = new ICAL.Component(ICAL.parse(readFileSync(0, "utf8")));
for (const zone of read.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
console.log(JSON.stringify(read.getAllSubcomponents("vevent").map(part => new ICAL.Event(part)).map(event =>
  [event.startDate.toUnixTime(), event.endDate.toUnixTime(), event.summary, event.location, event.description])));
"""
Read = list[tuple[int, int, str, str, str]]


def _agenda(zone: str) -> Agenda:
    starts = [datetime.fromisoformat(f"{day}T10:15") for day in DAYS]
    events = [
        Event(f"{number}@q", start, start + timedelta(minutes=35), "Grade 3: tap, carry; go", "Gym, half", SAYS)
        for number, start in enumerate(starts)
    ]
    return Agenda("Paddles", zone, datetime(2027, 1, 5), tuple(events))


def _expected(zone: str) -> Read:
    """Return what zoneinfo makes of the local times of the events."""
    known = ZoneInfo(zone)
    return [
        (
            int(event.start.replace(tzinfo=known).timestamp()),
            int(event.end.replace(tzinfo=known).timestamp()),
            event.title,
            event.where,
            event.says,
        )
        for event in _agenda(zone).events
    ]


class _Time(ctypes.Structure):
    """A time of libical 3.0 (icaltime.h)."""

    _fields_ = (
        *((name, ctypes.c_int) for name in ("year", "month", "day", "hour", "minute", "second", "date", "daylight")),
        ("zone", ctypes.c_void_p),
    )


def _libical() -> ctypes.CDLL | None:
    name = find_library("ical")
    if name is None:
        return None
    library = ctypes.CDLL(name)
    for function in ("icalparser_parse_string", "get_first_component", "get_next_component"):
        called = function if function.startswith("icalparser") else f"icalcomponent_{function}"
        getattr(library, called).restype = ctypes.c_void_p
    for field in ("summary", "location", "description"):
        getattr(library, f"icalcomponent_get_{field}").restype = ctypes.c_char_p
    library.icalcomponent_get_dtstart.restype = library.icalcomponent_get_dtend.restype = _Time
    library.icaltime_as_timet_with_zone.restype = ctypes.c_long
    return library


LIBICAL = _libical()


def _read_with_libical(content: bytes) -> Read:
    assert LIBICAL is not None
    calendar = ctypes.c_void_p(LIBICAL.icalparser_parse_string(content))
    found: Read = []
    event = LIBICAL.icalcomponent_get_first_component(calendar, _VEVENT)
    while event:
        part = ctypes.c_void_p(event)
        start, end = LIBICAL.icalcomponent_get_dtstart(part), LIBICAL.icalcomponent_get_dtend(part)
        words = [
            getattr(LIBICAL, f"icalcomponent_get_{field}")(part).decode()
            for field in ("summary", "location", "description")
        ]
        instants = [LIBICAL.icaltime_as_timet_with_zone(time, ctypes.c_void_p(time.zone)) for time in (start, end)]
        found.append((instants[0], instants[1], words[0], words[1], words[2]))
        event = LIBICAL.icalcomponent_get_next_component(calendar, _VEVENT)
    LIBICAL.icalcomponent_free(calendar)
    return found


@pytest.mark.needs_node
@without_ical
def test_ical_js_reads_the_right_instants_and_words(tmp_path: Path) -> None:
    """ical.js, with the zone's rules from the file alone, agrees with zoneinfo on both sides of every change."""
    script = tmp_path / "read.mjs"
    script.write_text(_SCRIPT.replace("process.argv[1]", "process.argv[2]"), "utf-8")
    for zone in ZONES:
        command = ["node", str(script), str(ICAL)]
        read = subprocess.run(command, input=write(_agenda(zone)), capture_output=True, check=True, timeout=120).stdout

        assert _expected(zone) == [tuple(event) for event in json.loads(read)], zone


@pytest.mark.needs_libical
@pytest.mark.skipif(LIBICAL is None, reason="libical is not installed")
@pytest.mark.parametrize("zone", ZONES)
def test_libical_reads_the_right_instants_and_words(zone: str) -> None:
    """The library of many calendar programs agrees with zoneinfo on both sides of every change."""
    assert _expected(zone) == _read_with_libical(write(_agenda(zone)))


@pytest.mark.parametrize("zone", ZONES)
def test_no_line_is_too_long_and_no_letter_is_cut(zone: str) -> None:
    """A line has at most 75 octets (RFC 5545, section 3.1), and none ends within a letter of several octets."""
    for line in write(_agenda(zone)).split(b"\r\n"):
        assert len(line) <= 75
        line.decode()
