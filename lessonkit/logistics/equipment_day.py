"""A day of classes: how much lies out at once, and what comes out and goes away before each class."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lessonkit.logistics.equipment import Counts, in_sequence, side_by_side
from lessonkit.records.equipment import Item


@dataclass(frozen=True, slots=True)
class Turn:
    """A class's lesson of a day: the minutes of the day at which it begins and ends, and what it uses."""

    begins: int
    ends: int
    needs: Counts


def out_at_once(turns: Sequence[Turn]) -> dict[str, int]:
    """Return for every item the most that lies out at one time; classes that meet at the same time add up.

    ``turns`` stand in the order in which they begin.
    """
    return in_sequence(_moments(turns))


def changes(turns: Sequence[Turn]) -> tuple[Counts, ...]:
    """Return for every turn how many pieces come out (above 0) or go away (below 0) before it, by item in order.

    What the class before has used stays for the next, unless a class that has begun and not ended still uses it.
    Before the first turn nothing lies out. ``turns`` stand in the order in which they begin.
    """
    found: list[Counts] = []
    before: Counts = {}
    for place, moment in enumerate(_moments(turns)):
        now = turns[place].needs
        lying = {item: count - moment.get(item, 0) + now.get(item, 0) for item, count in before.items()}
        items = sorted({*now, *lying})
        differences = {item: now.get(item, 0) - lying.get(item, 0) for item in items}
        found.append({item: difference for item, difference in differences.items() if difference})
        before = moment
    return tuple(found)


def _moments(turns: Sequence[Turn]) -> Iterator[dict[str, int]]:
    """Yield for the beginning of every turn what is in use then: its own needs and those of turns not yet ended."""
    for place, turn in enumerate(turns):
        running = [each.needs for each in turns[:place] if each.ends > turn.begins]
        yield side_by_side([*running, turn.needs])


def item_counted(item: str, count: int, items: Mapping[str, Item]) -> str:
    """Return a number of an item in words: ``6 cones``, ``1 roll of floor tape``; the id where no catalogue has it."""
    known = items.get(item)
    if known is None:
        return f"{count} {item}"
    name = known.title if count == 1 else known.plural
    if known.unit == "each":
        return f"{count} {name}"
    return f"{count} {known.unit if count == 1 else known.unit + 's'} of {known.plural}"
