"""The usual layout of a record to its values, without nodes; whatever is not usual is left to the whole reader.

Most files have one field or item a line, lists and fields in brackets that close on their line, and texts that begin
with ``|``. They are read here in a part of the time, and nothing is said about them: a tab, a comment behind a text, a
backslash in quotes, an indent out of line, a field twice, an empty value, an anchor or a tag makes this reader give up.
What it returns is what the whole reader returns, which tests hold over thousands of changed files. What it returns is
not to be changed: records with the same line share its value.
"""

import re
from typing import Any, Final

from lessonkit.loading.quick_line import (
    DASHES,
    DEEPEST,
    ITEM,
    ITEM_FIELD,
    ITEM_TEXT,
    KNOWN_LINES,
    NOTHING,
    OPENS,
    TEXT,
    UnusualError,
    line_of,
    shared,
    understood,
)

_REMARK: Final = re.compile(r"#\s*lessonkit\s*:", re.IGNORECASE)


def read_quickly(text: str) -> dict[str, Any] | None:
    """Return the values of a record's text, None where it is not laid out as usual."""
    if "\t" in text or "\r" in text or not text.endswith("\n"):
        return None
    if "#" in text and _REMARK.search(text):
        return None
    try:
        return _Lines(text).read()
    except UnusualError:
        return None


class _Lines:
    """Reads line after line. ``columns`` and ``inside`` are the indents and values of all that is still open.

    The name of a field whose lines are still to come stands on top of ``inside``, with the column of its field.
    """

    __slots__ = ("columns", "inside", "lines", "next")

    def __init__(self, text: str) -> None:
        self.lines = text.split("\n")
        self.next = 0
        self.columns = [0]
        self.inside: list[Any] = [{}]

    def read(self) -> dict[str, Any]:
        """Return what stands in the lines."""
        lines, columns, inside = self.lines, self.columns, self.inside
        top: dict[str, Any] = inside[0]
        while self.next < len(lines):
            line = lines[self.next]
            self.next += 1
            column, (sort, name, value) = KNOWN_LINES.get(line) or line_of(line)
            around = inside[-1]
            if sort <= OPENS:
                if columns[-1] != column or around.__class__ is not dict:
                    around = self.fields_at(column)
                if name in around:
                    raise UnusualError
                around[name] = value
                if sort:
                    columns.append(column)
                    inside.append(name)
            elif sort == ITEM:
                if columns[-1] != column or around.__class__ is not list:
                    around = self.items_at(column)
                around.append(value)
            else:
                self.longer(sort, column, name, value, line)
        if inside[-1].__class__ is str or not top:
            raise UnusualError
        return top

    def longer(self, sort: int, column: int, name: str, value: Any, line: str) -> None:
        """Take in a line that others belong to, or one that says nothing."""
        if sort == NOTHING:
            return
        if sort == DASHES:
            self.dashes(column, line.lstrip(" "))
        elif sort == TEXT:
            self.begin(self.fields_at(column), column, name, is_text=True)
        else:
            fields: dict[str, Any] = {}
            self.items_at(column).append(fields)
            self.open(column + 2, fields)
            if sort == ITEM_FIELD:
                fields[name] = value
            else:
                self.begin(fields, column + 2, name, sort == ITEM_TEXT)

    def begin(self, around: dict[str, Any], column: int, name: str, is_text: bool) -> None:
        """Take in a field whose value is in the lines below."""
        if name in around:
            raise UnusualError
        if is_text:
            around[name] = self.text_below(column)
            return
        around[name] = None
        self.columns.append(column)
        self.inside.append(name)

    def dashes(self, column: int, rest: str) -> None:
        """Take in a line that begins with several dashes: lists in lists."""
        around = self.items_at(column)
        while rest[:4] == "- - ":
            column, rest = column + 2, rest[2:]
            around.append(around := self.open(column, []))
        sort, name, value = understood(rest)
        if sort == ITEM:
            around.append(value)
            return
        fields: dict[str, Any] = self.open(column + 2, {})
        around.append(fields)
        if sort == ITEM_FIELD:
            fields[name] = value
        else:
            self.begin(fields, column + 2, name, sort == ITEM_TEXT)

    def fields_at(self, column: int) -> dict[str, Any]:
        """Return the fields to which a field at a column belongs."""
        columns, inside = self.columns, self.inside
        if inside[-1].__class__ is str:
            if column <= columns[-1]:
                raise UnusualError
            return self.below(column, {})  # type: ignore[no-any-return]  # what went in comes back
        while columns[-1] > column or inside[-1].__class__ is list:
            columns.pop()
            inside.pop()
        if columns[-1] != column:
            raise UnusualError
        return inside[-1]  # type: ignore[no-any-return]  # lists were taken off

    def items_at(self, column: int) -> list[Any]:
        """Return the list to which an item at a column belongs."""
        columns, inside = self.columns, self.inside
        if inside[-1].__class__ is str:
            if column < columns[-1]:
                raise UnusualError
            return self.below(column, [])  # type: ignore[no-any-return]  # what went in comes back
        while columns[-1] > column:
            columns.pop()
            inside.pop()
        if columns[-1] != column or inside[-1].__class__ is not list:
            raise UnusualError
        return inside[-1]

    def below(self, column: int, new: Any) -> Any:
        """Begin the list or the fields below a field's name."""
        name = self.inside.pop()
        self.columns.pop()
        self.inside[-1][name] = new
        return self.open(column, new)

    def open(self, column: int, new: Any) -> Any:
        """Begin a list or fields."""
        if len(self.columns) > DEEPEST:
            raise UnusualError
        self.columns.append(column)
        self.inside.append(new)
        return new

    def text_below(self, column: int) -> str:
        """Return the text in the lines below ``|``; ``column`` is that of its field."""
        lines, start = self.lines, self.next
        indent = len(lines[start]) - len(lines[start].lstrip(" ")) if start < len(lines) else 0
        if indent <= column:
            raise UnusualError
        sign, end = " " * indent, start
        while end < len(lines) and (lines[end].startswith(sign) or not lines[end]):
            if lines[end] and (len(lines[end]) == indent or lines[end].isspace()):
                raise UnusualError
            end += 1
        self.next = end
        text = "\n".join([line[indent:] for line in lines[start:end]]).rstrip("\n") + "\n"
        return shared(text)
