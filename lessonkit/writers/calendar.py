"""An agenda as an iCalendar file (RFC 5545), with the rules of its time zone inside."""

from typing import TYPE_CHECKING

from lessonkit.document.agenda import Agenda, Event
from lessonkit.writers.seal import OPEN_SEAL, sealed

if TYPE_CHECKING:
    from zoneinfo import ZoneInfo

    import icalendar


def write(agenda: Agenda) -> bytes:
    """Return the file: an event a lesson, the same bytes for the same agenda.

    Reading it again updates the events of an earlier reading, since their identities stay. Raises KeyError for an
    unknown time zone.
    """
    from zoneinfo import ZoneInfo

    import icalendar

    zone = ZoneInfo(agenda.time_zone)
    calendar = icalendar.Calendar()
    calendar.add("prodid", "-//lessonkit//lessons//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("x-wr-calname", agenda.title)
    calendar.add("x-lessonkit-seal", OPEN_SEAL)
    for event in agenda.events:
        calendar.add_component(_event(event, agenda, zone))
    first, last = agenda.events[0].start, agenda.events[-1].end
    calendar.add_missing_timezones(
        first_date=first.date().replace(month=1, day=1), last_date=last.date().replace(month=12, day=31)
    )
    return sealed(bytes(calendar.to_ical()))


def _event(event: Event, agenda: Agenda, zone: "ZoneInfo") -> "icalendar.Event":
    from datetime import UTC

    import icalendar

    entry = icalendar.Event()
    entry.add("uid", event.uid)
    entry.add("dtstamp", agenda.made.replace(tzinfo=UTC))
    entry.add("dtstart", event.start.replace(tzinfo=zone))
    entry.add("dtend", event.end.replace(tzinfo=zone))
    entry.add("summary", event.title)
    entry.add("location", event.where)
    entry.add("description", event.says)
    return entry
