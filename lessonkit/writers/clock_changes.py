"""When the clocks of a time zone change, one after the other, as a calendar file has to say it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

_STEP = timedelta(days=1)
_FINEST = timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class ClockChange:
    """A change: when it is by the clock as it stood before, and the differences from UTC before and after it."""

    local: datetime
    before: timedelta
    after: timedelta
    name: str
    is_summer: bool


def clock_changes(zone: ZoneInfo, first_year: int, last_year: int) -> Iterator[ClockChange]:
    """Yield how the clock stands when the first year begins, then every change to the end of the last year."""
    now = datetime(first_year, 1, 1, tzinfo=zone).astimezone(UTC)
    end = datetime(last_year + 1, 1, 1, tzinfo=UTC)
    yield _change(now, _offset(now, zone), zone)
    while now < end:
        if _offset(now, zone) != _offset(now + _STEP, zone):
            yield _change(_moment(now, zone), _offset(now, zone), zone)
        now += _STEP


def _moment(start: datetime, zone: ZoneInfo) -> datetime:
    """Return the first second at which the clock differs from what it was at a moment less than a day before."""
    before = _offset(start, zone)
    low, high = start, start + _STEP
    while high - low > _FINEST:
        middle = low + timedelta(seconds=(high - low) // _FINEST // 2)
        low, high = (middle, high) if _offset(middle, zone) == before else (low, middle)
    return high


def _change(moment: datetime, before: timedelta, zone: ZoneInfo) -> ClockChange:
    local = moment.astimezone(zone)
    return ClockChange(
        (moment + before).replace(tzinfo=None),
        before,
        _offset(moment, zone),
        local.tzname() or zone.key,
        bool(local.dst()),
    )


def _offset(moment: datetime, zone: ZoneInfo) -> timedelta:
    return moment.astimezone(zone).utcoffset() or timedelta(0)
