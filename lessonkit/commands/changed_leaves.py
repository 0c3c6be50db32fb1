"""The changes of one field in Markdown, such as an activity's steps or a letter, line by line."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from lessonkit.commands.spans import filled_in, flat, refilled, taken_along
from lessonkit.commands.steps import leaf_words, with_changes
from lessonkit.loading.rewrite import CannotRewriteError
from lessonkit.writers.word.changes import Change, trimmed
from lessonkit.writers.word.look_words import short, shown

CHANGED_SINCE = (
    "the record says it in other words: it has changed since this page was printed, or holds meters that the page says "
    "in feet"
)
_LEAF = re.compile(r"(?:activity/[^/ ]+/steps|unit/[^/ ]+/letter)/[0-9]+")


def is_leaf(key: str) -> bool:
    """Tell whether a key names a line of a field in Markdown."""
    return _LEAF.fullmatch(key) is not None


class AlreadyThereError(CannotRewriteError):
    """The record says already what the page asks for."""


@dataclass(slots=True)
class ChangedLeaves:
    """The changes by the place of a line, from 0. A page may show a field several times; the changes are put together.

    ``name`` is what a teacher calls the field; ``other`` are changes that would make of a line two different ones.
    """

    name: str
    reworded: dict[int, tuple[str, str, Change]] = field(default_factory=dict)
    gone: dict[int, tuple[str, Change]] = field(default_factory=dict)
    come: dict[int, list[tuple[str, Change]]] = field(default_factory=dict)
    other: list[Change] = field(default_factory=list)

    def reword(self, place: int, old: str, new: str, change: Change) -> None:
        """Take a line with other words; one without any is taken out."""
        if not flat(new):
            self.remove(place, old, change)
            return
        known = self.reworded.setdefault(place, (old, new, change))
        if flat(known[1]) != flat(new) or place in self.gone:
            self.other.append(change)

    def remove(self, place: int, old: str, change: Change) -> None:
        """Take a line that was taken out."""
        self.gone.setdefault(place, (old, change))
        if place in self.reworded:
            self.other.append(change)

    def add(self, place: int, new: str, change: Change) -> None:
        """Take a new line behind another one (-1: before the first); one that two places of a page have is one."""
        added = self.come.setdefault(place, [])
        if all(words != new for words, _ in added):
            added.append((new, change))

    def changes(self) -> Iterator[Change]:
        """Yield every change."""
        yield from (change for _, _, change in self.reworded.values())
        yield from (change for _, change in self.gone.values())
        yield from (change for added in self.come.values() for _, change in added)

    def applied(self, written: str) -> str:
        """Return the field with the changes. Raises CannotRewriteError where the record is another by now."""
        if self.other:
            raise CannotRewriteError("one line was changed in two ways on this page; make them the same")
        words = leaf_words(written)
        if self._is_done(words):
            raise AlreadyThereError
        before = {place: old for place, (old, _, _) in self.reworded.items()}
        before |= {place: old for place, (old, _) in self.gone.items()}
        for place, old in before.items():
            self._filled(words, place, old, old)
        moved = {flat(old): words[place] for place, old in before.items()}
        new = {
            place: moved.get(flat(now)) or self._filled(words, place, old, now)
            for place, (old, now, _) in self.reworded.items()
        }
        come = {place: self._added(place, words, moved) for place in self.come}
        value = with_changes(written, new, tuple(self.gone), come)
        if value is None:
            raise CannotRewriteError(f"the field {self.name} is written in a way that only you can change")
        return value

    def _added(self, place: int, words: list[str], moved: Mapping[str, str]) -> list[str]:
        """Return the new lines behind a place, with words in braces that came there from elsewhere or from beside."""
        said = [moved.get(flat(each), each) for each, _ in self.come[place]]
        for beside in (place, place + 1):
            if beside in self.reworded:
                old, now, _ = self.reworded[beside]
                said = taken_along(words[beside], old, now, said)
        return said

    def says(self) -> str:
        """Return what changes in a sentence."""
        olds = [old for old, _, _ in self.reworded.values()]
        pairs = [trimmed(old, new) for old, new, _ in self.reworded.values() if new not in olds]
        said = [f"{shown(old)} becomes {shown(new)}" for old, new in pairs]
        said += [f"moved {shown(short(new))}" for _, new, _ in self.reworded.values() if new in olds]
        gone = [old for old, _ in self.gone.values()]
        come = [new for added in self.come.values() for new, _ in added]
        said += [f"moved {shown(short(old))}" for old in gone if old in come]
        said += [f"taken out {shown(short(old))}" for old in gone if old not in come]
        said += [f"added {shown(short(new))}" for new in come if new not in gone]
        return f"{self.name}: {'; '.join(said)}."

    @staticmethod
    def _filled(words: list[str], place: int, old: str, new: str) -> str:
        """Return new words of a line with the words in braces of a letter, such as ``{class}``, put back."""
        found = refilled(words[place], old, new) if place < len(words) else None
        if found is None:
            raise CannotRewriteError(CHANGED_SINCE)
        return found

    def _is_done(self, words: list[str]) -> bool:
        """Tell whether the record has every reworded and every new line, and the old ones no more."""
        new = [now for _, now, _ in self.reworded.values()] + [now for added in self.come.values() for now, _ in added]
        has_new = all(any(filled_in(each, now) is not None for each in words) for now in new)
        gone = [(old, now) for old, now, _ in self.reworded.values()] + [(old, "") for old, _ in self.gone.values()]
        return has_new and not any(_still_says(each, old, now) for each in words for old, now in gone)


def _still_says(written: str, old: str, new: str) -> bool:
    """Tell whether a record's line says the old words rather than the new ones.

    It may say both where words beside those in braces were taken out; what was filled in is shorter in the right one.
    """
    before, after = filled_in(written, old), filled_in(written, new)
    return before is not None and (after is None or len("".join(before)) <= len("".join(after)))
