"""Who moves when: the share of an activity that a child moves, turns and waits, and minutes of real effort.

Energy is no business of this module: a record's effort is a teacher's word, and groups decide how much of it a child
gets.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Final

from lessonkit.logistics.groups import Grouping, group
from lessonkit.logistics.words import number, opened, percent
from lessonkit.records.activity import Activity, Effort
from lessonkit.records.school import Cut

DEFAULT_CUT: Final[Cut] = "moderate"

_COUNTS: Final[dict[Cut, frozenset[Effort]]] = {
    "any-movement": frozenset({"light", "moderate", "vigorous"}),
    "moderate": frozenset({"moderate", "vigorous"}),
    "vigorous": frozenset({"vigorous"}),
}
CUT_SOURCES: Final[Mapping[Cut, str]] = {
    "moderate": "at least four times the effort of sitting still (4 METs), as in the American Heart "
    "Association's table of 2020 for ages 8 to 18",
    "vigorous": "at least six times the effort of sitting still (6 METs), the next band of the American Heart "
    "Association's table of 2020 for ages 8 to 18",
    "any-movement": "walking and above, as codes 4 and 5 of the lesson observation system of McKenzie and others, 1991",
}
"""What each cut means, and whose it is.

A third cut is in use, 3 METs and above (Ridley, Ainsworth and Olds 2008). It lies inside what a record calls light
effort, so its minutes lie between those of ``moderate`` and those of ``any-movement``.
"""
_COUNTED: Final[Mapping[Cut, str]] = {
    "moderate": "Brisk movement",
    "vigorous": "Hard work",
    "any-movement": "Every movement",
}
HALF_OF_LESSON = 0.5
"""Share of lesson time that should be moderate-to-vigorous (Institute of Medicine 2013, recommendation 1)."""
WEEKLY_MINUTES = 150
"""Minutes of physical education a week recommended for elementary schools (national guideline, as restated 2013)."""


@dataclass(frozen=True, slots=True)
class Turns:
    """How turns go: mean share moving (0 to 1), turns a child a minute, longest wait in seconds, children waiting.

    ``turns_per_minute`` and ``longest_wait`` are None where the record does not say how long a turn lasts.
    """

    share: float
    turns_per_minute: float | None
    longest_wait: int | None
    waiting: int


@dataclass(frozen=True, slots=True)
class MovingTime:
    """Minutes of a lesson that an average child spends at the effort of a cut, their share of it, and a sentence."""

    minutes: float
    share: float
    reaches_half: bool
    says: str


def turns(activity: Activity, children: int) -> Turns:
    """Work out the turns of an activity (already resolved for the grade) for a class of ``children``."""
    grouping = group(activity.organisation, children)
    moving = _moving_at_once(activity, grouping)
    share = moving / children
    seconds = activity.organisation.turn_seconds
    if seconds is None:
        return Turns(share, None, None, children - moving)
    longest = max(_turns_to_wait(activity, size) for size in grouping.sizes)
    longest = max(longest, 1 if grouping.rotating_in else 0)
    return Turns(share, share * 60 / seconds, longest * seconds, children - moving)


def moving_share(activity: Activity, children: int) -> float:
    """Return the mean share of the activity's minutes that a child moves, from 0 to 1."""
    return turns(activity, children).share


def active_minutes(activity: Activity, children: int, minutes: float, cut: Cut = DEFAULT_CUT) -> float:
    """Return the minutes that an average child spends at the effort of ``cut`` or above."""
    if activity.effort not in _COUNTS[cut]:
        return 0.0
    return minutes * moving_share(activity, children)


def lesson_active_minutes(parts: Iterable[tuple[Activity, float]], children: int, cut: Cut = DEFAULT_CUT) -> float:
    """Return the active minutes of a lesson from its (activity, minutes) parts."""
    return sum(active_minutes(activity, children, minutes, cut) for activity, minutes in parts)


def moving_time(
    parts: Iterable[tuple[Activity, float]], children: int, lesson_minutes: float, cut: Cut = DEFAULT_CUT
) -> MovingTime:
    """Hold the active minutes of a lesson of ``lesson_minutes`` (more than 0) against the published half of its time.

    The half is of the whole lesson, so minutes of setting up and of listening count as time without effort.
    """
    return against_half(lesson_active_minutes(parts, children, cut), lesson_minutes, cut)


def against_half(minutes: float, lesson_minutes: float, cut: Cut = DEFAULT_CUT) -> MovingTime:
    """Hold minutes that were counted as active by ``cut`` against the published half of ``lesson_minutes``."""
    share = minutes / lesson_minutes
    reaches = share >= HALF_OF_LESSON
    missing = HALF_OF_LESSON * lesson_minutes - minutes
    against = "which reaches" if reaches else f"{_tenths(missing)} minutes short of"
    says = (
        f"An average child is active for {_tenths(minutes)} of {lesson_minutes:g} minutes ({percent(share)}), "
        f"{against} the recommended half of lesson time. {_COUNTED[cut]} counts as active: {CUT_SOURCES[cut]}."
    )
    return MovingTime(minutes, share, reaches, says)


def _tenths(minutes: float) -> str:
    return f"{minutes:.1f}".removesuffix(".0")


def turns_say(activity: Activity, children: int) -> str:
    """Say in a sentence who moves and who waits, for a class of ``children``."""
    found = turns(activity, children)
    if not found.waiting:
        return "Everybody at once; nobody waits."
    words = f"{number(children - found.waiting)} of {children} children move at a time ({percent(found.share)})"
    if found.turns_per_minute is None or found.longest_wait is None:
        return f"{opened(words)}."
    every = 60 / found.turns_per_minute
    longest = f"; nobody waits longer than {found.longest_wait} seconds" if found.longest_wait else ""
    return f"{opened(words)}; on average a turn comes every {every:.0f} seconds{longest}."


def at_once_in_area(children: int, most: int = 6, beyond: int = 2) -> int:
    """Return how many use a small marked area at once: everybody up to ``most``, more than that ``beyond`` at a time.

    Six and two are common practice, no source.
    """
    return children if children <= most else beyond


def _moving_at_once(activity: Activity, grouping: Grouping) -> int:
    return sum(min(size, _at_once(activity, size)) for size in grouping.sizes)


def _at_once(activity: Activity, size: int) -> int:
    """Return how many of a group move at once: no more than its record lets, nor than its floor holds."""
    limits = (activity.organisation.at_once, activity.floor.most_children)
    return min(limit for limit in (*limits, size) if limit is not None)


def _turns_to_wait(activity: Activity, size: int) -> int:
    """Return the whole turns that pass, at the longest, between two turns of a child in a group of ``size``."""
    at_once = _at_once(activity, size)
    return ceil((size - at_once) / at_once)
