"""Steps that stand one behind the other in a paragraph of a page, and what became of each of them."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from itertools import zip_longest
from typing import NamedTuple

from lessonkit.commands.changed_leaves import CHANGED_SINCE, AlreadyThereError, is_leaf
from lessonkit.commands.spans import flat, split_by_fields
from lessonkit.document.run_in import ELLIPSIS, beginnings, marked, parted
from lessonkit.loading.rewrite import CannotRewriteError

_DOTS = "three dots stand there for words of the record that the page leaves out; change the record itself"
_NESTED = "its steps have lists of their own, which only you can change"
_TYPED = re.compile(r"\s*(?:[0-9]{1,3}[.)]|\u2022)\s+")


class StepChange(NamedTuple):
    """A step by the place of its line (from 0) before and now: None before for one that comes behind that place.

    None now for one that was taken out; ``at_end`` for one behind three dots, which stand for further steps.
    """

    place: int
    old: str | None
    new: str | None
    at_end: bool = False


class HeadAndSteps(NamedTuple):
    """A line's words before its steps, and the steps, each with the keys of its fields."""

    head: str
    head_keys: list[str]
    steps: str
    steps_key: str


def is_run_in(key: str, words: str) -> bool:
    """Tell whether a line of a page with a key holds steps one behind the other."""
    fields = key.split(" ")
    return all(map(is_leaf, fields)) and len(parted(words)) == len(fields)


def head_and_steps(key: str, words: str) -> HeadAndSteps | None:
    """Part a line where its steps begin; None for a line without steps, or with nothing before them."""
    fields = key.split(" ")
    head = [field for field in fields if not is_leaf(field)]
    count = len(fields) - len(head)
    begins = beginnings(words)[-count:]
    if not head or not count or len(begins) < count or any(map(is_leaf, fields[: len(head)])):
        return None
    return HeadAndSteps(words[: begins[0]], head, words[begins[0] :].lstrip(), " ".join(fields[len(head) :]))


def parted_alike(old: HeadAndSteps, new: str) -> tuple[str, str]:
    """Part new words where the steps began before. Raises CannotRewriteError where that cannot be told."""
    number = marked(old.steps)[0][0]
    for start in beginnings(new):
        if marked(new[start:].lstrip())[0][0] == number or flat(new[:start]) == flat(old.head):
            return new[:start], new[start:].lstrip()
    if flat(new) == flat(old.head):
        return new, ""
    raise CannotRewriteError("the number of the first step is gone, so that its beginning cannot be told")


class Shown(NamedTuple):
    """The steps of a page as it was exported: where each stands, whether some hold several lines of the record.

    ``arrived`` are the changed page's steps that stand where others stood.
    """

    places: Mapping[str, int]
    nested: bool
    arrived: Collection[str]


def whole(change: StepChange, page: Shown, written: Sequence[str]) -> list[StepChange]:
    """Return a change by the record's lines, ``written``, with the words that three dots stand for put back.

    Raises CannotRewriteError where it cannot be told what becomes of the words left out, and AlreadyThereError where
    the record has the change.
    """
    old, new = flat(change.old or ""), flat(change.new or "")
    is_moved = new in page.places
    if page.nested and (is_moved or not old or not new):
        raise CannotRewriteError(_NESTED)
    if not is_moved and new.count(ELLIPSIS) > old.count(ELLIPSIS):
        raise CannotRewriteError(_DOTS)
    line = _line(new, page.places[new], written) if is_moved else change.new
    if change.old is None:
        return [StepChange(len(written) - 1 if change.at_end else change.place, None, line)]
    is_cut = old.endswith(ELLIPSIS) and old not in written
    if is_cut and not is_moved and not new.endswith(ELLIPSIS) and old not in page.arrived:
        raise CannotRewriteError(_DOTS)
    if is_moved or not new:
        return [change._replace(old=_line(old, change.place, written) if is_cut else change.old, new=line)]
    return list(_by_lines(change, is_cut, written)) if is_cut or page.nested else [change]


def _line(step: str, place: int, written: Sequence[str]) -> str:
    """Return the record's line that a step of the page shows, whole or cut, and that stands at a place."""
    begun = flat(step.removesuffix(ELLIPSIS))
    line = written[place] if place < len(written) else ""
    if line != step and not (step.endswith(ELLIPSIS) and line.startswith(begun)):
        raise _changed_since(begun, written)
    return line


def _changed_since(now: str, written: Sequence[str]) -> CannotRewriteError:
    """Return why a record does not say what the page did: it has the new words already, or quite other ones."""
    return AlreadyThereError() if any(line.startswith(now) for line in written) else CannotRewriteError(CHANGED_SINCE)


def _by_lines(change: StepChange, is_cut: bool, written: Sequence[str]) -> Iterator[StepChange]:
    """Yield the lines of a step that are reworded, each whole."""
    begun, now = (flat((words or "").removesuffix(ELLIPSIS) if is_cut else words or "") for words in change[1:3])
    if not now:
        raise CannotRewriteError(_DOTS)
    lines = list(_lines_of(begun, change.place, is_cut, written))
    if not lines or (is_cut and now.startswith(begun) and written[change.place].startswith(now)):
        raise _changed_since(now, written)
    parts = [(begun, now)] if len(lines) == 1 else split_by_fields(begun, now, [said for _, said in lines])
    if parts is None or not all(after for _, after in parts):
        raise CannotRewriteError(_NESTED)
    for (place, said), (before, after) in zip(lines, parts, strict=True):
        if flat(before) != flat(after):
            line = written[place]
            yield StepChange(place, line, f"{flat(after)}{line.removeprefix(said)}")


def _lines_of(step: str, first: int, is_cut: bool, written: Sequence[str]) -> Iterator[tuple[int, str]]:
    """Yield the places of the lines that a step holds, with what it shows of each; nothing where they say otherwise."""
    found: list[tuple[int, str]] = []
    rest = step
    for place, line in enumerate(written[first:], first):
        said = line if rest.startswith(line) else rest if is_cut and line.startswith(rest) else ""
        if not said:
            return
        found.append((place, said))
        rest = rest[len(said) :].strip()
        if not rest:
            yield from found
            return


def steps_in(words: str, *, beside_run_in: bool) -> list[str]:
    """Return the steps of a new line; beside a line of steps it may hold several, and a number that was typed."""
    if not beside_run_in:
        return [words]
    found = _TYPED.match(words)
    return parted(words) or [words[found.end() :] if found else words]


def step_changes(key: str, old: str, new: str) -> Iterator[StepChange]:
    """Yield what became of the steps of a line; a number typed behind the last one before it begins a new step."""
    places = [int(field.rsplit("/", 1)[1]) for field in key.split(" ")]
    before = parted(old)
    after = [flat(step) for step in _steps(new, {flat(step) for step in before}) if flat(step)]
    behind_dots = old.rstrip().endswith(ELLIPSIS) and not new.rstrip().endswith(ELLIPSIS)
    behind_dots = behind_dots and new.count(ELLIPSIS) == old.count(ELLIPSIS)
    same = SequenceMatcher(None, [flat(step) for step in before], after, autojunk=False)
    for tag, i1, i2, j1, j2 in same.get_opcodes():
        if tag == "equal":
            continue
        behind = places[min(i2, len(places)) - 1] if i2 else places[0] - 1
        for place, now in zip_longest(range(i1, i2), after[j1:j2]):
            if place is None:
                yield StepChange(behind, None, now, behind_dots and i2 == len(before))
            else:
                yield StepChange(places[place], before[place], now)


def _steps(words: str, known: set[str]) -> Iterator[str]:
    """Yield the steps of a changed line: those with their printed numbers, and those that were typed behind them."""
    for number, step in marked(words):
        if flat(step) in known or number is None:
            yield step
            continue
        yield from _typed(step, number)


def _typed(step: str, number: int) -> Iterator[str]:
    """Yield a step and those behind it whose numbers, typed by hand, follow upon its own."""
    while found := re.search(rf"(?<=\S)\s+{number + 1}[.)]\s+", step):
        yield step[: found.start()].removesuffix(f" {ELLIPSIS}")
        step, number = step[found.end() :], number + 1
    yield step
