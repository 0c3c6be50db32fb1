"""A line of a file as a terminal shows it, with marks under a part of it."""

import unicodedata
from bisect import bisect_left, bisect_right
from itertools import accumulate
from typing import Final

_DIRECTION: Final = frozenset("\u200e\u200f\u061c\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
"""Characters that make a terminal write from right to left, whatever stands in the file."""
_PLAIN: Final = str.maketrans(
    {
        "\u2018": "'",
        "\u2019": "'",
        "\u201c": '"',
        "\u201d": '"',
        "\u2013": "-",
        "\u2014": "-",
        "\u00a0": " ",
        "\u00d7": "x",
        "\u2022": "*",
    }
)


def harmless(text: str) -> str:
    """Return a text without anything that could move the cursor, change colours or turn the direction of writing."""
    if text.isprintable():
        return text
    return "".join(" " if char in "\t\n\r" else "\ufffd" if _is_unseen(char) else char for char in text)


def _is_unseen(char: str) -> bool:
    return unicodedata.category(char) in ("Cc", "Cs", "Zl", "Zp") or char in _DIRECTION


def plain(text: str) -> str:
    """Return a text in ASCII, letter by letter: accents and quotes simplified, what has no likeness as ``?``."""
    letters = (unicodedata.normalize("NFKD", char)[:1] for char in text.translate(_PLAIN))
    return "".join(letter if letter.isascii() else "?" for letter in letters)


def cells(text: str) -> int:
    """Return how many columns of a terminal a text takes: two for a wide letter, none for a mark on another letter.

    Widths are those of Unicode Standard Annex 11 (wide and fullwidth letters take two columns).
    """
    return sum(_cells(char) for char in text)


def _cells(char: str) -> int:
    if unicodedata.category(char) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


def stretch(line: str, start: int, end: int, room: int) -> tuple[str, int, int]:
    """Cut a line to ``room`` columns so that the characters from ``start`` to ``end`` are seen, as far as they fit.

    Returns the text, and the column and the width of the marks under it. Characters are counted from 0; a place behind
    the end of the line gets one mark.
    """
    columns = list(accumulate(map(_cells, line), initial=0))
    start_at, end_at = columns[min(start, len(line))], columns[min(end, len(line))]
    first = bisect_left(columns, min(end_at - room, start_at - room // 4))
    stop = bisect_right(columns, columns[first] + room) - 1
    before = start_at - columns[first] + max(0, start - len(line))
    return line[first:stop], before, max(1, min(end_at - start_at, room - before))
