"""A page for the gym wall: a title, some sentences and one table."""

from collections.abc import Sequence

from lessonkit.document.model import Block, Document, Heading, Paragraph, Role, Table, text
from lessonkit.document.pieces import strong_cell, words_cell


def table_sheet(
    title: str,
    says: Sequence[str],
    header: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    shares: Sequence[float] | None = None,
    further: Sequence[tuple[Sequence[str], Sequence[Sequence[str]]]] = (),
    paper: str = "letter",
) -> Document:
    """Return the page, which carries no date; ``shares`` are the widths of the columns in proportion.

    ``further`` are more tables (header and rows) below the first. A table of more than seven columns is laid across
    the page.
    """
    blocks: tuple[Block, ...] = (
        Heading(1, text(title)),
        *(Paragraph(text(sentence), Role.BODY) for sentence in says),
        _table(title, header, rows, shares),
        *(_table(f"{title}: {words[0]}", words, below, None) for words, below in further),
    )
    return Document(title, title, "", title, "", blocks, paper=paper, landscape=len(header) > 7)


def _table(title: str, header: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float] | None) -> Table:
    return Table(
        (tuple(map(words_cell, header)), *((strong_cell(row[0]), *map(words_cell, row[1:])) for row in rows)),
        tuple(shares or _shares(header, rows)),
        title,
        row_header=True,
    )


def _shares(header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[float]:
    """Give every column room by its longest words, the narrowest not less than a third of the widest."""
    longest = [max(len(row[column]) for row in (header, *rows)) for column in range(len(header))]
    return [float(max(size, max(longest) / 3)) for size in longest]
