"""Lines of a page that Enter parted in two or that were joined, and rows that were moved: no record's words change."""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from lessonkit.writers.word.changes import Change, Item

PARTED = "its words were only parted into lines, which records do not hold"
JOINED = "lines of the page were joined, which the records keep apart"
MOVED = "the row stands elsewhere now; change the order in the plan or the record itself"
_TOO_SHORT = 12
"""Letters of a line that may stand at the end of another one by chance."""


class Regrouped(NamedTuple):
    """The changes that only part or join lines or move rows, each with why it stays on the page, and all others."""

    told: list[tuple[Change, str]]
    rest: list[Change]


def regrouped(
    found: Sequence[Change], before: Sequence[Item], after: Sequence[Item], field_of: Callable[[Item], str]
) -> Regrouped:
    """Return changes of whole lines, apart from those that only part a line or join several, or move a row.

    ``field_of`` gives the field whose lines stand one below the other in the record too, such as an activity's steps:
    to part or join those is a change of the record.
    """
    come = _ByItem([change.new for change in found if change.kind == "come"], after)
    gone = _ByItem([change.old for change in found if change.kind == "gone"], before)
    why = _moved_rows(found, before, after)
    for change in found:
        old, new = change.old, change.new
        if change.kind != "words" or old is None or new is None or old.line.kind != "p":
            continue
        parts = [] if field_of(old) else _parts(new, old, come)
        joined = _parts(old, new, gone) or _overgrown(old, new, gone)
        if field_of(old) and any(field_of(each) == field_of(old) for each in joined):
            joined = []
        for says, items in ((PARTED, parts), (JOINED, joined)):
            why |= {id(each): says for each in (*items, *([new] if items else []))}
    lines = [(change, why.get(id(change.old if change.kind == "gone" else change.new))) for change in found]
    told = [(change, says) for change, says in lines if says and change.kind != "look"]
    return Regrouped(told, [change for change, says in lines if not says or change.kind == "look"])


def _moved_rows(found: Sequence[Change], before: Sequence[Item], after: Sequence[Item]) -> dict[int, str]:
    """Return for the first line of every row that stands elsewhere now, before and after, what is said of it."""
    gone = _rows((change.old for change in found if change.kind == "gone"), before)
    come = _rows((change.new for change in found if change.kind == "come"), after)
    return {id(item): MOVED for words in gone.keys() & come.keys() for item in (*gone[words], *come[words])}


def _rows(firsts: Iterable[Item | None], lines: Sequence[Item]) -> dict[tuple[str, ...], list[Item]]:
    """Return the first lines of rows by the words of the whole row."""
    words: dict[tuple[int, int], list[str]] = {}
    for line in lines:
        words.setdefault((line.table, line.row), []).append(_letters(line))
    found: dict[tuple[str, ...], list[Item]] = {}
    for item in firsts:
        if item is not None and item.row and item.begins.startswith("row"):
            found.setdefault(tuple(words[item.table, item.row]), []).append(item)
    return found


class _ByItem:
    """Lines that came or went, and which of them stand right before or behind another line."""

    def __init__(self, changed: Sequence[Item | None], lines: Sequence[Item]) -> None:
        self._changed = {id(item) for item in changed if item is not None and item.line.kind == "p"}
        self._lines = lines
        self._places = {id(item): place for place, item in enumerate(lines)}

    def beside(self, item: Item, step: int) -> list[Item]:
        """Return the changed lines next to one, the nearest first; behind it (1) or before it (-1)."""
        found: list[Item] = []
        place = self._places[id(item)] + step
        while 0 <= place < len(self._lines) and id(self._lines[place]) in self._changed:
            found.append(self._lines[place])
            place += step
        return found


def _parts(part: Item, entire: Item, others: _ByItem) -> list[Item]:
    """Return the lines beside a part that make up an entire line together with it; none where they do not."""
    words = _letters(entire)
    above, below = others.beside(part, -1), others.beside(part, 1)
    for first in range(len(above) + 1):
        for last in range(len(below) + 1):
            items = [*reversed(above[:first]), *below[:last]]
            said = [*map(_letters, reversed(above[:first])), _letters(part), *map(_letters, below[:last])]
            if items and all(said) and "".join(said) == words:
                return items
    return []


def _overgrown(old: Item, new: Item, gone: _ByItem) -> list[Item]:
    """Return the line beside an old one that has gone and whose words begin or end the new one."""
    words = _letters(new)
    below, above = gone.beside(old, 1)[:1], gone.beside(old, -1)[:1]
    found = [item for item in below if words.endswith(_letters(item))]
    found += [item for item in above if words.startswith(_letters(item))]
    return [item for item in found if len(_letters(item)) >= _TOO_SHORT]


def _letters(item: Item) -> str:
    return "".join(item.line.words.split())
