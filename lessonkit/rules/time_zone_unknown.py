"""A school names a time zone that there is not.

Calendar files need it to put lessons at the right hour. The names are those of the IANA time zone database.

Fails:

    time_zone: Chicago

Passes:

    time_zone: America/Chicago
"""

from collections.abc import Iterator
from typing import Final

from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK225", "time-zone-unknown", Level.ERROR), (School,))
_USUAL: Final = frozenset(
    (
        *("America/New_York", "America/Chicago", "America/Denver", "America/Phoenix", "America/Los_Angeles"),
        *("America/Anchorage", "America/Detroit", "America/Boise", "America/Indiana/Indianapolis"),
        *("Pacific/Honolulu", "America/Puerto_Rico", "America/Toronto", "Europe/London", "UTC"),
    )
)
"""Names that need no looking up, which takes longer than all other rules together."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for a time zone that the database does not have; none where there is no database."""
    assert isinstance(record, School)
    if record.time_zone in _USUAL:
        return
    from zoneinfo import available_timezones

    known = available_timezones()
    if known and record.time_zone not in known:
        hint = _hint(record.time_zone, known)
        yield Fault(("time_zone",), f"There is no time zone {record.time_zone!r}.", hint)


def _hint(written: str, known: set[str]) -> str:
    """Say which zone was meant: the only one of that city, or the nearest name."""
    from lessonkit.source.closest import closest

    words = "_".join(written.split()).lower()
    city = words.rpartition("/")[2]
    named = [name for name in sorted(known) if name.lower() == words or name.lower().endswith(f"/{city}")]
    named = [name for name in named if name.partition("/")[0] not in ("posix", "right", "US")]
    by_name = {name.lower(): name for name in known}
    near = closest(words, by_name)
    meant = named[0] if len(named) == 1 else by_name[near] if near else None
    return f"Did you mean {meant!r}?" if meant else "Write a region and a city, such as America/Chicago."
