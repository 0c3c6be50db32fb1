"""Tables and everything that is drawn as one: facts side by side, notes, room for writing."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from lessonkit.document.model import Cell, Inline, KeyValues, Note, Paragraph, Role, Table, WritingSpace, plain
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.lists import Inside
from lessonkit.writers.word.look import shade
from lessonkit.writers.word.paragraphs import GAP
from lessonkit.writers.word.xml import paragraph, quoted, run

_MOST_FACTS = 6
_NOTE_OUTSIDE = 70
_LINE_HEIGHT = 440
_PADDING = 170
_NOTE_PADDING = 400


def table_xml(table: Table, frame: Frame, inside: Inside) -> str:
    """Return a table of fixed columns; raises ValueError if a row does not fill them."""
    widths = column_widths(table.shares, frame.width)
    letters = "Large" if table.large else ""
    head, text, lead = (f"Cell{name}{letters}" for name in ("Head", "Text", "Lead"))
    heading = _Cells(table.title, widths, inside, (head, head))
    below = _Cells(table.title, widths, inside, (lead if table.row_header else text, text), bool(table.row_height))
    height = round(table.row_height * 20)
    rows = [_row(heading.markup(cells), head=True) for cells in table.rows[: table.header_rows]]
    rows += [_row(below.markup(cells), height=height) for cells in table.rows[table.header_rows :]]
    look = _look(first_row=table.header_rows > 0, first_column=table.row_header)
    return _table(_style(table), widths, "".join(rows), look, table.title)


def key_values_xml(facts: KeyValues, frame: Frame, inside: Inside) -> str:
    """Return facts side by side, names above values, at most six a band."""
    pairs = facts.pairs
    if len(pairs) <= _MOST_FACTS:
        weights = [float(min(max(len(name), len(plain(value)), 7), 36)) + 3 for name, value in pairs]
        return _fact_band(pairs, column_widths(weights, frame.width), inside) if pairs else ""
    bands = -(-len(pairs) // _MOST_FACTS)
    size = -(-len(pairs) // bands)
    widths = column_widths([1.0] * size, frame.width)
    starts = range(0, len(pairs), size)
    return GAP.join(_fact_band(pairs[start : start + size], widths, inside) for start in starts)


def note_xml(note: Note, frame: Frame, inside: Inside) -> str:
    """Return words set apart in a tinted box whose title repeats on a new page."""
    room = Frame(frame.width - _NOTE_PADDING, "CellText")
    title = paragraph("NoteTitle", run(note.title))
    width = frame.width - _NOTE_OUTSIDE
    rows = _row(_cell(title, width), head=True) + _row(_cell(_filled(inside(note.blocks, room)), width))
    return _table("NoteTable", [width], rows, _look(first_row=True), note.title)


def writing_space_xml(space: WritingSpace, frame: Frame) -> str:
    """Return a title above ruled lines, far enough apart for handwriting."""
    title = _row(_cell(paragraph("WritingTitle", run(space.title)), frame.width), head=True)
    blank = _row(_cell(paragraph("CellText", ""), frame.width), height=_LINE_HEIGHT)
    return _table(
        "WritingTable", [frame.width], title + blank * space.lines, _look(first_row=True, bands=True), space.title
    )


def column_widths(shares: Sequence[float], width: int) -> list[int]:
    """Divide a width into whole parts in the given proportion; the parts add up to it exactly."""
    total = sum(shares)
    edges = [round(width * sum(shares[:place]) / total) for place in range(len(shares) + 1)]
    return [right - left for left, right in pairwise(edges)]


def _style(table: Table) -> str:
    if table.plain:
        return "PlainTable"
    if table.row_height:
        return "EntryTable"
    return "GridTable" if any(cell.shaded for row in table.rows for cell in row) else "OpenTable"


@dataclass(frozen=True, slots=True)
class _Cells:
    """What rows of cells share: the table's title and columns, how blocks are written, the first and other styles."""

    title: str
    widths: list[int]
    inside: Inside
    styles: tuple[str, str]
    middle: bool = False

    def markup(self, cells: tuple[Cell, ...]) -> str:
        """Return the cells of a row; raises ValueError if they do not fill the columns."""
        pieces: list[str] = []
        column = 0
        style, others = self.styles
        for cell in cells:
            width = sum(self.widths[column : column + cell.span])
            if _is_blank(cell):
                pieces.append(_blank_cell(style, width, cell.span, cell.shaded, self.middle))
            else:
                content = _filled(self.inside(cell.blocks, Frame(max(width - _PADDING, 200), style)), style)
                pieces.append(_cell(content, width, cell.span, shaded=cell.shaded, middle=self.middle))
            column += cell.span
            style = others
        if column != len(self.widths):
            raise ValueError(f"table {self.title!r}: a row fills {column} columns, the table has {len(self.widths)}")
        return "".join(pieces)


def _is_blank(cell: Cell) -> bool:
    """Tell whether a cell is an empty paragraph, as most cells are that are to be written in."""
    match cell.blocks:
        case (Paragraph(content=(), key=None, role=Role.BODY),):
            return True
        case _:
            return False


@lru_cache(maxsize=256)
def _blank_cell(style: str, width: int, span: int, shaded: bool, middle: bool) -> str:
    return _cell(paragraph(style, ""), width, span, shaded=shaded, middle=middle)


def _filled(content: str, style: str = "CellText") -> str:
    """Return cell content that ends in a paragraph, as Word demands."""
    if not content:
        return paragraph(style, "")
    return content + GAP if content.endswith("</w:tbl>") else content


def _cell(content: str, width: int, span: int = 1, *, shaded: bool = False, middle: bool = False) -> str:
    spanning = f'<w:gridSpan w:val="{span}"/>' if span > 1 else ""
    fill = shade("lt2") if shaded else ""
    place = '<w:vAlign w:val="center"/>' if middle else ""
    return f'<w:tc><w:tcPr><w:tcW w:w="{width}" w:type="dxa"/>{spanning}{fill}{place}</w:tcPr>{content}</w:tc>'


def _row(cells: str, *, head: bool = False, height: int = 0) -> str:
    tall = f'<w:trHeight w:val="{height}" w:hRule="atLeast"/>' if height else ""
    repeated = "<w:tblHeader/>" if head else ""
    return f"<w:tr><w:trPr><w:cantSplit/>{tall}{repeated}</w:trPr>{cells}</w:tr>"


def _look(*, first_row: bool = False, first_column: bool = False, bands: bool = False) -> str:
    bits = 0x0400 | (0x0020 if first_row else 0) | (0x0080 if first_column else 0) | (0 if bands else 0x0200)
    return (
        f'<w:tblLook w:val="{bits:04X}" w:firstRow="{int(first_row)}" w:lastRow="0" w:firstColumn="{int(first_column)}"'
        f' w:lastColumn="0" w:noHBand="{int(not bands)}" w:noVBand="1"/>'
    )


def _table(style: str, widths: Sequence[int], rows: str, look: str, title: str) -> str:
    caption = f'<w:tblCaption w:val="{quoted(title)}"/>' if title else ""
    grid = "".join(f'<w:gridCol w:w="{width}"/>' for width in widths)
    return (
        f'<w:tbl><w:tblPr><w:tblStyle w:val="{style}"/><w:tblW w:w="{sum(widths)}" w:type="dxa"/>'
        f'<w:tblLayout w:type="fixed"/>{look}{caption}</w:tblPr><w:tblGrid>{grid}</w:tblGrid>{rows}</w:tbl>'
    )


def _fact_band(pairs: tuple[tuple[str, tuple[Inline, ...]], ...], widths: list[int], inside: Inside) -> str:
    blank = len(widths) - len(pairs)
    names = [paragraph("FactName", run(name)) for name, _ in pairs] + [paragraph("FactName", "")] * blank
    values = [inside((Paragraph(value),), Frame(0, "Fact")) for _, value in pairs] + [paragraph("Fact", "")] * blank
    rows = "".join(
        _row("".join(_cell(words, width) for words, width in zip(cells, widths, strict=True)), head=head)
        for cells, head in ((names, True), (values, False))
    )
    title = ", ".join(name for name, _ in pairs)
    return _table("FactTable", widths, rows, _look(first_row=True), title)
