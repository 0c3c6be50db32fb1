"""How many lines a paragraph takes in a width, and how tall each is."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any, NamedTuple
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.page import EMU_PER_TWIP
from lessonkit.writers.word.pagination_letters import LINE, UNITS, fixed_units, units
from lessonkit.writers.word.pagination_looks import Look, value, w
from lessonkit.writers.word.resolved import whole

_DRAWN = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}extent"
_CHOICE = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Choice"
_ALTERNATIVE = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"
_HOLDS_RUNS = frozenset((w("hyperlink"), w("sdt"), w("sdtContent")))
_PIECES = re.compile("[^ \u2013\u2014-]+|[\u2013\u2014-]+| +")
"""Words, dashes and spaces. A line may end after a space, and after a dash that no digit follows."""
_DEPTH = 512
"""How far letters reach below the base line, in units of the font: a drawing stands on that line."""


class Words(NamedTuple):
    """What cannot be parted: its width, its tallest letters in half points or its own height as a drawing.

    ``gap`` is the space behind it, which may hang out of a line; ``ends`` a line break behind it.
    """

    width: float
    size: int
    gap: float = 0.0
    ends: bool = False
    tall: int = 0


def line_heights(paragraph: Xml.Element, look: Look, marks: Mapping[str, Mapping[str, Any]], width: int) -> list[int]:
    """Return the heights of a paragraph's lines in twentieths of a point; an empty paragraph has one."""
    room = max(width - look.left - look.right, 100)
    words = _joined(list(_pieces(paragraph, look, marks)))
    lines: list[int] = []
    filled, size, tall = 0.0, 0, 0
    for word in words:
        if filled and filled + word.width > room:
            lines.append(_height(look, size, tall))
            filled, size, tall = 0.0, 0, 0
        while word.width > room and not word.tall:
            lines.append(_height(look, word.size, 0))
            word = word._replace(width=word.width - room)  # noqa: PLW2901 - what is left of a word wider than the line
        filled, size, tall = filled + word.width + word.gap, max(size, word.size), max(tall, word.tall)
        if word.ends:
            lines.append(_height(look, size, tall))
            filled, size, tall = 0.0, 0, 0
    if filled or not lines:
        lines.append(_height(look, size, tall))
    return lines


def _height(look: Look, size: int, tall: int) -> int:
    if look.exact:
        return look.line
    letters = (size or look.size) * 10 * LINE / UNITS * look.tall
    if tall:
        letters = max(letters, tall + (size or look.size) * 10 * _DEPTH / UNITS)
    return round(letters * look.line / 240)


def _joined(pieces: list[Words]) -> Iterator[Words]:
    """Join pieces that nothing parts, such as a word and the comma behind its stress."""
    open_word: Words | None = None
    for piece in pieces:
        if open_word is not None:
            piece = Words(  # noqa: PLW2901 - the joined piece takes its place
                open_word.width + piece.width,
                max(open_word.size, piece.size),
                piece.gap,
                piece.ends,
                max(open_word.tall, piece.tall),
            )
        if piece.gap or piece.ends or piece.tall:
            open_word = None
            yield piece
        else:
            open_word = piece
    if open_word is not None:
        yield open_word


def _pieces(paragraph: Xml.Element, look: Look, marks: Mapping[str, Mapping[str, Any]]) -> Iterator[Words]:
    """Yield the pieces of a paragraph. What stands before a tab in a hanging indent takes no room of the line."""
    held: list[Words] = []
    hanging = look.hanging > 0
    for run in _runs(paragraph):
        style = value(run.find(f"{w('rPr')}/{w('rStyle')}"))
        letters = replace(look, **marks[style]) if marks.get(style) else look
        for part in run:
            if part.tag == w("tab") and hanging:
                held, hanging = [], False
                continue
            held.extend(_part(part, letters))
    yield from held


def _runs(element: Xml.Element) -> Iterator[Xml.Element]:
    for child in element:
        if child.tag == w("r"):
            yield child
        elif child.tag in _HOLDS_RUNS:
            yield from _runs(child)


def _part(part: Xml.Element, letters: Look) -> Iterator[Words]:
    if part.tag == w("t"):
        yield from _words(part.text or "", letters)
    elif part.tag == w("br"):
        yield Words(0, letters.size, ends=True)
    elif part.tag == w("tab"):
        yield Words(0, letters.size, gap=1)
    elif part.tag in (w("drawing"), _ALTERNATIVE):
        shown = part.find(_CHOICE) if part.tag == _ALTERNATIVE else part
        extent = None if shown is None else next(shown.iter(_DRAWN), None)
        if extent is not None:
            across, down = (whole(extent.get(name, "")) // EMU_PER_TWIP for name in ("cx", "cy"))
            yield Words(across, 0, tall=down)


@lru_cache(maxsize=10_000)
def _words(words: str, letters: Look) -> tuple[Words, ...]:
    if letters.caps:
        words = words.upper()
    pieces: list[Words] = []
    for found in _PIECES.finditer(words):
        piece = found[0]
        width = _width(piece, letters)
        if piece[0] == " ":
            pieces.append(Words(0, letters.size, gap=width))
        elif piece[0] in "-\u2013\u2014" and not words[found.end() : found.end() + 1].isdigit():
            pieces.append(Words(width, letters.size, gap=0.001))
        else:
            pieces.append(Words(width, letters.size))
    return tuple(pieces)


def _width(words: str, letters: Look) -> float:
    wide = fixed_units(words) if letters.fixed else units(words, letters.bold)
    return wide * letters.wide * letters.size * 10 / UNITS + letters.apart * len(words)
