"""Which activities of a library a unit can choose from, and why the others are left out."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from lessonkit.planning.case import LeftOut
from lessonkit.planning.eligible import Setting, bars, met_before
from lessonkit.planning.progression import mastered_steps
from lessonkit.planning.said import Said
from lessonkit.planning.stations import station_bars
from lessonkit.records.activity import Activity


@dataclass(frozen=True, slots=True)
class Candidates:
    """The activities of the problem, resolved for the grade, and why others were left out."""

    usable: tuple[Activity, ...]
    left_out: tuple[LeftOut, ...]


def candidates(setting: Setting, wanted: Collection[str]) -> Candidates:
    """Sort the library into activities that some lesson can use (or that are wanted anyway) and those left out."""
    grade = setting.school_class.grade
    resolved = {key: record.for_grade(grade) for key, record in sorted(setting.library.activities.items())}
    left_out = [bar for activity in resolved.values() for bar in bars(activity, setting)]
    left_out += [bar for activity in resolved.values() for bar in station_bars(activity, setting)]
    left_out += _blocked(setting, resolved, left_out)
    open_to = {key: lessons_left(key, setting, left_out) for key in resolved}
    usable = tuple(record for key, record in resolved.items() if open_to[key] or key in wanted)
    return Candidates(usable, tuple(sorted(left_out, key=lambda bar: (bar.activity, bar.code, bar.lessons))))


def lessons_left(activity: str, setting: Setting, left_out: Iterable[LeftOut]) -> set[int]:
    """Return the lessons that an activity may be in: for the whole class, or as a station of a circuit."""
    own = [bar for bar in left_out if bar.activity == activity]
    barred = {lesson for bar in own if bar.station in (None, False) for lesson in bar.lessons}
    free = set(range(len(setting.spaces))) - barred
    if setting.library.activities[activity].station:
        no_station = {lesson for bar in own if bar.station in (None, True) for lesson in bar.lessons}
        free |= {lesson for lesson, circuits in enumerate(setting.circuits) if circuits} - no_station
    return free


def _blocked(setting: Setting, resolved: dict[str, Activity], left_out: list[LeftOut]) -> list[LeftOut]:
    """Find activities that build on one that cannot be used, over any number of links, or on each other in a circle.

    What the teacher excludes is taken as known, and so is what the class has met before.
    """
    every = tuple(range(len(setting.spaces)))
    gone = {key for key in resolved if not lessons_left(key, setting, left_out)} - set(setting.unit.exclude)
    ready = {key for key in resolved if key not in gone and not bases(resolved[key], setting, resolved)}
    waiting = {key for key in resolved if key not in gone} - ready
    while True:
        now = {key for key in waiting if set(bases(resolved[key], setting, resolved)) <= ready}
        if not now:
            break
        ready |= now
        waiting -= now
    found = []
    for key in sorted(waiting):
        base = next(base for base in bases(resolved[key], setting, resolved) if base not in ready)
        if base in gone:
            why = next((_GONE[bar.code] for bar in left_out if bar.activity == base and bar.code in _GONE), _UNUSABLE)
        else:
            why = "which builds on it in turn" if key in _below(base, setting, resolved) else f"{_UNUSABLE} either"
        says = f"{resolved[key].title} builds on {resolved[base].title}, {why}."
        found.append(LeftOut(key, "builds-on", every, Said("activity", key, ("builds_on",), says)))
    return found


_UNUSABLE = "which cannot be used"
_GONE = {
    "grade": "which is for other grades",
    "class-size": "which cannot group the class",
    "equipment": "which is short of equipment",
    "skill": "which trains none of the unit's skills",
    "part": "which is for parts that no lesson of the unit has",
    "where": "which is for another kind of space",
    "floor": "which does not fit the space",
}
"""What is said of an activity that others build on in vain, by the code of the reason."""


def _below(activity: str, setting: Setting, resolved: dict[str, Activity]) -> set[str]:
    """Return everything that an activity builds on, over any number of links."""
    found: set[str] = set()
    ahead = [activity]
    while ahead:
        new = set(bases(resolved[ahead.pop()], setting, resolved)) - found
        found |= new
        ahead += sorted(new)
    return found


def bases(activity: Activity, setting: Setting, resolved: dict[str, Activity]) -> tuple[str, ...]:
    """Return the activities that must come before one: those it builds on that the class does not know yet."""
    mastered = mastered_steps(setting.unit, setting.library)
    return tuple(
        base
        for base in activity.builds_on
        if base in resolved
        and base not in setting.unit.exclude
        and not met_before(resolved[base], setting.school_class.grades, mastered, setting.unit)
    )
