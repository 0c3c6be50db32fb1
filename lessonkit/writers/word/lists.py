"""Lists: every numbered list counts for itself, deeper lists stand further in, later paragraphs of an item line up."""

from collections.abc import Callable

from lessonkit.document.model import Block, ListBlock, Paragraph, Role
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.ledger import BULLETS, Ledger
from lessonkit.writers.word.numbering import DEEPEST, HIGHEST_START
from lessonkit.writers.word.paragraphs import paragraph_xml

Inside = Callable[[tuple[Block, ...], Frame], str]
"""Writes the blocks inside another block."""


def list_xml(block: ListBlock, frame: Frame, ledger: Ledger, inside: Inside) -> str:
    """Return the paragraphs of a list; an item that begins otherwise gets an empty paragraph for its number."""
    level = min(frame.depth, DEEPEST - 1)
    if block.start is None:
        style, number = "ListBullet", BULLETS
    else:
        style, number = "ListNumber", ledger.numbered_list(level, min(block.start, HIGHEST_START))
    mark = f'<w:numPr><w:ilvl w:val="{level}"/><w:numId w:val="{number}"/></w:numPr>'
    first = Frame(frame.width, style)
    below = frame.item(level + 1)
    pieces: list[str] = []
    for item in block.items:
        rest = item
        opening = Paragraph(())
        if item and isinstance(item[0], Paragraph) and item[0].role is not Role.CODE:
            opening, rest = item[0], item[1:]
        pieces.append(paragraph_xml(opening, first, ledger, number=mark))
        if rest:
            pieces.append(inside(rest, below))
    return "".join(pieces)
