"""The columns that a table needs: none in which no cell begins.

Such a column is a fault of a web page (HTML standard, forming a table), and LibreOffice leaves it out of a Word file.
"""

from dataclasses import replace

from lessonkit.document.model import Cell, Table


def without_idle_columns(table: Table) -> Table:
    """Return a table in which every column in which no cell begins has joined the one to its left."""
    kept = sorted({start for row in table.rows for start in _starts(row)})
    if len(kept) == len(table.shares):
        return table
    ends = (*kept[1:], len(table.shares))
    shares = tuple(sum(table.shares[start:end]) for start, end in zip(kept, ends, strict=True))
    rows = tuple(
        tuple(
            replace(cell, span=sum(start <= column < start + cell.span for column in kept))
            for cell, start in zip(row, _starts(row), strict=True)
        )
        for row in table.rows
    )
    return replace(table, shares=shares, rows=rows)


def _starts(row: tuple[Cell, ...]) -> list[int]:
    starts = [0]
    for cell in row[:-1]:
        starts.append(starts[-1] + cell.span)
    return starts
