"""Advice on a line that is too long: what shortens it, and what that costs in equipment and floor."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import msgspec

from lessonkit.logistics.activity_time import moving_share
from lessonkit.logistics.equipment import needed
from lessonkit.logistics.equipment_day import item_counted
from lessonkit.logistics.groups import group
from lessonkit.logistics.longest_line import LONGEST_LINE
from lessonkit.logistics.words import children as said
from lessonkit.logistics.words import counted, listed, number, percent
from lessonkit.records.activity import Activity, Organisation, SquadSize
from lessonkit.records.equipment import Item

Kind = Literal["more-groups", "more-at-once", "task-while-waiting"]


@dataclass(frozen=True, slots=True)
class Cure:
    """A change that shortens the line.

    ``longest_line`` is how many wait for each one who moves, ``share`` the share of the time that a child moves,
    ``brief`` the change and its price in a few words, ``says`` the same in a sentence;
    ``equipment`` what is needed beyond what the activity has now, ``areas`` how many more groups need a place.
    """

    kind: Kind
    longest_line: float
    share: float
    equipment: Mapping[str, int]
    areas: int
    brief: str
    says: str


def longest_line(activity: Activity, children: int) -> float:
    """Return how many children wait for each one who moves in the largest group; 0 where all move."""
    at_once = activity.organisation.at_once
    if at_once is None:
        return 0.0
    return max(0, max(group(activity.organisation, children).sizes) - at_once) / at_once


def line_advice(activity: Activity, children: int, items: Mapping[str, Item]) -> tuple[Cure, ...]:
    """Return cures for a line longer than three, cheapest in equipment first; none where the line is short enough."""
    at_once = activity.organisation.at_once
    if at_once is None or longest_line(activity, children) <= LONGEST_LINE:
        return ()
    return (
        _task(activity, children),
        *sorted(
            (_more_at_once(activity, children, at_once, items), _more_groups(activity, children, at_once, items)),
            key=lambda cure: (sum(cure.equipment.values()), cure.kind),
        ),
    )


def _task(activity: Activity, children: int) -> Cure:
    grouping = group(activity.organisation, children)
    at_once = activity.organisation.at_once or 1
    waiting = sum(max(0, size - at_once) for size in grouping.sizes)
    says = (
        f"Give {said(waiting)} who wait something to do that moves them, beside the line: it costs no floor area and "
        "none of this activity's equipment, but the line stays as long."
    )
    brief = f"give the {waiting} who wait something to do that moves them (costs nothing; the line stays as long)"
    line, share = longest_line(activity, children), moving_share(activity, children)
    return Cure("task-while-waiting", line, share, {}, 0, brief, says)


def _more_groups(activity: Activity, children: int, at_once: int, items: Mapping[str, Item]) -> Cure:
    most = (LONGEST_LINE + 1) * at_once
    squads = SquadSize(least=max(1, min(children, most // 2)), most=most)
    organisation = Organisation(
        form="squads",
        squad=squads,
        at_once=at_once,
        waiting=activity.organisation.waiting,
        turn_seconds=activity.organisation.turn_seconds,
    )
    changed = msgspec.structs.replace(activity, organisation=organisation)
    sizes = group(organisation, children).sizes
    does = f"Make {counted(len(sizes), 'group')} of up to {number(max(sizes))}"
    return _cure("more-groups", does, (activity, changed), children, items)


def _more_at_once(activity: Activity, children: int, at_once: int, items: Mapping[str, Item]) -> Cure:
    """Let so many move that no line is too long; what a group has is counted as used by those who move."""
    largest = max(group(activity.organisation, children).sizes)
    moving = -(-largest // (LONGEST_LINE + 1))
    needs = tuple(
        msgspec.structs.replace(need, count=-(-need.count * moving // at_once))
        if need.per in ("group", "station")
        else need
        for need in activity.equipment
    )
    organisation = msgspec.structs.replace(activity.organisation, at_once=moving)
    changed = msgspec.structs.replace(activity, organisation=organisation, equipment=needs)
    does = f"Let {number(moving)} of a group move at once"
    return _cure("more-at-once", does, (activity, changed), children, items)


def _cure(kind: Kind, does: str, change: tuple[Activity, Activity], children: int, items: Mapping[str, Item]) -> Cure:
    areas = len(group(change[1].organisation, children).sizes) - len(group(change[0].organisation, children).sizes)
    before, after = (needed(activity, children) for activity in change)
    extra = {item: count - before.get(item, 0) for item, count in after.items() if count > before.get(item, 0)}
    line, share = longest_line(change[1], children), moving_share(change[1], children)
    costs = [item_counted(item, count, items) for item, count in extra.items()]
    costs += [counted(areas, "area")] if areas else []
    price = f"it takes {listed(costs)} more" if costs else "it costs nothing"
    says = f"{does}: {line:.2g} wait for each who moves, a child moves {percent(share)} of the time, and {price}."
    brief = f"{does[:1].lower()}{does[1:]} ({f'takes {listed(costs)} more' if costs else 'costs nothing'})"
    return Cure(kind, line, share, extra, areas, brief, says)
