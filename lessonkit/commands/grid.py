"""A plain table for the terminal."""

import textwrap
from collections.abc import Mapping, Sequence


def grid(header: Sequence[str], rows: Sequence[Sequence[str]], width: int, flexible: Sequence[int] = ()) -> list[str]:
    """Lay out rows under a header within ``width`` characters; the ``flexible`` columns wrap, by default the widest.

    Returns the lines, without trailing blanks.
    """
    table = [tuple(header), *map(tuple, rows)]
    natural = [max(len(row[column]) for row in table) for column in range(len(header))]
    wrapping = tuple(flexible) or (natural.index(max(natural)),)
    words = [max((len(word) for row in table for word in row[column].split()), default=0) for column in wrapping]
    widths = _fit(natural, dict(zip(wrapping, words, strict=True)), width - 2 * (len(natural) - 1))
    lines = _row(table[0], widths)
    lines.append("  ".join("-" * size for size in widths))
    for row in table[1:]:
        lines.extend(_row(row, widths))
    return lines


def _fit(natural: Sequence[int], wrapping: Mapping[int, int], room: int) -> list[int]:
    """Share what the fixed columns leave among the wrapping ones, in proportion to what they hold.

    ``wrapping`` has the longest word of each: a column is no narrower where an even share allows it, and the widest
    gives it the room.
    """
    widths = list(natural)
    left = room - sum(size for column, size in enumerate(natural) if column not in wrapping)
    wanted = sum(natural[column] for column in wrapping)
    if wanted <= left:
        return widths
    for column, word in wrapping.items():
        widths[column] = max(8, min(word, left // len(wrapping)), left * natural[column] // wanted)
    widest = max(wrapping, key=lambda column: (widths[column], -column))
    widths[widest] -= max(0, sum(widths[column] for column in wrapping) - left)
    widths[widest] = max(8, widths[widest])
    return widths


def _row(cells: Sequence[str], widths: Sequence[int]) -> list[str]:
    folded = [textwrap.wrap(cell, size) or [""] for cell, size in zip(cells, widths, strict=True)]
    height = max(len(pieces) for pieces in folded)
    lines = []
    for number in range(height):
        shown = [pieces[number] if number < len(pieces) else "" for pieces in folded]
        lines.append("  ".join(piece.ljust(size) for piece, size in zip(shown, widths, strict=True)).rstrip())
    return lines
