"""What a check keeps of a curriculum as a whole, so that a changed activity need not be held against all others.

For every outcome and every step of a skill it names a few activities that have it. Whoever asks whether any activity
still does finds out from these, which are read again; where none of them does, everything has to be checked.
"""

from collections.abc import Iterable
from typing import Any, Final, NamedTuple

import msgspec

from lessonkit.records.activity import Activity
from lessonkit.records.unit import Unit

FEW: Final = 2
"""Activities that are named for each outcome, way and grade, and for each step."""


class Facts(NamedTuple):
    """What of an activity units, skills and other activities rest on."""

    grades: tuple[str, ...]
    outcomes: dict[str, dict[str, list[str]]]
    steps: list[tuple[str, str]]
    builds_on: tuple[str, ...]


def builders(activities: Iterable[Activity]) -> dict[str, list[str]]:
    """Return the files of the activities that build on each activity, by its id."""
    found: dict[str, list[str]] = {}
    for activity in activities:
        for earlier in activity.builds_on:
            found.setdefault(earlier, []).append(activity.path)
    return found


def asked(units: Iterable[Unit]) -> dict[str, tuple[tuple[str, ...], list[str]]]:
    """Return the skills of each unit and the activities that it asks for, by its file."""
    return {unit.path: (unit.skills, [*(pin.activity for pin in unit.pins), *unit.favourites]) for unit in units}


def gathered(activities: Iterable[Activity]) -> dict[str, Any]:
    """Return what there is to know of all activities' outcomes and steps, in plain values."""
    facts: dict[str, bytes] = {}
    servers: dict[tuple[str, str, str, str], list[str]] = {}
    trainers: dict[tuple[str, str], list[str]] = {}
    for activity in activities:
        facts[activity.path] = facts_of(activity)
        for place in activity.skills:
            _name(trainers.setdefault((place.skill, place.step), []), activity.path)
        for framework, codes in activity.outcomes.items():
            for code, ways in codes.items():
                for how in ways:
                    for grade in activity.grades.grades:
                        _name(servers.setdefault((framework, code, how, grade), []), activity.path)
    return {"facts": facts, "servers": servers, "trainers": trainers}


def _name(few: list[str], path: str) -> None:
    if len(few) < FEW and path not in few:
        few.append(path)


def facts_of(activity: Activity) -> bytes:
    """Return the facts of an activity, to be kept."""
    steps = [(place.skill, place.step) for place in activity.skills]
    return msgspec.msgpack.encode((activity.grades.grades, activity.outcomes, steps, activity.builds_on))


def facts_again(kept: bytes) -> Facts:
    """Return what was kept of an activity."""
    return msgspec.msgpack.decode(kept, type=Facts)
