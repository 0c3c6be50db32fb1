"""How much equipment an activity, a lesson or a unit needs, what is short, and what can stand in."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil

from lessonkit.logistics.groups import group
from lessonkit.records.activity import Activity, Need
from lessonkit.records.equipment import Item
from lessonkit.records.school import School


@dataclass(frozen=True, slots=True)
class Shortage:
    """An item of which there is too little: needed, owned, and the other items that stand in, with how many of each."""

    item: str
    needed: int
    owned: int
    stand_ins: tuple[tuple[str, int], ...]

    @property
    def still_short(self) -> int:
        """How many are missing when every stand-in is used."""
        return max(0, self.needed - self.owned - sum(count for _, count in self.stand_ins))


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


def in_sequence(parts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    """Return what parts that follow each other need: for every item the most that any one part needs."""
    most: dict[str, int] = {}
    for part in parts:
        for item, count in part.items():
            most[item] = max(most.get(item, 0), count)
    return dict(sorted(most.items()))


def side_by_side(parts: Iterable[Mapping[str, int]]) -> dict[str, int]:
    """Return what stations that run at the same time need: for every item the sum."""
    total: dict[str, int] = {}
    for part in parts:
        for item, count in part.items():
            total[item] = total.get(item, 0) + count
    return dict(sorted(total.items()))


def shortages(needs: Mapping[str, int], school: School, items: Mapping[str, Item]) -> tuple[Shortage, ...]:
    """Return what a school is short of, with the stand-ins its cupboard holds beyond their own need."""
    spare = {owned.item: owned.count - needs.get(owned.item, 0) for owned in school.equipment}
    found = []
    for item, count in sorted(needs.items()):
        owned = school.owned(item)
        if owned >= count:
            continue
        missing = count - owned
        used = []
        for stand_in in items[item].stand_ins if item in items else ():
            take = min(missing, max(0, spare.get(stand_in.item or "", 0)))
            if stand_in.item and take:
                used.append((stand_in.item, take))
                spare[stand_in.item] -= take
                missing -= take
        found.append(Shortage(item, count, owned, tuple(used)))
    return tuple(found)
