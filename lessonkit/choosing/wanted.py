"""What a teacher looks for, and the activities that are it, the best first, each with what it needs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from lessonkit.choosing.words import fields_of, holds
from lessonkit.logistics.equipment import needed, shortages
from lessonkit.logistics.floor import FloorAnswer, fits
from lessonkit.logistics.groups import FOR_ONE, CannotGroupError, group
from lessonkit.records.activity import Activity, Form, LessonPart, Where
from lessonkit.records.library import Library
from lessonkit.records.school import Owned, School, Space

_ASSESSED: Final = 3
_PRACTISED: Final = 2
_MINUTE_OFF: Final = 0.25
_KIND_TO_FETCH: Final = 0.3


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked for; None or empty where it does not matter.

    ``at_hand`` limits items by id to so many (None: as many as the school has); with ``nothing_else`` no other item may
    be needed. ``grade`` and ``children`` are those of the class.
    """

    words: tuple[str, ...] = ()
    grade: str | None = None
    part: LessonPart | None = None
    skill: str | None = None
    outcome: str | None = None
    framework: str | None = None
    minutes: int | None = None
    children: int = 25
    form: Form | None = None
    where: Where | None = None
    space: Space | None = None
    at_hand: tuple[tuple[str, int | None], ...] = ()
    nothing_else: bool = False
    station: bool = False
    measured: bool = False


@dataclass(frozen=True, slots=True)
class Match:
    """An activity that is what was looked for, as taught to the grade: its worth, what it needs, how it fits."""

    activity: Activity
    worth: float
    needs: Mapping[str, int]
    floor: FloorAnswer | None


def find(wanted: Wanted, library: Library, school: School | None) -> tuple[Match, ...]:
    """Return the activities that are what is wanted, the best first; equal ones by title.

    Without a ``school`` only what is at hand limits the equipment.
    """
    cupboard = None if school is None else _cupboard(wanted, school)
    found = [
        match
        for written in library.activities.values()
        if (match := _match(written, wanted, library, cupboard)) is not None
    ]
    return tuple(sorted(found, key=lambda match: (-match.worth, match.activity.title)))


def _cupboard(wanted: Wanted, school: School) -> School:
    """Return a school that owns no more of an item than is at hand, and nothing else where nothing else may be used."""
    from msgspec import structs

    limits = dict(wanted.at_hand)
    owned = {each.item: each.count for each in school.equipment}
    for item, count in limits.items():
        owned[item] = count if count is not None else owned.get(item, 0)
    kept = {item: count for item, count in owned.items() if not wanted.nothing_else or item in limits}
    return structs.replace(school, equipment=tuple(Owned(item=item, count=count) for item, count in kept.items()))


def _match(written: Activity, wanted: Wanted, library: Library, cupboard: School | None) -> Match | None:
    if wanted.grade is not None and wanted.grade not in written.grades:
        return None
    activity = written if wanted.grade is None else written.for_grade(wanted.grade)
    worth = _words_worth(activity, wanted, library)
    if worth is None or not all(_plain_wishes(activity, wanted)):
        return None
    needs = needed(activity, wanted.children)
    lengths = None if cupboard is None else cupboard.lengths
    floor = None if wanted.space is None else fits(activity, wanted.children, wanted.space, lengths)
    if not _has_equipment(needs, wanted, library, cupboard) or not _has_floor(activity, floor):
        return None
    return Match(activity, worth + _worth(activity, wanted, needs, floor), needs, floor)


def _has_floor(activity: Activity, floor: FloorAnswer | None) -> bool:
    """Tell whether all groups fit, or some do and the record says how the others wait."""
    return floor is None or floor.fits or bool(floor.largest and activity.floor.if_more)


def _can_group(activity: Activity, children: int) -> bool:
    try:
        group(activity.organisation, children)
    except CannotGroupError:
        return False
    return children > 1 or activity.organisation.form in FOR_ONE


def _plain_wishes(activity: Activity, wanted: Wanted) -> Iterator[bool]:
    yield _can_group(activity, wanted.children)
    yield wanted.part is None or wanted.part in activity.parts
    yield wanted.skill is None or any(step.skill == wanted.skill for step in activity.skills)
    yield wanted.outcome is None or _serves(activity, wanted) > 0
    yield wanted.minutes is None or activity.minutes.least <= wanted.minutes - activity.minutes.setup
    yield wanted.form is None or activity.organisation.form == wanted.form
    yield wanted.where in (None, "either") or activity.floor.where in ("either", wanted.where)
    yield wanted.space is None or activity.floor.where in ("either", wanted.space.where)
    yield not wanted.station or activity.station
    yield not wanted.measured or activity.measured is not None


def _serves(activity: Activity, wanted: Wanted) -> int:
    """Return what an activity's way of serving the outcome is worth; 0 where it does not serve it."""
    ways = {
        how
        for framework, codes in activity.outcomes.items()
        if wanted.framework in (None, framework)
        for how in codes.get(wanted.outcome or "", ())
    }
    return _ASSESSED if "assessed" in ways else _PRACTISED if "practised" in ways else len(ways)


def _words_worth(activity: Activity, wanted: Wanted, library: Library) -> float | None:
    """Return what the words found are worth; None where one of them is nowhere in the record."""
    if not wanted.words:
        return 0.0
    total = 0.0
    for word in wanted.words:
        worth = max((value for value, text in fields_of(activity, library) if holds(text, word)), default=0)
        if not worth:
            return None
        total += worth
    return total


def _has_equipment(needs: Mapping[str, int], wanted: Wanted, library: Library, cupboard: School | None) -> bool:
    limits = dict(wanted.at_hand)
    if limits and not wanted.nothing_else and not set(limits) & set(needs):
        return False
    if cupboard is None:
        return all(count <= (limits.get(item, count) or count) for item, count in needs.items())
    if any(item in limits and count > cupboard.owned(item) for item, count in needs.items()):
        return False
    return not any(short.still_short for short in shortages(needs, cupboard, library.items, wanted.grade))


def _worth(activity: Activity, wanted: Wanted, needs: Mapping[str, int], floor: FloorAnswer | None) -> float:
    worth = float(_serves(activity, wanted)) if wanted.outcome else 0.0
    if wanted.minutes is not None:
        room = wanted.minutes - activity.minutes.setup
        worth -= _MINUTE_OFF * max(abs(room - activity.minutes.usual), room - activity.minutes.most)
    if floor is not None and not floor.fits:
        worth -= 1.0
    return worth - _KIND_TO_FETCH * len(needs)
