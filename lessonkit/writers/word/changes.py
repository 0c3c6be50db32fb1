"""What an author changed in a Word file since it was exported, in sentences for a teacher."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import groupby
from typing import Literal

from lessonkit.writers.word.alignment import aligned
from lessonkit.writers.word.drawing_words import framed, shape_says
from lessonkit.writers.word.line import FRAMED_ANEW, Line
from lessonkit.writers.word.look_words import Says, look_says, mark_says, short, shown

_TWIPS = 15
"""How far measures on the page may drift when another program saves a file: under a point."""
_ALIKE = 0.5
_MOST_TRIALS = 900
_MANY = 3


@dataclass(frozen=True, slots=True)
class Place:
    """Where a line stands: the heading above it, and the first words of its table row."""

    heading: str = ""
    row: str = ""

    def __str__(self) -> str:
        return ", ".join(words for words in (self.heading, self.row) if words) or "At the beginning"


@dataclass(frozen=True, slots=True)
class Item:
    """A line with its place. ``table`` and ``row`` count from 1, 0 outside of tables; a drawing holds its shapes.

    ``ground`` is the colour of the table's cell that it begins.
    """

    line: Line
    place: Place
    table: int = 0
    row: int = 0
    begins: str = ""
    shapes: tuple[Line, ...] = ()
    ground: str = ""

    @property
    def key(self) -> tuple[str, str, str]:
        """What makes two lines the same one."""
        return self.line.kind, self.begins, self.line.words if self.line.kind != "part" else self.line.look


Kind = Literal["words", "gone", "come", "look"]


@dataclass(frozen=True, slots=True)
class Change:
    """One difference: where, what a teacher reads, and the lines themselves (None for what is not there).

    Of a row that came or went as a whole only the first line is given. ``how`` is what many changes have in common.
    """

    place: Place
    says: str
    kind: Kind
    old: Item | None = None
    new: Item | None = None
    how: str = ""

    def __str__(self) -> str:
        return f"{self.place}: {self.says}"


def changes(old: Sequence[Line], new: Sequence[Line]) -> tuple[Change, ...]:
    """Return what differs between two contents, in the order of the new one; nothing where only a program differs."""
    return item_changes(items(old), items(new))


def item_changes(before: Sequence[Item], after: Sequence[Item]) -> tuple[Change, ...]:
    """Return what differs between two contents whose lines have their places already."""
    pairs, blocks = aligned([item.key for item in before], [item.key for item in after])
    found: list[tuple[int, Change]] = []
    for one, other in pairs:
        found += [(other, change) for change in _looks(before[one], after[other])]
    for left, left_end, right, right_end in blocks:
        found += [(right, change) for change in _block(before[left:left_end], after[right:right_end])]
    return tuple(change for _, change in sorted(found, key=lambda each: each[0]))


def sentences(found: Sequence[Change]) -> list[str]:
    """Return changes as lines to read; many of one kind, such as a new colour of a style, are told once."""
    lines: list[str] = []
    for how, group in groupby(sorted(found, key=lambda each: each.how), key=lambda each: each.how):
        alike = list(group)
        if how and len(alike) > _MANY:
            lines.append(f"{alike[0]} (and {len(alike) - 1} more such places)")
        else:
            lines += [str(change) for change in alike]
    return list(dict.fromkeys(lines))


def items(lines: Sequence[Line]) -> list[Item]:
    """Return lines with their places; rows and cells are told by what begins them."""
    reader = _Places()
    for line in lines:
        reader.take(line)
    return reader.found


class _Places:
    def __init__(self) -> None:
        self.found: list[Item] = []
        self._heading = ""
        self._tables = 0
        self._open: list[list[int]] = []
        self._leads: list[str] = []
        self._begins = ""
        self._cell = ""
        self._ground = ""

    def take(self, line: Line) -> None:
        """Take the next line."""
        if line.kind == "shape":
            self.found[-1] = self._with_shape(self.found[-1], line)
        elif line.kind == "end":
            self._open.pop()
            self._leads.pop()
        elif line.kind == "row":
            self._open[-1][1] += 1
            self._leads[-1] = ""
            self._begins = "row"
        elif line.kind == "cell":
            self._begins = self._begins or "cell"
            self._cell, self._ground = line.look, line.words
        else:
            self._put(line)

    def _put(self, line: Line) -> None:
        if line.kind == "p" and not self._open and line.look.startswith(("heading", "title")) and line.words.strip():
            self._heading = short(line.words)
        if line.kind == "part":
            self._heading = "Header" if line.look.startswith("header") else "Footer"
        if line.kind == "note" and line.look.startswith("title"):
            self._heading = "Properties"
        if line.kind == "table":
            self._tables += 1
            self._open.append([self._tables, 0])
            self._leads.append("")
        elif self._leads and not self._leads[-1]:
            self._leads[-1] = short(line.words)
        table, row = self._open[-1] if self._open else (0, 0)
        lead = self._leads[-1] if self._leads else ""
        place = Place(self._heading, lead if lead != short(line.words) else "")
        begins = f"{self._begins} {self._cell}".strip() if self._begins else ""
        self.found.append(Item(line, place, table, row, begins, ground=self._ground))
        self._begins, self._cell, self._ground = "", "", ""

    @staticmethod
    def _with_shape(item: Item, shape: Line) -> Item:
        return replace(item, shapes=(*item.shapes, shape))


def _block(old: Sequence[Item], new: Sequence[Item]) -> Iterator[Change]:
    """Tell reworded lines, then what is gone and what has come; a whole row counts once."""
    pairs = _reworded(old, new)
    for one, other in pairs:
        yield from _compare(old[one], new[other])
    taken, given = {one for one, _ in pairs}, {other for _, other in pairs}
    gone = [item for place, item in enumerate(old) if place not in taken]
    come = [item for place, item in enumerate(new) if place not in given]
    yield from (Change(group[0].place, f"{what} was removed.", "gone", old=group[0]) for group, what in _named(gone))
    yield from (Change(group[0].place, f"{what} was added.", "come", new=group[0]) for group, what in _named(come))


def _named(found: list[Item]) -> Iterator[tuple[list[Item], str]]:
    """Yield lines with what to call them; those of a row that goes or comes as a whole are one."""
    for (_, row), group in groupby(found, key=lambda item: (item.table, item.row)):
        members = list(group)
        if row and members[0].begins.startswith("row"):
            said = " / ".join(words for item in members if (words := short(item.line.words.strip())))
            yield members, f"The row {shown(said)}" if said else "An empty row"
        else:
            yield from (([item], _what(item)) for item in members)


def _what(item: Item) -> str:
    line = item.line
    words = short(line.words.strip())
    named = {
        "drawing": "A drawing",
        "picture": "A picture",
        "table": "A table",
        "section": "A section with its own page size",
        "part": f"A {line.look.partition(' ')[0]}",
    }
    if line.kind in named:
        return named[line.kind]
    if line.kind == "note":
        return f"A {line.look} {shown(words)}"
    if "\f" in line.words:
        return "A page break"
    return f"The line {shown(words)}" if words else "An empty line"


def _reworded(old: Sequence[Item], new: Sequence[Item]) -> list[tuple[int, int]]:
    """Pair lines that are versions of each other: by their hidden key, their place, or their words, order kept."""
    pairs: list[tuple[int, int]] = []
    start = 0
    trials = 0
    for one, item in enumerate(old):
        best, place = 0.0, -1
        for other in range(start, len(new)):
            trials += 1
            worth = _worth(item, new[other], trials)
            if worth > best:
                best, place = worth, other
        if best >= _ALIKE:
            pairs.append((one, place))
            start = place + 1
    if not pairs and len(old) == len(new) == 1 and old[0].line.kind == new[0].line.kind:
        return [(0, 0)]
    return pairs


def _worth(old: Item, new: Item, trials: int) -> float:
    """Tell how much a line looks like a version of another, from 0 to 1."""
    if old.line.kind != new.line.kind:
        return 0.0
    if old.line.kind in ("section", "table", "drawing", "picture", "part"):
        return 0.9
    if old.line.key and new.line.key:
        return 1.0 if old.line.key == new.line.key else 0.0
    if old.line.words == new.line.words:
        return 0.95
    if trials > _MOST_TRIALS or not old.line.words.strip() or not new.line.words.strip():
        return 0.0
    return SequenceMatcher(None, old.line.words, new.line.words, autojunk=False).ratio()


def _compare(old: Item, new: Item) -> Iterator[Change]:
    """Tell what differs between two versions of a line."""
    if old.line.words != new.line.words:
        before, after = trimmed(old.line.words, new.line.words)
        yield Change(old.place, f"{shown(before)} is now {shown(after)}.", "words", old, new)
    yield from _looks(old, new)


def trimmed(old: str, new: str) -> tuple[str, str]:
    """Return the words that differ with a few around them."""
    before, after = old.split(" "), new.split(" ")
    head = 0
    while head < min(len(before), len(after)) and before[head] == after[head]:
        head += 1
    tail = 0
    while tail < min(len(before), len(after)) - head and before[-1 - tail] == after[-1 - tail]:
        tail += 1
    start, stop = max(head - 3, 0), max(tail - 3, 0)

    def cut(words: list[str]) -> str:
        kept = " ".join(words[start : len(words) - stop])
        return f"{'... ' if start else ''}{kept}{' ...' if stop else ''}"

    return cut(before), cut(after)


def _looks(old: Item, new: Item) -> Iterator[Change]:
    """Tell what differs in the look of two lines, and in the shapes of two drawings."""
    before, after = old.line, new.line
    if FRAMED_ANEW in (before.look, after.look):
        before, after = framed(before, old.shapes), framed(after, new.shapes)
    looks = list(look_says(before, after, _TWIPS))
    styled = [says for says in looks if says.how.startswith("style")]
    for says in (*_structure(old, new), *(styled or (*looks, *mark_says(old.line, new.line)))):
        yield Change(old.place, says.sentence, "look", old, new, says.how)
    yield from (Change(old.place, says, "look", old, new) for says in shape_says(old.shapes, new.shapes))


def _structure(old: Item, new: Item) -> Iterator[Says]:
    if old.begins != new.begins:
        yield Says(f"The cells of the table around {shown(short(new.line.words))} were joined or parted.", "")
    elif old.ground != new.ground:
        yield Says(
            f"The cell {shown(short(new.line.words))} has another background.", f"ground {old.ground} {new.ground}"
        )
