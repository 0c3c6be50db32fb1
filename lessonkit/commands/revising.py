"""An edited lesson plan in Word and the edits of records that it asks for."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from pathlib import Path

from lessonkit.commands.edits import Edit
from lessonkit.commands.spans import flat, plain_words, split_by_fields, to_markdown
from lessonkit.commands.steps import leaf_words, with_changes
from lessonkit.document.lesson_flow import CUE_MARK
from lessonkit.loading.rewrite import CannotRewriteError, value_at
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.source.location import FieldPath, field_name
from lessonkit.writers.word.changes import Change, Item, item_changes, items, trimmed
from lessonkit.writers.word.line import Line
from lessonkit.writers.word.look_words import short, shown
from lessonkit.writers.word.record_of_export import Exported

_CLOCK = re.compile(r"\s*([0-9]{1,3})\s*[-\u2010-\u2015]\s*([0-9]{1,3})\s*")
_COUNT = re.compile(r"[0-9]+")


class NotALessonError(Exception):
    """The file is no lesson plan whose edits can be brought back; the message is a sentence without its subject."""


@dataclass(slots=True)
class Revision:
    """What a lesson plan asks for: edits of records, a sentence for each change that stays on the page."""

    edits: list[Edit] = field(default_factory=list)
    left: list[str] = field(default_factory=list)
    looks: int = 0


def revise(exported: Exported, now: Sequence[Line], library: Library) -> Revision:
    """Return the edits that an edited lesson plan asks for. Raises NotALessonError for any other document."""
    plan, lesson = _lesson_of(exported, library)
    return _Reviser(exported, items(exported.lines), items(now), _Records(library, plan, lesson)).revision()


def _lesson_of(exported: Exported, library: Library) -> tuple[Plan, int]:
    found = sorted({key for key in exported.keys.values() if key.startswith("plan/")})
    if not found:
        raise NotALessonError("is no lesson plan; only a lesson plan's changes can be brought back")
    if len(found) > 1:
        raise NotALessonError("is a binder; change the file of the one lesson instead")
    _, identity, _, number = found[0].split("/")
    if identity not in library.plans:
        raise NotALessonError(f"belongs to the plan {identity!r}, which is not in this curriculum")
    plan = library.plans[identity]
    place = next((place for place, each in enumerate(plan.lessons) if each.lesson == int(number)), None)
    if place is None:
        raise NotALessonError(f"is lesson {number} of a plan that has no such lesson any more")
    return plan, place


@dataclass(frozen=True, slots=True)
class _Records:
    """Where the fields of a lesson's keys stand: the file and the way in it."""

    library: Library
    plan: Plan
    lesson: int

    def place(self, key: str) -> tuple[str, FieldPath]:
        """Return the file and the field of a key. Raises CannotRewriteError for a record that has gone."""
        kind, identity, *rest = key.split("/")
        path: FieldPath = tuple(int(step) if step.isdigit() else step for step in rest)
        if kind == "lesson":
            return self.plan.path, ("lessons", self.lesson, *path)
        activity = self.library.activities.get(identity)
        if activity is None:
            raise CannotRewriteError(f"there is no activity {identity!r} any more")
        grade = self.library.schools[self.plan.school].school_class(self.plan.school_class).grade
        version = activity.version_for(grade)
        if version is not None and getattr(version, str(path[0]), None) is not None:
            path = ("versions", activity.versions.index(version), *path)
        return activity.path, path

    def value(self, key: str) -> str:
        """Return the words of a field as they are written now."""
        path, field = self.place(key)
        return str(value_at(_text(path), path, field))


def _text(path: str) -> str:
    try:
        return Path(path).read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise CannotRewriteError(f"{path} cannot be read") from None


class _Reviser:
    def __init__(self, exported: Exported, before: list[Item], after: list[Item], records: _Records) -> None:
        self._keys = exported.keys
        self._before = before
        self._after = after
        self._records = records
        self._made = Revision()
        self._steps: dict[str, _Steps] = {}
        self._minutes: dict[int, str] = {}
        self._setups: dict[int, str] = {}

    def revision(self) -> Revision:
        found = item_changes(self._before, self._after)
        come = {id(change.new) for change in found if change.kind == "come"}
        for change in found:
            try:
                self._take(change, come)
            except CannotRewriteError as why:
                self._leave(change, str(why))
        self._settle_steps()
        self._settle_minutes()
        return self._made

    def _take(self, change: Change, come: set[int]) -> None:
        if change.kind == "look":
            self._made.looks += 1
        elif change.kind == "come" and change.new is not None:
            self._add(change, change.new, come)
        elif change.old is not None:
            key = self._keys.get(change.old.line.key, "")
            if not key or key.startswith("plan/"):
                self._leave(change, "these words are worked out for the page and stand in no single record")
            elif change.kind == "gone":
                self._remove(change, change.old, key)
            elif change.new is not None:
                self._reword(change, key, change.old.line.words, change.new.line.words)

    def _reword(self, change: Change, key: str, old: str, new: str) -> None:
        fields = key.split(" ")
        if key.startswith("lesson/"):
            _, _, _, place, name = key.split("/")
            (self._minutes if name == "minutes" else self._setups)[int(place)] = new
        elif _is_step(key):
            steps, place_in_steps = key.rsplit("/", 1)
            self._steps_of(steps).reworded[int(place_in_steps)] = (old, new, change)
        elif all("/cues/" in each for each in fields):
            self._reword_cues(fields, old, new)
        else:
            self._reword_fields(change, fields, old, new)

    def _reword_fields(self, change: Change, fields: list[str], old: str, new: str) -> None:
        written = [self._records.value(each) for each in fields]
        parts = split_by_fields(old, new, written)
        if parts is None:
            if split_by_fields(old, old, written) is None:
                raise CannotRewriteError("the record has changed since this page was printed")
            raise CannotRewriteError("words of the page around the record's own were changed")
        for key, value, (before, after) in zip(fields, written, parts, strict=True):
            if flat(before) != flat(after):
                self._set(key, value, flat(before), flat(after))

    def _set(self, key: str, written: str, old: str, new: str) -> None:
        if not new:
            raise CannotRewriteError("its words were taken out; take the field out of the record if you mean it")
        if written.endswith(".") and not old.endswith("."):
            new = f"{new}."
        value = to_markdown(written, new)
        if value is None:
            raise CannotRewriteError("the stress in it cannot be kept; change the record yourself")
        path, field = self._records.place(key)
        says = f"{field_name(field)}: {shown(written)} becomes {shown(value)}."
        self._made.edits.append(Edit(path, field, "set", value, says))

    def _reword_cues(self, keys: list[str], old: str, new: str) -> None:
        written = [self._records.value(each) for each in keys]
        if flat(CUE_MARK.join(plain_words(cue) for cue in written)) != flat(old):
            raise CannotRewriteError("the record has changed since this page was printed")
        cues = [flat(cue) for cue in new.split(CUE_MARK.strip()) if flat(cue)]
        path, first = self._records.place(keys[0])
        before = [flat(plain_words(cue)) for cue in written]
        for tag, i1, i2, j1, j2 in SequenceMatcher(None, before, cues, autojunk=False).get_opcodes():
            if tag != "equal":
                self._cue_edits(path, first[:-1], written, (i1, i2), cues[j1:j2])

    def _cue_edits(self, path: str, cues: FieldPath, written: list[str], span: tuple[int, int], new: list[str]) -> None:
        start, end = span
        for place in range(start, end):
            if place - start < len(new):
                value = to_markdown(written[place], new[place - start]) or new[place - start]
                says = f"cue {place + 1}: {shown(written[place])} becomes {shown(value)}."
                self._made.edits.append(Edit(path, (*cues, place), "set", value, says))
            else:
                says = f"cue {place + 1} is taken out: {shown(written[place])}."
                self._made.edits.append(Edit(path, (*cues, place), "remove", says=says))
        for value in reversed(new[end - start :]):
            self._made.edits.append(Edit(path, (*cues, end), "insert", value, f"a cue is added: {shown(value)}."))

    def _remove(self, change: Change, item: Item, key: str) -> None:
        if key.startswith("lesson/") and item.begins.startswith("row"):
            _, _, _, place, _ = key.split("/")
            activities = self._records.plan.lessons[self._records.lesson].activities
            if int(place) >= len(activities):
                raise CannotRewriteError("the plan has changed since this page was printed")
            path, field = self._records.place(key)
            says = f"the activity {activities[int(place)].activity!r} is taken out of the lesson."
            self._made.edits.append(Edit(path, field[:-1], "remove", says=says))
        elif _is_step(key):
            steps, place = key.rsplit("/", 1)
            self._steps_of(steps).gone[int(place)] = (item.line.words, change)
        else:
            raise CannotRewriteError("a page shows what fits; take it out of the record if nobody shall read it")

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
        key = self._keys.get(self._after[before].line.key, "") if before >= 0 else ""
        after = next((each for each in self._after[place + 1 :] if id(each) not in come), None)
        following = self._keys.get(after.line.key, "") if after is not None else ""
        if _is_step(key):
            steps, step = key.rsplit("/", 1)
            self._steps_of(steps).come.setdefault(int(step), []).append((item.line.words, change))
        elif _is_step(following):
            self._steps_of(following.rsplit("/", 1)[0]).come.setdefault(-1, []).append((item.line.words, change))
        else:
            self._leave(change, "it does not stand among the steps of an activity")

    def _leave(self, change: Change, why: str) -> None:
        self._made.left.append(f"{change} It is not brought back: {why}.")

    def _steps_of(self, key: str) -> "_Steps":
        return self._steps.setdefault(key, _Steps())

    def _settle_steps(self) -> None:
        for key, steps in self._steps.items():
            try:
                path, field = self._records.place(key)
                written = self._records.value(key)
                value = steps.applied(written)
            except CannotRewriteError as why:
                for change in steps.changes():
                    self._leave(change, str(why))
                continue
            self._made.edits.append(Edit(path, field, "set", value, f"steps: {steps.says()}"))

    def _settle_minutes(self) -> None:
        slots = self._records.plan.lessons[self._records.lesson].activities
        for place in sorted(self._minutes.keys() | self._setups.keys()):
            clock = _CLOCK.fullmatch(self._minutes.get(place, self._clock_of(place)))
            count = _COUNT.search(self._setups[place]) if place in self._setups else None
            if clock is None or place >= len(slots) or (place in self._setups and count is None):
                words = self._minutes.get(place) or self._setups.get(place, "")
                self._made.left.append(f"{shown(words)} is not read as minutes; write them as in 9\u201319.")
                continue
            setup = int(count[0]) if count else slots[place].setup
            minutes = int(clock[2]) - int(clock[1]) - setup
            self._made.edits += self._slot_edits(place, minutes, setup)

    def _slot_edits(self, place: int, minutes: int, setup: int) -> Iterator[Edit]:
        slot = self._records.plan.lessons[self._records.lesson].activities[place]
        if minutes < 1:
            self._made.left.append(f"{slot.activity!r} would have no minutes left; its minutes stay as they are.")
            return
        for name, old, new in (("minutes", slot.minutes, minutes), ("setup", slot.setup, setup)):
            if old != new:
                field = ("lessons", self._records.lesson, "activities", place, name)
                says = f"{'set-up' if name == 'setup' else 'minutes'} of {slot.activity!r}: {old} becomes {new}."
                yield Edit(self._records.plan.path, field, "set", new, says)

    def _clock_of(self, place: int) -> str:
        """Return what the exported page said of the minutes of a place."""
        for item in self._before:
            if self._keys.get(item.line.key, "").endswith(f"/activities/{place}/minutes"):
                return item.line.words
        return ""


def _is_step(key: str) -> bool:
    return re.fullmatch(r"activity/[^/ ]+/steps/[0-9]+", key) is not None


@dataclass(slots=True)
class _Steps:
    """The changes of one activity's steps, by their place from 0."""

    reworded: dict[int, tuple[str, str, Change]] = field(default_factory=dict)
    gone: dict[int, tuple[str, Change]] = field(default_factory=dict)
    come: dict[int, list[tuple[str, Change]]] = field(default_factory=dict)

    def changes(self) -> Iterator[Change]:
        """Yield every change."""
        yield from (change for _, _, change in self.reworded.values())
        yield from (change for _, change in self.gone.values())
        yield from (change for added in self.come.values() for _, change in added)

    def applied(self, written: str) -> str:
        """Return the steps with the changes. Raises CannotRewriteError where the record is another by now."""
        words = leaf_words(written)
        known: Mapping[int, str] = {
            **{place: old for place, (old, _, _) in self.reworded.items()},
            **{place: old for place, (old, _) in self.gone.items()},
        }
        if any(place >= len(words) or words[place] != flat(old) for place, old in known.items()):
            raise CannotRewriteError("the record has changed since this page was printed")
        value = with_changes(
            written,
            {place: new for place, (_, new, _) in self.reworded.items()},
            tuple(self.gone),
            {place: [said for said, _ in added] for place, added in self.come.items()},
        )
        if value is None:
            raise CannotRewriteError("the steps are written in a way that only you can change")
        return value

    def says(self) -> str:
        """Return what changes in a sentence."""
        pairs = [trimmed(old, new) for old, new, _ in self.reworded.values()]
        said = [f"{shown(old)} becomes {shown(new)}" for old, new in pairs]
        said += [f"taken out {shown(short(old))}" for old, _ in self.gone.values()]
        said += [f"added {shown(short(new))}" for added in self.come.values() for new, _ in added]
        return f"{'; '.join(said)}."
