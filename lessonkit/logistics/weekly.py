"""A class's minutes of physical education a week, held against the published figures.

Recess does not count towards them: its own daily minutes are recommended besides (Centers for Disease Control and
Prevention, 2014). The figure is 150 minutes or more; an older wording says more than 150.
"""

from dataclasses import dataclass
from typing import Final

from lessonkit.logistics.activity_time import WEEKLY_MINUTES
from lessonkit.logistics.words import percent
from lessonkit.records.school import SchoolClass

SCHOOL_DAYS: Final = 5
"""School days in a week: 150 minutes are 30 a day (Institute of Medicine 2013, recommendation 1)."""


@dataclass(frozen=True, slots=True)
class Week:
    """Minutes a week, how many are missing to the published figure (0 where none are), and a sentence."""

    minutes: int
    missing: int
    says: str


def week(school_class: SchoolClass) -> Week:
    """Return a class's weekly minutes from its timetable, against the 150 that are recommended."""
    return weekly(sum(meeting.minutes for meeting in school_class.meets))


def weekly(minutes: int) -> Week:
    """Hold a number of minutes a week against the 150 that are recommended."""
    missing = max(0, WEEKLY_MINUTES - minutes)
    if missing:
        short = f"{missing} short of the {WEEKLY_MINUTES} recommended for elementary schools"
        says = f"{minutes} minutes a week ({percent(minutes / WEEKLY_MINUTES)}), {short}."
    else:
        says = f"{minutes} minutes a week, which reaches the {WEEKLY_MINUTES} recommended for elementary schools."
    return Week(minutes, missing, says)
