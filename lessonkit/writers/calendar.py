"""An agenda as an iCalendar file (RFC 5545), with the rules of its time zone inside."""

from typing import TYPE_CHECKING

from lessonkit.document.agenda import Agenda, Event
from lessonkit.writers.clock_changes import clock_changes
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
    if calendar.get_missing_tzids():
        calendar.subcomponents.insert(0, _time_zone(zone, agenda))
    return sealed(bytes(calendar.to_ical()))


def _time_zone(zone: "ZoneInfo", agenda: Agenda) -> "icalendar.Timezone":
    """Say every change of the clocks by itself: some readers pass over the first of several said together."""
    import icalendar

    entry = icalendar.Timezone()
    entry.add("tzid", agenda.time_zone)
    for change in clock_changes(zone, agenda.events[0].start.year, agenda.events[-1].end.year):
        part = icalendar.TimezoneDaylight() if change.is_summer else icalendar.TimezoneStandard()
        part.add("dtstart", change.local)
        part.add("tzoffsetfrom", change.before)
        part.add("tzoffsetto", change.after)
        part.add("tzname", change.name)
        entry.add_component(part)
    return entry


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
