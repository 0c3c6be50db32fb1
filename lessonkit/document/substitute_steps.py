"""The steps of an activity one behind the other, whole or with their first sentences."""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from lessonkit.document.keys import activity_key, leaf_keyed
from lessonkit.document.model import Block, Inline, ListBlock, Paragraph, Strong, Text, plain, text
from lessonkit.document.pieces import NO_BREAK, markdown, together
from lessonkit.records.activity import Activity

ELLIPSIS = "\u2026"
"""What stands for words that are left out."""
_END = re.compile(r"(?<=[.?!\u2026])\s+(?=[A-Z\u201c])")
_SHORT = 28
"""Letters of a beginning that says too little without the sentence behind it, such as ``Spilled?``."""


def steps_lengths(activity: Activity) -> tuple[tuple[int, ...], ...]:
    """Return the lengths of the sentences of each step, in letters."""
    return _lengths(activity.steps)


def run_in(activity: Activity, shown: Sequence[int]) -> tuple[Inline, ...]:
    """Return so many sentences of each step, numbered, one step behind the other; three dots stand for the others."""
    pieces: list[tuple[Inline, ...]] = []
    whole = True
    for number, (step, count) in enumerate(zip(_steps(activity.steps), shown, strict=True), 1):
        goes_on, whole = whole, count == len(step)
        if count:
            mark = () if whole else text(f"{NO_BREAK}{ELLIPSIS}")
            pieces.append((Strong(text(f"{number}.{NO_BREAK}")), *together(step[:count]), *mark))
        elif goes_on:
            pieces.append(text(ELLIPSIS))
    return together(pieces)


def shown_keys(activity: Activity, shown: Sequence[int]) -> tuple[str, ...]:
    """Return for each step that is shown the key of the first of its lines in the record; none where one has no key."""
    keys = [_keys_of(item) for item in _items(leaf_keyed(markdown(activity.steps), activity_key(activity.id, "steps")))]
    return tuple(each[0] for each, count in zip(keys, shown, strict=True) if count) if all(keys) else ()


@lru_cache(maxsize=200)
def _lengths(steps: str) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(len(plain(sentence)) for sentence in step) for step in _steps(steps))


@lru_cache(maxsize=200)
def _steps(steps: str) -> tuple[tuple[tuple[Inline, ...], ...], ...]:
    """Return the sentences of each step."""
    return tuple(tuple(_joined(_sentences(_of_item(item)))) for item in _items(markdown(steps)))


def _items(blocks: tuple[Block, ...]) -> Iterator[tuple[Block, ...]]:
    """Yield the blocks of each step: of an item of a list, or a paragraph."""
    for block in blocks:
        if isinstance(block, ListBlock):
            yield from block.items
        elif isinstance(block, Paragraph):
            yield (block,)


def _keys_of(item: tuple[Block, ...]) -> list[str]:
    """Return the keys of a step's lines."""
    inner = [_keys_of(each) for block in item if isinstance(block, ListBlock) for each in block.items]
    own = [block.key for block in item if isinstance(block, Paragraph) and block.key]
    return [*own, *(key for keys in inner for key in keys)]


def _of_item(item: tuple[Block, ...]) -> tuple[Inline, ...]:
    """Return the words of a list's item, deeper lists run in."""
    words: list[tuple[Inline, ...]] = []
    for block in item:
        if isinstance(block, ListBlock):
            words += [_of_item(each) for each in block.items]
        elif isinstance(block, Paragraph):
            words.append(block.content)
    return together(words)


def _sentences(step: tuple[Inline, ...]) -> Iterator[tuple[Inline, ...]]:
    """Yield the sentences of a step; one ends in plain words, or with stressed ones before plain ones."""
    sentence: list[Inline] = []
    for piece in step:
        if not isinstance(piece, Text):
            sentence.append(piece)
            continue
        said = f"{plain(tuple(sentence))[-1:]}{piece.text}"
        first, *others = _END.split(said)
        first = first[len(said) - len(piece.text) :]
        if first:
            sentence.append(Text(first))
        for other in others:
            yield tuple(sentence)
            sentence = [Text(other)] if other else []
    if sentence:
        yield tuple(sentence)


def _joined(sentences: Iterable[tuple[Inline, ...]]) -> Iterator[tuple[Inline, ...]]:
    """Put a beginning that says too little together with the sentence behind it."""
    begun: list[tuple[Inline, ...]] = []
    is_first = True
    for sentence in sentences:
        begun.append(sentence)
        if is_first and sum(len(plain(each)) for each in begun) < _SHORT:
            continue
        yield together(begun)
        begun, is_first = [], False
    if begun:
        yield together(begun)
