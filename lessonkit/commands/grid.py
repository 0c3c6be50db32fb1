"""A plain table for the terminal."""

import textwrap
from collections.abc import Sequence


def grid(header: Sequence[str], rows: Sequence[Sequence[str]], width: int, flexible: int | None = None) -> list[str]:
    """Lay out rows under a header within ``width`` characters; the ``flexible`` column wraps where the rest is fixed.

    Without ``flexible`` the widest column wraps. Returns the lines, without trailing blanks.
    """
    table = [tuple(header), *map(tuple, rows)]
    widths = [max(len(row[column]) for row in table) for column in range(len(header))]
    wrapping = widths.index(max(widths)) if flexible is None else flexible
    room = width - sum(widths) + widths[wrapping] - 2 * (len(widths) - 1)
    widths[wrapping] = max(8, min(widths[wrapping], room))
    lines = _row(table[0], widths, wrapping)
    lines.append("  ".join("-" * size for size in widths))
    for row in table[1:]:
        lines.extend(_row(row, widths, wrapping))
    return lines


def _row(cells: Sequence[str], widths: Sequence[int], wrapping: int) -> list[str]:
    folded = textwrap.wrap(cells[wrapping], widths[wrapping]) or [""]
    lines = []
    for number, piece in enumerate(folded):
        shown = [piece if c == wrapping else (cell if number == 0 else "") for c, cell in enumerate(cells)]
        lines.append("  ".join(cell.ljust(size) for cell, size in zip(shown, widths, strict=True)).rstrip())
    return lines
