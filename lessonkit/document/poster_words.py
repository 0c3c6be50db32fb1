"""Words that are read from across a room: how large they are, and whether they go into a column."""

from typing import Final

from lessonkit.document.model import Role

POINTS: Final[dict[Role, float]] = {
    Role.POSTER_HUGE: 66.0,
    Role.POSTER_LARGE: 60.0,
    Role.POSTER: 54.0,
    Role.POSTER_SMALL: 44.0,
    Role.POSTER_LEAST: 34.0,
    Role.BOARD: 20.0,
    Role.LETTER: 11.5,
}
"""Sizes of letters: a capital is some 0.63 of it high, so that 54 points give 12 millimetres."""
ACROSS: Final[dict[str, float]] = {"letter": 690.0, "a4": 740.0}
"""Points that a sheet laid across leaves for words."""
UPRIGHT: Final[dict[str, float]] = {"letter": 518.0, "a4": 501.0}
"""Points that an upright sheet leaves for words."""
_NARROW = frozenset("fijlrtI.,:;'!-")
_WIDE = frozenset("mwMW")
_SPACE, _THIN, _USUAL, _CAPITAL, _BROAD = 0.23, 0.37, 0.54, 0.66, 0.84
"""Widths of bold letters as shares of their size, rather too wide than too narrow."""


def width_of(words: str, role: Role) -> float:
    """Return about how wide words are in a line, in points."""
    return width_at(words, POINTS[role])


def width_at(words: str, points: float) -> float:
    """Return about how wide words are in a line of letters of a size, both in points."""
    return points * sum(map(_width, words))


def lines_of(words: str, role: Role, room: float) -> int | None:
    """Return the number of lines that words take in a column; None where one of them is wider than the column."""
    lines, filled = 1, 0.0
    for word in words.split(" "):
        wide = width_of(word, role)
        if wide > room:
            return None
        if filled and filled + wide > room:
            lines, filled = lines + 1, 0.0
        filled += wide + POINTS[role] * _SPACE
    return lines


def _width(letter: str) -> float:
    if letter in " \u00a0":
        return _SPACE
    if letter in _NARROW:
        return _THIN
    if letter in _WIDE:
        return _BROAD
    return _CAPITAL if letter.isupper() else _USUAL
