"""Dates as a page shows them."""

from datetime import date

_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]
_DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


def day_in_words(iso: str) -> str:
    """Return ``Tuesday, January 5, 2027`` for ``2027-01-05``, whatever the machine's own language.

    Raises ValueError for text that is not an ISO 8601 calendar date.
    """
    day = date.fromisoformat(iso)
    return f"{_DAYS[day.weekday()]}, {_MONTHS[day.month - 1]} {day.day}, {day.year}"


def short_day(iso: str) -> str:
    """Return ``Tue Jan 5`` for ``2027-01-05``. Raises ValueError for text that is not an ISO 8601 calendar date."""
    day = date.fromisoformat(iso)
    return f"{_DAYS[day.weekday()][:3]} {_MONTHS[day.month - 1][:3]} {day.day}"


def month_name(month: int) -> str:
    """Return ``January`` for 1. Raises IndexError above 12."""
    return _MONTHS[month - 1]
