"""Steps that stand one behind the other in a paragraph of a page, and what became of each of them."""

import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from itertools import zip_longest
from typing import NamedTuple

from lessonkit.commands.changed_leaves import is_leaf
from lessonkit.commands.spans import flat
from lessonkit.document.run_in import marked, parted

_TYPED = re.compile(r"\s*(?:[0-9]{1,3}[.)]|\u2022)\s+")


class StepChange(NamedTuple):
    """A step by the place of its line (from 0) before and now: None before for one that comes behind that place.

    None now for one that was taken out.
    """

    place: int
    old: str | None
    new: str | None


def is_run_in(key: str, words: str) -> bool:
    """Tell whether a line of a page with a key holds steps one behind the other."""
    fields = key.split(" ")
    return all(map(is_leaf, fields)) and len(parted(words)) == len(fields)


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
    same = SequenceMatcher(None, [flat(step) for step in before], after, autojunk=False)
    for tag, i1, i2, j1, j2 in same.get_opcodes():
        if tag == "equal":
            continue
        behind = places[min(i2, len(places)) - 1] if i2 else places[0] - 1
        for place, now in zip_longest(range(i1, i2), after[j1:j2]):
            if place is None:
                yield StepChange(behind, None, now)
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
        yield step[: found.start()]
        step, number = step[found.end() :], number + 1
    yield step
