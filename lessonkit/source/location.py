"""Where something stands in a file."""

from typing import NamedTuple, Self

FieldPath = tuple[str | int, ...]
"""Keys and list positions (from 0) that lead from a record's top to one of its values."""


class _Stretch(NamedTuple):
    path: str
    line: int
    column: int
    end_line: int
    end_column: int


class Location(_Stretch):
    """A stretch of text in a file: path as given by the user, lines and columns counted from 1.

    Columns count characters (Unicode code points). The end column is the first character after the stretch.
    """

    __slots__ = ()

    def __new__(cls, path: str, line: int, column: int, end_line: int, end_column: int) -> Self:
        """Return the stretch. Raises ValueError where it is not a place in a file."""
        if min(line, column) < 1 or (end_line, end_column) < (line, column):
            raise ValueError(f"not a place in a file: {(path, line, column, end_line, end_column)!r}")
        return super().__new__(cls, path, line, column, end_line, end_column)

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


def file_start(path: str) -> Location:
    """Return the first character of a file, the place of faults that concern the whole of it."""
    return Location(path, 1, 1, 1, 1)


def field_name(path: FieldPath) -> str:
    """Write a field path as a teacher reads it: ``cues, item 2`` for ``("cues", 1)``."""
    words: list[str] = []
    for step in path:
        words.append(f"item {step + 1}" if isinstance(step, int) else step)
    return ", ".join(words)
