"""An edited page in Word and the edits of records that it asks for."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from lessonkit.commands.changed_leaves import CHANGED_SINCE, AlreadyThereError, ChangedLeaves, is_leaf
from lessonkit.commands.edits import Edit
from lessonkit.commands.key_places import KeyPlaces
from lessonkit.commands.lesson_rows import LessonRows
from lessonkit.commands.parted_lines import regrouped
from lessonkit.commands.run_in_steps import (
    Shown,
    StepChange,
    head_and_steps,
    is_run_in,
    parted_alike,
    step_changes,
    steps_in,
    whole,
)
from lessonkit.commands.spans import flat, how_many, plain_words, split_by_fields, to_markdown
from lessonkit.commands.steps import has_inner_lists, leaf_words
from lessonkit.document.lesson_flow import CUE_MARK
from lessonkit.document.run_in import parted
from lessonkit.loading.rewrite import CannotRewriteError
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.source.location import FieldPath, field_name
from lessonkit.writers.word.changes import Change, Item, item_changes, items
from lessonkit.writers.word.line import Line
from lessonkit.writers.word.look_words import shown
from lessonkit.writers.word.record_of_export import ABOUT, Exported

_CLOCK = re.compile(r"\s*([0-9]{1,3})\s*[-\u2010-\u2015]\s*([0-9]{1,3})\s*")
_SHOWS_WHAT_FITS = "a page shows what fits; take it out of the record if nobody shall read it"
_COUNT = re.compile(r"[0-9]+")


class NotRevisableError(Exception):
    """Nothing of the file stands in a record; the message is a sentence without its subject."""


@dataclass(slots=True)
class Revision:
    """What a page asks for: edits of records, a sentence for each change that stays on the page.

    ``already`` counts those that the records have taken up before.
    """

    edits: list[Edit] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    looks: int = 0
    already: int = 0


def revise(exported: Exported, now: Sequence[Line], library: Library) -> Revision:
    """Return the edits that an edited page asks for. Raises NotRevisableError for one that no record can take up."""
    plan = _plan_of(exported, library)
    return _Reviser(exported, items(exported.lines), items(now), KeyPlaces(library, plan)).revision()


def _plan_of(exported: Exported, library: Library) -> Plan | None:
    """Return the plan that a page was made for, None for a page of no plan."""
    if all(name == ABOUT or key.startswith("plan/") for name, key in exported.keys.items()):
        raise NotRevisableError(
            "is worked out from many records, and nothing on it can be brought back; "
            "change the records or the plan and export it again, or keep this file as it is"
        )
    found = sorted({key.split("/")[1] for key in exported.keys.values() if key.startswith("plan/")})
    if not found:
        return None
    if found[0] not in library.plans:
        raise NotRevisableError(f"belongs to the plan {found[0]!r}, which is not in this curriculum")
    return library.plans[found[0]]


class _Reviser:
    def __init__(self, exported: Exported, before: list[Item], after: list[Item], records: KeyPlaces) -> None:
        self._keys = exported.keys
        self._before = before
        self._after = after
        self._records = records
        self._rows = LessonRows(before, exported.keys, records)
        self._made = Revision()
        said = Counter(item.line.words for item in before)
        self._by_words = {
            item.line.words: key
            for item in before
            if (key := self._keys.get(item.line.key)) and said[item.line.words] == 1
        }
        self._leaves: dict[str, ChangedLeaves] = {}
        self._emptied: dict[str, Change] = {}
        self._minutes: dict[str, str] = {}
        self._setups: dict[str, str] = {}

    def revision(self) -> Revision:
        changed = item_changes(self._before, self._after)
        told, found = regrouped(changed, self._before, self._after, self._lines_of)
        for change, why in told:
            self._leave(change, why)
        come = {id(change.new) for change in changed if change.kind == "come"}
        for change in found:
            try:
                self._take(change, come)
            except AlreadyThereError:
                self._made.already += 1
            except CannotRewriteError as why:
                self._leave(change, str(why))
        self._settle_leaves()
        self._settle_minutes()
        self._settle_conflicts()
        return self._made

    def _take(self, change: Change, come: set[int]) -> None:
        if change.kind == "look":
            self._made.looks += 1
        elif change.kind == "come" and change.new is not None:
            self._add(change, change.new, come)
        elif change.old is not None:
            key = self._keys.get(change.old.line.key, "")
            if not key and change.old.line.kind != "p":
                self._leave(change, "records hold no drawings, tables, notes or furniture of the page")
            elif not key or key.startswith("plan/"):
                self._leave(change, "these words are worked out for the page and stand in no single record")
            elif change.kind == "gone":
                self._remove(change, change.old, key)
            elif change.new is not None:
                self._reword(change, key, change.old.line.words, change.new.line.words)

    def _reword(self, change: Change, key: str, old: str, new: str) -> None:
        if flat(old) == flat(new):
            raise CannotRewriteError("only spaces or the ends of lines differ, which records do not hold")
        fields = key.split(" ")
        if key.startswith("lesson/"):
            slot, name = key.rsplit("/", 1)
            (self._minutes if name == "minutes" else self._setups)[slot] = new
        elif is_run_in(key, old):
            self._reword_steps(change, key, old, new)
        elif is_leaf(key):
            leaves, place = key.rsplit("/", 1)
            self._leaves_of(leaves).reword(int(place), old, new, change)
        elif parts := head_and_steps(key, old):
            head, steps = parted_alike(parts, new)
            if flat(parts.steps) != flat(steps):
                self._reword_steps(change, parts.steps_key, parts.steps, steps)
            if flat(parts.head) != flat(head):
                self._reword_fields(change, parts.head_keys, parts.head.strip(), head.strip())
        elif all("/cues/" in each for each in fields) and self._is_cues(fields, old):
            self._reword_cues(fields, new)
        elif all("/cues/" in each for each in fields) and self._is_cues(fields, new):
            raise AlreadyThereError
        else:
            self._reword_fields(change, fields, old, new)

    def _reword_steps(self, change: Change, key: str, old: str, new: str) -> None:
        field = key.rsplit("/", 1)[0].rpartition(" ")[2]
        value = self._records.value(field)
        found = list(step_changes(key, old, new))
        places = {
            flat(step): int(each.rsplit("/", 1)[1]) for step, each in zip(parted(old), key.split(" "), strict=True)
        }
        page = Shown(places, has_inner_lists(value), {flat(each.new or "") for each in found})
        for each in found:
            try:
                for step in whole(each, page, leaf_words(value)):
                    self._take_step(step, field, change)
            except AlreadyThereError:
                self._made.already += 1
            except CannotRewriteError as why:
                self._leave(change, str(why))
        if not flat(new):
            self._emptied[field] = change
        if not found:
            raise CannotRewriteError("only numbers or dots of the page differ, which records do not hold")

    def _take_step(self, step: StepChange, field: str, change: Change) -> None:
        leaves = self._leaves_of(field)
        if step.old is None:
            leaves.add(step.place, step.new or "", change)
        elif step.new is None:
            leaves.remove(step.place, step.old, change)
        else:
            leaves.reword(step.place, step.old, step.new, change)

    def _reword_fields(self, change: Change, fields: list[str], old: str, new: str) -> None:
        written = [self._records.value(each) for each in fields]
        stood, stand = (how_many(words, written) for words in (old, new))
        if not stood or stand > stood:
            raise AlreadyThereError if stand else CannotRewriteError(CHANGED_SINCE)
        parts = split_by_fields(old, new, written)
        if parts is None:
            parts = split_by_fields(old, new, written, loosely=True)
            around = "words of the page around the record's own were changed"
            if parts is None or all(flat(before) == flat(after) for before, after in parts):
                raise CannotRewriteError(around if stood == len(written) else CHANGED_SINCE)
            self._made.left.append(f"{change} Of this the record's own words are brought back: {around}, too.")
        for key, value, (before, after) in zip(fields, written, parts, strict=True):
            if flat(before) != flat(after):
                try:
                    if "/cues/" in key and CUE_MARK.strip() in after:
                        self._reword_cues([key], after)
                        continue
                    self._set(key, value, flat(before), flat(after))
                except AlreadyThereError:
                    self._made.already += 1
                except CannotRewriteError as why:
                    self._leave(change, str(why))

    def _set(self, key: str, written: str, old: str, new: str) -> None:
        if not new:
            raise CannotRewriteError("its words were taken out; take the field out of the record if you mean it")
        if written.endswith(".") and not old.endswith(".") and not new.endswith("."):
            new = f"{new}."
        value = to_markdown(written, new)
        if value is None:
            raise CannotRewriteError("the stress in it cannot be kept; change the record yourself")
        path, field = self._records.place(key)
        says = f"{field_name(field)}: {shown(written)} becomes {shown(value)}."
        self._made.edits.append(Edit(path, field, "set", value, says))

    def _is_cues(self, keys: list[str], old: str) -> bool:
        """Tell whether a line holds cues of the record and nothing else."""
        return flat(CUE_MARK.join(plain_words(self._records.value(each)) for each in keys)) == flat(old)

    def _reword_cues(self, keys: list[str], new: str) -> None:
        written = [self._records.value(each) for each in keys]
        cues = [flat(cue) for cue in new.split(CUE_MARK.strip()) if flat(cue)]
        if len(cues) >= len(keys) and cues == self._cues_from(keys[0], len(cues)):
            raise AlreadyThereError
        path, first = self._records.place(keys[0])
        before = [flat(plain_words(cue)) for cue in written]
        for tag, i1, i2, j1, j2 in SequenceMatcher(None, before, cues, autojunk=False).get_opcodes():
            if tag != "equal":
                self._cue_edits(path, first, written, (i1, i2), cues[j1:j2])

    def _cues_from(self, key: str, count: int) -> list[str]:
        """Return so many cues of the record from one on, as a page shows them; none where it has fewer."""
        field, _, first = key.rpartition("/")
        try:
            cues = [self._records.value(f"{field}/{int(first) + place}") for place in range(count)]
        except CannotRewriteError:
            return []
        return [flat(plain_words(cue)) for cue in cues]

    def _cue_edits(self, path: str, first: FieldPath, old: list[str], span: tuple[int, int], new: list[str]) -> None:
        """Make edits of the cues in a span; ``first`` is where the first of the ``old`` ones stands."""
        *cues, begin = first
        start, end = span
        for place in range(start, end):
            number = int(begin) + place
            if place - start < len(new):
                value = to_markdown(old[place], new[place - start]) or new[place - start]
                says = f"cue {number + 1}: {shown(old[place])} becomes {shown(value)}."
                self._made.edits.append(Edit(path, (*cues, number), "set", value, says))
            else:
                says = f"cue {number + 1} is taken out: {shown(old[place])}."
                self._made.edits.append(Edit(path, (*cues, number), "remove", says=says))
        behind = int(begin) + end
        for value in reversed(new[end - start :]):
            self._made.edits.append(Edit(path, (*cues, behind), "insert", value, f"a cue is added: {shown(value)}."))

    def _remove(self, change: Change, item: Item, key: str) -> None:
        if key.startswith("lesson/") and item.begins.startswith("row"):
            stands = self._rows.stands(key)
            if stands is None:
                raise CannotRewriteError("the plan has changed since this page was printed")
            says = f"the activity {stands.slot.activity!r} is taken out of the lesson."
            self._made.edits.append(Edit(stands.path, stands.field, "remove", says=says))
        elif is_run_in(key, item.line.words):
            self._reword_steps(change, key, item.line.words, "")
        elif is_leaf(key):
            leaves, place = key.rsplit("/", 1)
            self._leaves_of(leaves).remove(int(place), item.line.words, change)
        else:
            raise CannotRewriteError(_SHOWS_WHAT_FITS)

    def _add(self, change: Change, item: Item, come: set[int]) -> None:
        place = next(place for place, each in enumerate(self._after) if each is item)
        if item.line.kind != "p" or not item.line.words.strip():
            if item.line.words.strip() or item.line.kind not in ("p",):
                self._leave(change, "a record has no place for it")
            return
        if item.begins.startswith("row"):
            self._leave(change, "a new row needs an activity of its own: write one with lessonkit new activity")
            return
        before = place - 1
        while before >= 0 and id(self._after[before]) in come:
            before -= 1
        key = self._key_of(self._after[before]) if before >= 0 else ""
        after = next((each for each in self._after[place + 1 :] if id(each) not in come), None)
        following = self._key_of(after) if after is not None else ""
        last, first = key.split(" ")[-1], following.split(" ")[0]
        if is_leaf(last):
            leaves, leaf = last.rsplit("/", 1)
            for words in steps_in(item.line.words, beside_run_in=last != key):
                self._leaves_of(leaves).add(int(leaf), words, change)
        elif is_leaf(first):
            leaves, leaf = first.rsplit("/", 1)
            for words in steps_in(item.line.words, beside_run_in=first != following):
                self._leaves_of(leaves).add(int(leaf) - 1, words, change)
        else:
            self._leave(change, "it does not stand among the steps of an activity or the lines of a letter")

    def _key_of(self, item: Item) -> str:
        """Return the key of a line of the changed page: of the old line with its words, as words move; else its own."""
        return self._by_words.get(item.line.words) or self._keys.get(item.line.key, "")

    def _lines_of(self, item: Item) -> str:
        """Return the field whose lines a line of the page holds and nothing else; empty for any other line."""
        fields = self._keys.get(item.line.key, "").split(" ")
        return fields[0].rsplit("/", 1)[0] if all(map(is_leaf, fields)) else ""

    def _leave(self, change: Change, why: str) -> None:
        self._made.left.append(f"{change} It is not brought back: {why}.")

    def _leaves_of(self, key: str) -> ChangedLeaves:
        return self._leaves.setdefault(key, ChangedLeaves(key.rsplit("/", 1)[1]))

    def _settle_leaves(self) -> None:
        for key, leaves in self._leaves.items():
            try:
                if key in self._emptied and not leaves.come and not leaves.reworded:
                    raise CannotRewriteError(_SHOWS_WHAT_FITS)
                path, field = self._records.place(key)
                value = leaves.applied(self._records.value(key))
            except AlreadyThereError:
                self._made.already += len(list(leaves.changes()))
                continue
            except CannotRewriteError as why:
                for change in dict.fromkeys(leaves.changes()):
                    self._leave(change, str(why))
                continue
            self._made.edits.append(Edit(path, field, "set", value, leaves.says()))

    def _settle_minutes(self) -> None:
        for key in sorted(self._minutes.keys() | self._setups.keys()):
            words = self._minutes.get(key) or self._setups.get(key, "")
            try:
                stands = self._rows.stands(key)
            except AlreadyThereError:
                stands = None
            clock = _CLOCK.fullmatch(self._minutes.get(key, self._rows.clock(key)))
            count = _COUNT.search(self._setups[key]) if key in self._setups else None
            if stands is None:
                self._made.left.append(f"{shown(words)} is of an activity that the plan has no more at this place.")
                continue
            if clock is None or (key in self._setups and count is None):
                self._made.left.append(f"{shown(words)} is not read as minutes; write them as in 9\u201319.")
                continue
            setup = int(count[0]) if count else stands.slot.setup
            minutes = int(clock[2]) - int(clock[1]) - setup
            edits = list(stands.edits(minutes, setup)) if minutes >= 1 else []
            self._made.edits += edits
            if minutes < 1:
                activity = stands.slot.activity
                self._made.left.append(f"{activity!r} would have no minutes left; its minutes stay as they are.")
            elif not edits:
                self._made.already += 1

    def _settle_conflicts(self) -> None:
        """Leave out edits that would make two things of one field, as where a page shows it in two places."""
        by_field: dict[tuple[str, FieldPath], list[Edit]] = {}
        for edit in dict.fromkeys(self._made.edits):
            if edit.how != "insert":
                by_field.setdefault((edit.path, edit.field), []).append(edit)
        twice = {edit for edits in by_field.values() if len(edits) > 1 for edit in edits}
        self._made.edits = [edit for edit in self._made.edits if edit not in twice]
        why = "It is not brought back: this page says it in two ways; make them the same."
        self._made.left += [f"{edit} {why}" for edit in sorted(twice, key=lambda edit: (edit.path, edit.says))]
