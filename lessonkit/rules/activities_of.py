"""The activities of a library by what they train and what they serve, gathered once for all units and skills."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from lessonkit.records.activity import Activity, How
from lessonkit.records.library import Library
from lessonkit.rules.same import for_the_same

_Served = tuple[str, str, How]
"""A framework, an outcome code, and how it is served."""


class _Gathered(NamedTuple):
    """Activities in the order of their ids: by skill, and by what they serve."""

    by_skill: Mapping[str, list[Activity]]
    by_outcome: Mapping[_Served, list[Activity]]


def training(library: Library, skill: str) -> Iterable[Activity]:
    """Return the activities that train a skill."""
    return _gathered(library, None).by_skill.get(skill, ())


def serving(library: Library, framework: str, code: str, how: How) -> Iterable[Activity]:
    """Return the activities that serve an outcome of a framework in a way."""
    return _gathered(library, None).by_outcome.get((framework, code, how), ())


@for_the_same
def _gathered(library: Library, _: None) -> _Gathered:
    by_skill: dict[str, list[Activity]] = {}
    by_outcome: dict[_Served, list[Activity]] = {}
    for name in sorted(library.activities):
        activity = library.activities[name]
        for skill in dict.fromkeys([place.skill for place in activity.skills]):
            by_skill.setdefault(skill, []).append(activity)
        for framework, codes in activity.outcomes.items():
            for code, ways in codes.items():
                for how in dict.fromkeys(ways):
                    by_outcome.setdefault((framework, code, how), []).append(activity)
    return _Gathered(by_skill, by_outcome)
