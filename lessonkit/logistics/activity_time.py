"""Who moves when: the share of an activity that a child moves, turns, waits, and moderate-to-vigorous minutes."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from lessonkit.logistics.groups import Grouping, group
from lessonkit.records.activity import Activity, Effort

Cut = Literal["moderate", "vigorous", "any-movement"]
"""From which effort on a minute counts: sources differ (walking counts under one rule, not under another)."""

_COUNTS: dict[Cut, frozenset[Effort]] = {
    "any-movement": frozenset({"light", "moderate", "vigorous"}),
    "moderate": frozenset({"moderate", "vigorous"}),
    "vigorous": frozenset({"vigorous"}),
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
    longest_wait: float | None
    waiting: int


def turns(activity: Activity, children: int) -> Turns:
    """Work out the turns of an activity (already resolved for the grade) for a class of ``children``."""
    grouping = group(activity.organisation, children)
    moving = _moving_at_once(activity, grouping)
    share = moving / children
    seconds = activity.organisation.turn_seconds
    if seconds is None:
        return Turns(share, None, None, children - moving)
    longest = max((_wait(activity, size) for size in grouping.sizes), default=0.0)
    return Turns(share, share * 60 / seconds, longest, children - moving)


def moving_share(activity: Activity, children: int) -> float:
    """Return the mean share of the activity's minutes that a child moves, from 0 to 1."""
    return turns(activity, children).share


def active_minutes(activity: Activity, children: int, minutes: float, cut: Cut = "moderate") -> float:
    """Return the minutes that an average child spends at the effort of ``cut`` or above."""
    if activity.effort not in _COUNTS[cut]:
        return 0.0
    return minutes * moving_share(activity, children)


def lesson_active_minutes(parts: Iterable[tuple[Activity, float]], children: int, cut: Cut = "moderate") -> float:
    """Return the active minutes of a lesson from its (activity, minutes) parts."""
    return sum(active_minutes(activity, children, minutes, cut) for activity, minutes in parts)


def _moving_at_once(activity: Activity, grouping: Grouping) -> int:
    at_once = activity.organisation.at_once
    if at_once is None:
        return sum(grouping.sizes)
    return sum(min(size, at_once) for size in grouping.sizes)


def _wait(activity: Activity, size: int) -> float:
    at_once = activity.organisation.at_once
    seconds = activity.organisation.turn_seconds
    if at_once is None or seconds is None or size <= at_once:
        return 0.0
    return (size - at_once) / at_once * seconds
