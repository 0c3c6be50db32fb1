"""What a document's blocks fill pages with; whatever was measured once in a setting is not measured again.

A page is tried many times over until it shows as much as it holds, and most of what it says is then the same. The
markup is read as the writer makes it, so that a block has the size that it will have in the file.
"""

import re
from collections.abc import Iterator
from typing import Final, Generic, TypeVar
from xml.etree import ElementTree as Xml

from lessonkit.document.model import Block
from lessonkit.writers.word.blocks import TABLE_END, arranged, block_xml
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.page import Page
from lessonkit.writers.word.pagination_looks import Looks, TableLook
from lessonkit.writers.word.pagination_pieces import Piece, Reader, Row, row_piece
from lessonkit.writers.word.paragraphs import GAP
from lessonkit.writers.word.sketch import sketch
from lessonkit.writers.word.xml import NAMESPACES

_MOST_BLOCKS: Final = 2_000
_MOST_PARAGRAPHS: Final = 1_000
_MOST_SAME: Final = 200
"""How many are kept before the oldest are forgotten, so that a year of lessons needs no more memory than a unit."""
_PARAGRAPH: Final = "<w:p>"
_MARKS: Final = re.compile(r"<w:p>.*?</w:p>|<w:(tbl|tr|tc)Pr>.*?</w:\1Pr>|</w:(?:tbl|tr|tc)>", re.DOTALL)
"""What tells the structure of markup of ours: paragraphs whole, what is said of tables, and where these end."""
_STYLE: Final = re.compile(r'<w:tblStyle w:val="(\w+)"')
_HEIGHT: Final = re.compile(r'<w:trHeight w:val="(\d+)"')
_WIDTH: Final = re.compile(r'<w:tcW w:w="(\d+)"')

Marks = Iterator[str]
Key = TypeVar("Key")
Kept = TypeVar("Kept")


class _Memory(Generic[Key, Kept]):
    """Keeps what was put in or asked for last: ``most`` of it at least, and never more than twice as much."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._young: dict[Key, Kept] = {}
        self._old: dict[Key, Kept] = {}

    def get(self, key: Key) -> Kept | None:
        """Return what is kept; None for what is not, or no longer."""
        kept = self._young.get(key)
        if kept is None and (kept := self._old.get(key)) is not None:
            self.put(key, kept)
        return kept

    def put(self, key: Key, kept: Kept) -> None:
        """Keep something."""
        if len(self._young) >= self._most:
            self._old, self._young = self._young, {}
        self._young[key] = kept

    def forget(self) -> None:
        """Keep nothing any longer."""
        self._young, self._old = {}, {}


class Measure:
    """Measures the blocks of documents in one setting."""

    def __init__(self, sheet: Page, looks: Looks) -> None:
        self._sheet = sheet
        self._looks = looks
        self._reader = Reader(looks)
        self._tables = 0
        self._blocks: _Memory[tuple[Block, bool], tuple[Piece, ...]] = _Memory(_MOST_BLOCKS)
        self._same: _Memory[tuple[int, bool], tuple[Block, tuple[Piece, ...]]] = _Memory(_MOST_SAME)
        self._paragraphs: _Memory[str, dict[int, Piece]] = _Memory(_MOST_PARAGRAPHS)
        self._elements: dict[str, Xml.Element] = {}

    def pieces(self, blocks: tuple[Block, ...]) -> list[Piece]:
        """Return what the blocks of a body fill pages with, in their order."""
        found: list[Piece] = []
        for place in arranged(blocks, Frame(self._sheet.text_width)):
            if isinstance(place, str):
                found.append(self._paragraph(place, self._sheet.text_width))
            else:
                found.extend(self._block(*place))
        if not found or found[-1].table:
            found.append(self._paragraph(GAP, self._sheet.text_width))
        return found

    def forget_blocks(self) -> None:
        """Forget whole blocks, which hold on to all that stands in them; their paragraphs stay known."""
        self._blocks.forget()
        self._same.forget()

    def _block(self, block: Block, new_page: bool) -> tuple[Piece, ...]:
        """Return the pieces of a block; the very same block is known sooner than one that is equal."""
        same = self._same.get((id(block), new_page))
        if same is not None:
            return same[1]
        known = self._blocks.get((block, new_page))
        if known is None:
            known = tuple(self._read(self._marks(block, new_page), self._sheet.text_width))
            self._blocks.put((block, new_page), known)
        self._same.put((id(block), new_page), (block, known))
        return known

    def _marks(self, block: Block, new_page: bool) -> Marks:
        """Return the marks of a block, and read at one go the paragraphs in it that were never seen."""
        markup = block_xml(block, Frame(self._sheet.text_width), sketch(self._sheet.text_height), new_page)
        marks = [found[0] for found in _MARKS.finditer(markup)]
        new = [
            mark for mark in dict.fromkeys(marks) if mark.startswith(_PARAGRAPH) and self._paragraphs.get(mark) is None
        ]
        self._elements = dict(zip(new, _elements("".join(new)), strict=True))
        return iter(marks)

    def _read(self, marks: Marks, width: int) -> Iterator[Piece]:
        """Yield the pieces of paragraphs and tables as far as the cell that holds them reaches."""
        for mark in marks:
            if mark.startswith(_PARAGRAPH):
                yield self._paragraph(mark, width)
            elif mark.startswith("</"):
                return
            else:
                yield from self._table(mark, marks)

    def _table(self, properties: str, marks: Marks) -> Iterator[Piece]:
        self._tables += 1
        number = self._tables
        look = self._looks.tables[_found(_STYLE, properties)]
        line = look.first
        for mark in marks:
            if mark == TABLE_END:
                return
            row = Row(line, int(_found(_HEIGHT, mark) or 0), "<w:tblHeader/>" in mark)
            yield row_piece(list(self._cells(marks, look)), look, number, row)
            line = look.between

    def _cells(self, marks: Marks, look: TableLook) -> Iterator[list[Piece]]:
        for mark in marks:
            if mark == "</w:tr>":
                return
            yield list(self._read(marks, int(_found(_WIDTH, mark)) - look.left - look.right))

    def _paragraph(self, markup: str, width: int) -> Piece:
        widths = self._paragraphs.get(markup)
        if widths is None:
            widths = {}
            self._paragraphs.put(markup, widths)
        if width not in widths:
            element = self._elements.get(markup)
            if element is None:
                (element,) = _elements(markup)
            widths[width] = self._reader.paragraph(element, width)
        return widths[width]


def _elements(markup: str) -> Xml.Element:
    return Xml.fromstring(f"<body {NAMESPACES}>{markup}</body>")


def _found(pattern: re.Pattern[str], words: str) -> str:
    found = pattern.search(words)
    return found[1] if found else ""
