"""A written body as the pieces that pages are filled with: paragraphs and table rows, with the room they take."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.numbering import HANGING
from lessonkit.writers.word.pagination_lines import Letters, line_heights
from lessonkit.writers.word.pagination_looks import Looks, TableLook, value, w
from lessonkit.writers.word.resolved import whole
from lessonkit.writers.word.styles import LIST_STEP

_PROPERTIES, _STYLE, _BOOKMARK = w("pPr"), w("pStyle"), w("bookmarkStart")
_LEVEL = f"{w('numPr')}/{w('ilvl')}"


@dataclass(frozen=True, slots=True)
class Piece:
    """A paragraph or a table row, in twentieths of a point: the room before, its lines, the room after.

    ``whole`` may not be parted, ``keep_next`` stands on the page of what follows, ``new_page`` begins one. ``names``
    are bookmarks. Rows of one table share a ``table`` number above 0; ``head`` rows repeat on every page.
    """

    lines: tuple[int, ...]
    before: int = 0
    after: int = 0
    whole: bool = False
    keep_next: bool = False
    new_page: bool = False
    names: tuple[str, ...] = ()
    table: int = 0
    head: bool = False


def stacked(pieces: Sequence[Piece]) -> int:
    """Return the height of pieces in one column: between two of them only the larger of their distances counts."""
    height, after = 0, 0
    for piece in pieces:
        height += max(piece.before - after, 0) + sum(piece.lines) + piece.after
        after = piece.after
    return height


@dataclass(frozen=True, slots=True)
class Row:
    """What a row says of itself: the line above it, its least height, and whether it heads its table."""

    line: int
    least: int = 0
    head: bool = False


def row_piece(cells: Sequence[Sequence[Piece]], look: TableLook, table: int, row: Row) -> Piece:
    """Return a row of the pieces in its cells, as tall as the tallest cell; ``table`` is the number of its table."""
    tallest = max((stacked(cell) for cell in cells), default=0)
    return Piece(
        lines=(max(tallest + look.top + look.bottom, row.least) + row.line,),
        whole=True,
        keep_next=bool(cells and cells[0] and cells[0][0].keep_next),
        names=tuple(name for cell in cells for piece in cell for name in piece.names),
        table=table,
        head=row.head,
    )


_PLAIN_TABLE = TableLook()
"""The look of a table in no style of ours, such as one in a school's header."""


class Reader:
    """Reads the pieces of a body whose styles are known."""

    def __init__(self, looks: Looks) -> None:
        self._looks = looks
        self._tables = 0
        self._known: dict[tuple[str, str, str], Letters] = {}

    def pieces(self, blocks: Xml.Element, width: int) -> Iterator[Piece]:
        """Yield the pieces of the paragraphs and tables of an element, in a width."""
        for block in blocks:
            if block.tag == w("p"):
                yield self.paragraph(block, width)
            elif block.tag == w("tbl"):
                yield from self._rows(block, width)
            elif block.tag in (w("sdt"), w("sdtContent")):
                yield from self.pieces(block, width)

    def paragraph(self, paragraph: Xml.Element, width: int) -> Piece:
        """Return the piece of a paragraph in a width."""
        letters = partial(self._letters, *_style_and_level(paragraph))
        look = letters("").look
        lines = line_heights(paragraph, letters, width)
        lines[0] += look.above
        lines[-1] += look.below
        return Piece(
            lines=tuple(lines),
            before=look.before,
            after=look.after,
            whole=look.keep_lines,
            keep_next=look.keep_next,
            new_page=look.new_page,
            names=_names(paragraph),
        )

    def _letters(self, style: str, level: str, mark: str) -> Letters:
        """Return the letters of a paragraph style, at a level of a list, in a character style."""
        letters = self._known.get((style, level, mark))
        if letters is None:
            look = self._looks.paragraphs[style or "Normal"]
            if level:
                look = replace(look, left=LIST_STEP * (whole(level) + 1), hanging=HANGING)
            letters = Letters(replace(look, **self._looks.marks.get(mark, {})))
            self._known[style, level, mark] = letters
        return letters

    def _rows(self, table: Xml.Element, width: int) -> Iterator[Piece]:
        self._tables += 1
        number = self._tables
        look = self._looks.tables.get(value(table.find(f"{w('tblPr')}/{w('tblStyle')}")), _PLAIN_TABLE)
        for place, row in enumerate(table.findall(w("tr"))):
            found = row.findall(w("tc"))
            cells = [list(self._cell(cell, look, width // len(found))) for cell in found]
            yield row_piece(cells, look, number, _row(row, look.between if place else look.first))

    def _cell(self, cell: Xml.Element, look: TableLook, usual: int) -> Iterator[Piece]:
        """Yield the pieces of a cell; one that does not say its width, as in a school's header, has the usual one."""
        said = cell.find(f"{w('tcPr')}/{w('tcW')}")
        width = whole(value(said, "w")) if value(said, "type") in ("", "dxa") else 0
        return self.pieces(cell, (width or usual) - look.left - look.right)


def _row(row: Xml.Element, line: int) -> Row:
    properties = row.find(w("trPr"))
    least = 0 if properties is None else whole(value(properties.find(w("trHeight"))))
    return Row(line, least, properties is not None and properties.find(w("tblHeader")) is not None)


def _names(paragraph: Xml.Element) -> tuple[str, ...]:
    return tuple(value(mark, "name") for mark in paragraph.iter(_BOOKMARK))


def _style_and_level(paragraph: Xml.Element) -> tuple[str, str]:
    """Return the style of a paragraph and its level in a list, empty where it does not say."""
    properties = paragraph.find(_PROPERTIES)
    if properties is None:
        return "", ""
    level = properties.find(_LEVEL)
    return value(properties.find(_STYLE)), "" if level is None else value(level) or "0"
