"""One thing in a Word file, as two contents are compared."""

from typing import Final, NamedTuple

FRAMED_ANEW: Final = "framed anew"
"""The look of a drawing from a program that gives groups of shapes another frame and size when it saves."""


class Line(NamedTuple):
    """One thing in its order: a paragraph (``p``), the beginning of a table, row or cell, a shape, a section.

    ``look`` tells apart what reads the same, ``sizes`` are measures that programs round, ``marks`` are (length, look)
    stretches of the words, ``key`` is the hidden bookmark on them. A cell's ``words`` are the colour of its ground, a
    picture's ``marks`` hold what tells it from another one.
    """

    kind: str
    words: str = ""
    look: str = ""
    sizes: tuple[int, ...] = ()
    marks: tuple[tuple[int, str], ...] = ()
    key: str = ""
