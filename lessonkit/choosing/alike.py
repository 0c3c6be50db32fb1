"""Which activities are alike: by the steps they train, the outcomes they serve, how they are played, their words.

Each kind of likeness is a share of what both have in what either has (Jaccard's index, 1901).
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library

_WEIGHTS: Final = {"steps": 0.35, "outcomes": 0.2, "equipment": 0.15, "form": 0.15, "words": 0.15}
_SHORT: Final = 4
_WORD: Final = re.compile(r"[a-z]+")


@dataclass(frozen=True, slots=True)
class Alike:
    """Two activities and how alike they are, from 0 to 1."""

    one: str
    other: str
    likeness: float


def alike(activity: Activity, library: Library) -> tuple[Alike, ...]:
    """Return the other activities, the most alike first; equal ones by id."""
    here = _traits(activity)
    found = [
        Alike(activity.id, other.id, _likeness(here, _traits(other)))
        for other in library.activities.values()
        if other.id != activity.id
    ]
    return tuple(sorted(found, key=lambda pair: (-pair.likeness, pair.other)))


def closest_pairs(library: Library, least: float) -> tuple[Alike, ...]:
    """Return the pairs of activities that are at least so alike, the most alike first."""
    traits = {key: _traits(activity) for key, activity in sorted(library.activities.items())}
    ids = list(traits)
    pairs = [
        Alike(one, other, _likeness(traits[one], traits[other]))
        for place, one in enumerate(ids)
        for other in ids[place + 1 :]
    ]
    return tuple(sorted((p for p in pairs if p.likeness >= least), key=lambda p: (-p.likeness, p.one, p.other)))


def _traits(activity: Activity) -> dict[str, frozenset[str]]:
    codes = (code for served in activity.outcomes.values() for code in served)
    written = f"{activity.title} {activity.summary} {activity.steps}".lower()
    return {
        "steps": frozenset(f"{step.skill}/{step.step}" for step in activity.skills),
        "outcomes": frozenset(codes),
        "equipment": frozenset(need.item for need in activity.equipment),
        "form": frozenset({activity.organisation.form, activity.effort, *activity.parts}),
        "words": frozenset(word for word in _WORD.findall(written) if len(word) > _SHORT),
    }


def _likeness(one: dict[str, frozenset[str]], other: dict[str, frozenset[str]]) -> float:
    return sum(weight * _share(one[trait], other[trait]) for trait, weight in _WEIGHTS.items())


def _share(one: Iterable[str], other: Iterable[str]) -> float:
    either = frozenset(one) | frozenset(other)
    return len(frozenset(one) & frozenset(other)) / len(either) if either else 0.0
