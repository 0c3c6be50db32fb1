"""Where something stands in a file."""

from dataclasses import dataclass

FieldPath = tuple[str | int, ...]
"""Keys and list positions (from 0) that lead from a record's top to one of its values."""


@dataclass(frozen=True, slots=True, order=True)
class Location:
    """A stretch of text in a file: path as given by the user, lines and columns counted from 1.

    Columns count characters (Unicode code points). The end column is the first character after the stretch.
    """

    path: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __post_init__(self) -> None:
        if min(self.line, self.column) < 1 or (self.end_line, self.end_column) < (self.line, self.column):
            raise ValueError(f"not a place in a file: {self!r}")

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
