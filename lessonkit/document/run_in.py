"""Steps run in: a list as one paragraph, for pages that have no room for a line of its own for every step.

Every item keeps its number, and the paragraph the keys of them all.
"""

import re
from dataclasses import replace

from lessonkit.document.keys import joint_key
from lessonkit.document.model import Block, Inline, ListBlock, Paragraph, Role, Strong, Text, plain, text
from lessonkit.document.pieces import NO_BREAK

ELLIPSIS = "\u2026"
_BULLET = "\u2022"
_MARK = re.compile(f"(?:^| )(?:([0-9]+)\\.|{_BULLET}){NO_BREAK}")


def run_in(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """Return blocks with every list as a paragraph; a list with more than a paragraph in an item stays as it is."""
    return tuple(_as_paragraph(block) if isinstance(block, ListBlock) else block for block in blocks)


def parted(words: str) -> list[str]:
    """Return the items that the words of such a paragraph hold, without their numbers; none for any other paragraph."""
    return [item for _, item in marked(words)] if _MARK.match(words) else []


def beginnings(words: str) -> list[int]:
    """Return where the items of such a paragraph begin, with their numbers."""
    return [mark.start() for mark in _MARK.finditer(words)]


def marked(words: str) -> list[tuple[int | None, str]]:
    """Return the items of such a paragraph, each with its number; None for a bullet, or for words before the first."""
    marks = list(_MARK.finditer(words))
    first = words[: marks[0].start()] if marks else words
    ends = [*(mark.start() for mark in marks[1:]), len(words)]
    found: list[tuple[int | None, str]] = [(None, first)] if first.strip() else []
    for mark, end in zip(marks, ends, strict=False):
        number = mark[1]
        item = words[mark.end() : end].removesuffix(f" {ELLIPSIS}")
        found.append((int(number) if number else None, item))
    return found


def _as_paragraph(block: ListBlock) -> Block:
    items = [item[0] for item in block.items if len(item) == 1 and isinstance(item[0], Paragraph)]
    if len(items) < len(block.items) or any(item.role is Role.CODE for item in items):
        return block
    content: list[Inline] = []
    for number, item in enumerate(items):
        mark = _BULLET if block.start is None else f"{block.start + number}."
        content += [*((Text(" "),) if number else ()), Strong(text(f"{mark}{NO_BREAK}")), *item.content]
    return Paragraph(tuple(content), items[0].role, joint_key(item.key for item in items if item.key))


def without_last(blocks: tuple[Block, ...], count: int) -> tuple[Block, ...]:
    """Return blocks whose list lacks its last items; three dots behind those before stand for them."""
    return tuple(_cut(block, count) if isinstance(block, ListBlock) and count else block for block in blocks)


def items_of(blocks: tuple[Block, ...]) -> int:
    """Return how many items the list among blocks has; 0 where there is no list, or more than one."""
    lists = [block for block in blocks if isinstance(block, ListBlock)]
    return len(lists[0].items) if len(lists) == 1 else 0


def length_of(blocks: tuple[Block, ...]) -> int:
    """Return how many letters blocks have."""
    return sum(
        len(plain(block.content))
        if isinstance(block, Paragraph)
        else sum(map(length_of, block.items))
        if isinstance(block, ListBlock)
        else 0
        for block in blocks
    )


def _cut(block: ListBlock, count: int) -> ListBlock:
    *shown, (*inner, last) = block.items[:-count]
    if isinstance(last, Paragraph):
        last = replace(last, content=(*last.content, Strong(text(f" {ELLIPSIS}"))))
    return replace(block, items=(*shown, (*inner, last)))
