"""How much equipment an activity, a lesson, a unit or a year needs, and what a school is short of.

What parts need in sequence is the most that any of them needs; what stations need side by side adds up.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from lessonkit.logistics.groups import group
from lessonkit.logistics.stand_ins import allot
from lessonkit.logistics.words import listed
from lessonkit.records.activity import Activity, Need
from lessonkit.records.equipment import Item
from lessonkit.records.school import School

Counts = Mapping[str, int]
"""How many of each item, by item id."""


@dataclass(frozen=True, slots=True)
class Shortage:
    """An item of which there is too little: needed, owned, and the other items that stand in, with how many of each.

    ``improvise`` lists what the catalogue says may be used instead that is no equipment.
    """

    item: str
    needed: int
    owned: int
    stand_ins: tuple[tuple[str, int], ...]
    improvise: tuple[str, ...] = ()

    @property
    def still_short(self) -> int:
        """How many are missing when every stand-in is used."""
        return max(0, self.needed - self.owned - sum(count for _, count in self.stand_ins))


@dataclass(frozen=True, slots=True)
class Clash:
    """An item that several places use at the same time, with how many each of them needs, and how many there are."""

    item: str
    places: tuple[tuple[str, int], ...]
    owned: int

    @property
    def needed(self) -> int:
        """How many all places need together."""
        return sum(count for _, count in self.places)


def needed(activity: Activity, children: int) -> dict[str, int]:
    """Return how many of each item a class of ``children`` needs, by item id in order; ``activity`` suits the grade."""
    groups = len(group(activity.organisation, children).sizes)
    counts: dict[str, int] = {}
    for need in activity.equipment:
        counts[need.item] = counts.get(need.item, 0) + need.count * _times(need, children, groups)
    return dict(sorted(counts.items()))


def _times(need: Need, children: int, groups: int) -> int:
    match need.per:
        case "child":
            return children
        case "pair":
            return ceil(children / 2)
        case "group":
            return groups
        case "station" | "class":
            return 1


def lesson_need(parts: Sequence[Sequence[Counts]], left_out: Collection[int] = ()) -> dict[str, int]:
    """Return what a lesson needs: parts in sequence, each of them one activity or several stations side by side.

    ``left_out`` names parts (from 0) whose equipment stays where it is until the lesson's end, so that what comes after
    cannot use it.
    """
    standing: dict[str, int] = {}
    moments = []
    for number, part in enumerate(parts):
        now = side_by_side(part)
        moments.append(side_by_side((standing, now)))
        if number in left_out:
            standing = moments[-1]
    return in_sequence(moments)


def in_sequence(parts: Iterable[Counts]) -> dict[str, int]:
    """Return what parts that follow each other need: for every item the most that any one part needs."""
    most: dict[str, int] = {}
    for part in parts:
        for item, count in part.items():
            most[item] = max(most.get(item, 0), count)
    return dict(sorted(most.items()))


def side_by_side(parts: Iterable[Counts]) -> dict[str, int]:
    """Return what stations that run at the same time need: for every item the sum."""
    total: dict[str, int] = {}
    for part in parts:
        for item, count in part.items():
            total[item] = total.get(item, 0) + count
    return dict(sorted(total.items()))


def peaks(lessons: Iterable[tuple[str, Counts]]) -> dict[str, tuple[int, str]]:
    """Return for every item the most that a unit's or a year's lessons need, and the first lesson that needs it."""
    most: dict[str, tuple[int, str]] = {}
    for title, counts in lessons:
        for item, count in counts.items():
            if count > most.get(item, (0, ""))[0]:
                most[item] = (count, title)
    return dict(sorted(most.items()))


def clashes(stations: Iterable[tuple[str, Counts]], school: School) -> tuple[Clash, ...]:
    """Return the items that two or more stations use at once and of which the school has too few for all of them."""
    places: dict[str, list[tuple[str, int]]] = {}
    for title, counts in stations:
        for item, count in counts.items():
            if count:
                places.setdefault(item, []).append((title, count))
    found = (Clash(item, tuple(used), school.owned(item)) for item, used in sorted(places.items()) if len(used) > 1)
    return tuple(clash for clash in found if clash.needed > clash.owned)


def clash_says(clash: Clash, name: str) -> str:
    """Say a clash in a sentence; ``name`` is the item's name in the plural."""
    places = listed([f"{title} ({count})" for title, count in clash.places])
    return f"{name[:1].upper()}{name[1:]} are in use at {places} at the same time: {clash.needed}, and there are " + (
        f"{clash.owned}." if clash.owned else "none."
    )


def shortages(
    needs: Counts, school: School, items: Mapping[str, Item], grade: str | None = None
) -> tuple[Shortage, ...]:
    """Return what a school is short of, with the stand-ins its cupboard holds beyond their own need.

    Stand-ins are shared out so that as little as can be stays missing. With a ``grade``, an item that is not for it
    does not stand in.
    """
    missing = {item: count - school.owned(item) for item, count in sorted(needs.items()) if count > school.owned(item)}
    if not missing:
        return ()
    spare = {
        owned.item: school.owned(owned.item) - needs.get(owned.item, 0)
        for owned in school.equipment
        if _suits(owned.item, items, grade)
    }
    offers = {item: _offers(item, items) for item in missing}
    used = allot(missing, offers, spare)
    return tuple(
        Shortage(item, needs[item], school.owned(item), used[item], _improvise(item, items)) for item in missing
    )


def _suits(item: str, items: Mapping[str, Item], grade: str | None) -> bool:
    grades = items[item].grades if item in items else None
    return grade is None or grades is None or grade in grades


def _offers(item: str, items: Mapping[str, Item]) -> tuple[str, ...]:
    known = items.get(item)
    return tuple(other.item for other in known.stand_ins if other.item) if known else ()


def _improvise(item: str, items: Mapping[str, Item]) -> tuple[str, ...]:
    known = items.get(item)
    return tuple(other.use for other in known.stand_ins if other.use) if known else ()
