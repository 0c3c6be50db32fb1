"""A day of classes back to back: what can stay out between two lessons, and what has to change over."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lessonkit.logistics.equipment import Counts
from lessonkit.logistics.words import listed
from lessonkit.records.equipment import Item


@dataclass(frozen=True, slots=True)
class ChangeOver:
    """What happens to the equipment between two lessons: how many of each item stay, come out and go away."""

    before: str
    after: str
    stays: Counts
    comes_out: Counts
    goes_away: Counts

    @property
    def moves(self) -> int:
        """How many pieces are carried in or out."""
        return sum(self.comes_out.values()) + sum(self.goes_away.values())


def change_overs(lessons: Sequence[tuple[str, Counts]]) -> tuple[ChangeOver, ...]:
    """Return the change-over between each two neighbours of a day's (title, equipment) lessons."""
    return tuple(_between(first, second) for first, second in pairwise(lessons))


def _between(first: tuple[str, Counts], second: tuple[str, Counts]) -> ChangeOver:
    items = sorted({*first[1], *second[1]})
    before, after = ({item: counts.get(item, 0) for item in items} for _, counts in (first, second))
    return ChangeOver(
        first[0],
        second[0],
        _kept({item: min(before[item], after[item]) for item in items}),
        _kept({item: after[item] - before[item] for item in items}),
        _kept({item: before[item] - after[item] for item in items}),
    )


def _kept(counts: Mapping[str, int]) -> dict[str, int]:
    return {item: count for item, count in counts.items() if count > 0}


def change_says(change: ChangeOver, items: Mapping[str, Item]) -> str:
    """Say a change-over in one sentence, with the items' names where a catalogue knows them."""
    if not change.moves:
        return f"Everything stays out from {change.before} to {change.after}."
    parts = [
        f"{verb} {listed([item_counted(item, count, items) for item, count in counts.items()])}"
        for verb, counts in (
            ("leave out", change.stays),
            ("put away", change.goes_away),
            ("bring out", change.comes_out),
        )
        if counts
    ]
    return f"Between {change.before} and {change.after}: {'; '.join(parts)}."


def item_counted(item: str, count: int, items: Mapping[str, Item]) -> str:
    """Return a number of an item in words: ``6 cones``, ``1 roll of floor tape``; the id where no catalogue has it."""
    known = items.get(item)
    if known is None:
        return f"{count} {item}"
    name = known.title if count == 1 else known.plural
    if known.unit == "each":
        return f"{count} {name}"
    return f"{count} {known.unit if count == 1 else known.unit + 's'} of {known.plural}"
