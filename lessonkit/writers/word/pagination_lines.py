"""How many lines a paragraph takes in a width, and how tall each is."""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.page import EMU_PER_TWIP
from lessonkit.writers.word.pagination_letters import LINE, UNITS, fixed_units, units
from lessonkit.writers.word.pagination_looks import Look, value, w
from lessonkit.writers.word.resolved import whole

_RUN, _TEXT, _BREAK, _TAB = w("r"), w("t"), w("br"), w("tab")
_STYLE = f"{w('rPr')}/{w('rStyle')}"
_DRAWN = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}extent"
_CHOICE = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Choice"
_ALTERNATIVE = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"
_HOLDS_RUNS = frozenset((w("hyperlink"), w("sdt"), w("sdtContent")))
_DRAWS = frozenset((w("drawing"), _ALTERNATIVE))
_PIECES = re.compile("[^ \u2013\u2014-]+|[\u2013\u2014-]+| +")
"""Words, dashes and spaces. A line may end after a space, and after a dash that no digit follows."""
_DASHES = "-\u2013\u2014"
_MOST_WORDS = 1_000
_DEPTH = 512
"""How far letters reach below the base line, in units of the font: a drawing stands on that line."""


Word = tuple[float, int, float, bool, int]
"""What cannot be parted: its width, its tallest letters in half points, the gap behind it, whether a line ends behind
it, and its own height as a drawing. A gap may hang out of a line; pieces without one are parts of one word, such as a
word and the comma behind its stress.
"""


class Letters:
    """The letters of a look, with the words that were measured in them."""

    def __init__(self, look: Look) -> None:
        self.look = look
        self._known: dict[str, Word] = {}

    def words(self, words: str) -> list[Word]:
        """Return the pieces of words."""
        if self.look.caps:
            words = words.upper()
        known = self._known
        if len(known) > _MOST_WORDS:
            known.clear()
        pieces: list[Word] = []
        for piece, following in pairwise((*_PIECES.findall(words), "")):
            word = known.get(piece)
            if word is None:
                word = known[piece] = self._word(piece)
            if piece[0] in _DASHES and not following[:1].isdigit():
                word = (word[0], word[1], 0.001, False, 0)
            pieces.append(word)
        return pieces

    def _word(self, piece: str) -> Word:
        look = self.look
        wide = fixed_units(piece) if look.fixed else units(piece, look.bold)
        width = wide * look.wide * look.size * 10 / UNITS + look.apart * len(piece)
        return (0.0, look.size, width, False, 0) if piece[0] == " " else (width, look.size, 0.0, False, 0)


Styled = Callable[[str], Letters]
"""Returns the letters of a paragraph in a character style; without one, its own."""


def line_heights(paragraph: Xml.Element, styled: Styled, width: int) -> list[int]:
    """Return the heights of a paragraph's lines in twentieths of a point; an empty paragraph has one."""
    look = styled("").look
    lines = _Lines(look, max(width - look.left - look.right, 100))
    wide, size, tall = 0.0, 0, 0
    for part_wide, part_size, gap, ends, part_tall in _pieces(paragraph, styled):
        wide += part_wide
        size = part_size if part_size > size else size
        tall = part_tall if part_tall > tall else tall
        if gap or ends or tall:
            lines.set((wide, size, gap, ends, tall))
            wide, size, tall = 0.0, 0, 0
    if wide or size:
        lines.set((wide, size, 0.0, False, 0))
    return lines.ended()


class _Lines:
    """Lines being filled with words."""

    __slots__ = ("_filled", "_heights", "_look", "_room", "_size", "_tall")

    def __init__(self, look: Look, room: int) -> None:
        self._look = look
        self._room = room
        self._heights: list[int] = []
        self._filled, self._size, self._tall = 0.0, 0, 0

    def set(self, word: Word) -> None:
        """Set a word, on a new line where this one is full."""
        wide, size, gap, ends, tall = word
        if self._filled and self._filled + wide > self._room:
            self._end()
        while wide > self._room and not tall:
            self._heights.append(_height(self._look, size, 0))
            wide -= self._room
        self._filled = self._filled + wide + gap
        self._size = size if size > self._size else self._size
        self._tall = tall if tall > self._tall else self._tall
        if ends:
            self._end()

    def ended(self) -> list[int]:
        """Return the heights of the lines."""
        if self._filled or not self._heights:
            self._end()
        return self._heights

    def _end(self) -> None:
        self._heights.append(_height(self._look, self._size, self._tall))
        self._filled, self._size, self._tall = 0.0, 0, 0


@lru_cache(maxsize=1_000)
def _height(look: Look, size: int, tall: int) -> int:
    if look.exact:
        return look.line
    letters = (size or look.size) * 10 * LINE / UNITS * look.tall
    if tall:
        letters = max(letters, tall + (size or look.size) * 10 * _DEPTH / UNITS)
    return round(letters * look.line / 240)


def _pieces(paragraph: Xml.Element, styled: Styled) -> list[Word]:
    """Return the pieces of a paragraph. What stands before a tab in a hanging indent takes no room of the line."""
    held: list[Word] = []
    hanging = styled("").look.hanging > 0
    for run in _runs(paragraph):
        letters = styled(value(run.find(_STYLE)))
        for part in run:
            if hanging and part.tag == _TAB:
                held, hanging = [], False
            else:
                held.extend(_part(part, letters))
    return held


def _runs(element: Xml.Element) -> Iterator[Xml.Element]:
    for child in element:
        if child.tag == _RUN:
            yield child
        elif child.tag in _HOLDS_RUNS:
            yield from _runs(child)


def _part(part: Xml.Element, letters: Letters) -> Sequence[Word]:
    if part.tag == _TEXT:
        return letters.words(part.text or "")
    if part.tag == _BREAK:
        return ((0.0, letters.look.size, 0.0, True, 0),)
    if part.tag == _TAB:
        return ((0.0, letters.look.size, 1.0, False, 0),)
    return _drawn(part) if part.tag in _DRAWS else ()


def _drawn(part: Xml.Element) -> Sequence[Word]:
    shown = part.find(_CHOICE) if part.tag == _ALTERNATIVE else part
    extent = None if shown is None else next(shown.iter(_DRAWN), None)
    if extent is None:
        return ()
    across, down = (whole(extent.get(name, "")) // EMU_PER_TWIP for name in ("cx", "cy"))
    return ((float(across), 0, 0.0, False, down),)
