"""The usual layout of a record to its values, without nodes; whatever is not usual is left to the whole reader.

Most files have one field or item a line, lists and fields in brackets that close on their line, and texts that begin
with ``|``. They are read here in a part of the time, and nothing is said about them: a tab, a comment behind a text, a
backslash in quotes, an indent out of line, a field twice, an empty value, an anchor or a tag makes this reader give up.
What it returns is what the whole reader returns, which tests hold over thousands of changed files.
"""

import re
from functools import lru_cache
from typing import Any, Final

from lessonkit.loading.words import FIRST_OF_SPECIAL, LEADING_ZERO, meaning

_DEEPEST: Final = 40
"""Values inside each other; far more than any record has, and fewer than the whole reader allows."""
_SIGNS: Final = frozenset(" -?:,[]{}#&*!|>'\"%@`")
"""What no word begins with, a minus in front of a number aside."""
_NEGATIVE: Final = re.compile(r"-[0-9]")
_NOT_LAST: Final = frozenset((":", " ", ""))
_SHORT: Final = 12
"""Words of fewer letters are looked up rather than read again."""
_NAME: Final = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_ .\-]{0,60}+(?<! )|\"[^\"\\\n]{1,60}\"|'[^'\"\\\n]{1,60}'")
_REMARK: Final = re.compile(r"#\s*lessonkit\s*:", re.IGNORECASE)
_SIGN: Final = re.compile(r"([\[\]{},]) *")
_TEXT_IN_QUOTES: Final = re.compile(r"\"[^\"]*\"|(?<=[\[{, ])'(?:[^']|'')*'")
_QUOTES: Final = frozenset("\"'")
_OPENING: Final = frozenset("[{")
_END: Final = {"[": "]", "{": "}"}
_CLOSING: Final[dict[str, Any]] = {"]": list, "}": dict}
_QUOTED: Final = "\0"
"""Stands for a text in quotes; it cannot be part of a record's text."""


class _UnusualError(Exception):
    """The whole reader must read this."""


def read_quickly(text: str) -> dict[str, Any] | None:
    """Return the values of a record's text, None where it is not laid out as usual."""
    if "\t" in text or "\r" in text or not text.endswith("\n"):
        return None
    if "#" in text and _REMARK.search(text):
        return None
    try:
        return _Lines(text).read()
    except _UnusualError:
        return None


class _Lines:
    """Reads line after line. ``columns`` and ``inside`` are the indents and values of all that is still open."""

    __slots__ = ("columns", "inside", "lines", "next", "waiting")

    def __init__(self, text: str) -> None:
        self.lines = text.split("\n")
        self.next = 0
        self.columns = [0]
        self.inside: list[Any] = [{}]
        self.waiting: str | None = None

    def read(self) -> dict[str, Any]:
        """Return what stands in the lines."""
        lines, end = self.lines, len(self.lines)
        top: dict[str, Any] = self.inside[0]
        while self.next < end:
            line = lines[self.next]
            self.next += 1
            rest = line.lstrip(" ")
            if not rest:
                if line:
                    raise _UnusualError
            elif rest[0] == "-" and rest[1:2] == " ":
                self.item(len(line) - len(rest), rest)
            elif rest[0] != "#":
                column = len(line) - len(rest)
                self.field(self.fields_at(column), column, rest)
        if self.waiting is not None or not top:
            raise _UnusualError
        return top

    def fields_at(self, column: int) -> dict[str, Any]:
        """Return the fields to which a field at a column belongs."""
        columns, inside = self.columns, self.inside
        if self.waiting is not None:
            if column <= columns[-1]:
                raise _UnusualError
            return self.below(column, {})  # type: ignore[no-any-return]  # what went in comes back
        while columns[-1] > column or inside[-1].__class__ is list:
            columns.pop()
            inside.pop()
        if columns[-1] != column:
            raise _UnusualError
        return inside[-1]  # type: ignore[no-any-return]  # lists were taken off

    def item(self, column: int, rest: str) -> None:
        """Take in a line that begins with a dash."""
        around = self.items_at(column)
        column, rest = column + 2, rest[2:]
        while rest[:2] == "- ":
            self.open(column, [])
            around.append(around := self.inside[-1])
            column, rest = column + 2, rest[2:]
        first = rest[:1]
        if first in _SIGNS and (first != '"' or (rest[-1] == '"' and rest.count('"') == 2)):
            around.append(_value(rest))
        elif ": " in rest or rest[-1:] == ":":
            fields = self.open(column, {})
            around.append(fields)
            self.field(fields, column, rest)
        else:
            around.append(_word(rest))

    def items_at(self, column: int) -> list[Any]:
        """Return the list to which an item at a column belongs."""
        columns, inside = self.columns, self.inside
        if self.waiting is not None:
            if column < columns[-1]:
                raise _UnusualError
            return self.below(column, [])  # type: ignore[no-any-return]  # what went in comes back
        while columns[-1] > column:
            columns.pop()
            inside.pop()
        if columns[-1] != column or inside[-1].__class__ is not list:
            raise _UnusualError
        return inside[-1]

    def below(self, column: int, new: Any) -> Any:
        """Begin the list or the fields below a field's name."""
        self.inside[-1][self.waiting] = new
        self.waiting = None
        return self.open(column, new)

    def open(self, column: int, new: Any) -> Any:
        """Begin a list or fields."""
        if len(self.columns) > _DEEPEST:
            raise _UnusualError
        self.columns.append(column)
        self.inside.append(new)
        return new

    def field(self, around: dict[str, Any], column: int, rest: str) -> None:
        """Take in a field; without a value on its line, its lines are still to come."""
        name, colon, written = rest.partition(": ")
        if not colon:
            if rest[-1] != ":":
                raise _UnusualError
            name = _name(rest[:-1])
            self.waiting, value = name, None
        elif written == "|":
            name, value = _name(name), self.text_below(column)
        else:
            name, value = _name(name), _value(written)
        if name in around:
            raise _UnusualError
        around[name] = value

    def text_below(self, column: int) -> str:
        """Return the text in the lines below ``|``; ``column`` is that of its field."""
        lines, start = self.lines, self.next
        indent = len(lines[start]) - len(lines[start].lstrip(" ")) if start < len(lines) else 0
        if indent <= column:
            raise _UnusualError
        sign, end = " " * indent, start
        while end < len(lines) and (lines[end].startswith(sign) or not lines[end]):
            if lines[end] and (len(lines[end]) == indent or lines[end].isspace()):
                raise _UnusualError
            end += 1
        self.next = end
        return "\n".join([line[indent:] for line in lines[start:end]]).rstrip("\n") + "\n"


@lru_cache(maxsize=4096)
def _name(written: str) -> str:
    """Return the name of a field without its quotes."""
    if not _NAME.fullmatch(written):
        raise _UnusualError
    return written[1:-1] if written[0] in _QUOTES else written


def _value(written: str) -> Any:
    """Return what stands behind a field's name or a dash."""
    if written[:1] not in _SIGNS:
        return _word(written)
    written = written.lstrip(" ")
    if written[:1] not in _SIGNS or written[:1] == "-":
        return _word(written)
    first, last = written[:1], written[-1:]
    if first in _OPENING:
        return _in_brackets(written if last in _CLOSING else written.partition(" #")[0].rstrip(" "))
    if first == '"' and last == '"' and written.count('"') == 2 and "\\" not in written:
        return written[1:-1]
    if first == "'" and last == "'" and len(written) > 1 and "'" not in written[1:-1].replace("''", ""):
        return written[1:-1].replace("''", "'")
    raise _UnusualError


def _word(written: str) -> Any:
    """Return what a text without quotes means."""
    if written[:1] in FIRST_OF_SPECIAL:
        return _special(written) if len(written) < _SHORT else _text(_meaning(written))
    return _text(written)


def _text(written: Any) -> Any:
    if written.__class__ is str and (": " in written or " #" in written or written[-1:] in _NOT_LAST):
        raise _UnusualError
    return written


@lru_cache(maxsize=4096)
def _special(word: str) -> Any:
    return _text(_meaning(word))


def _meaning(word: str) -> Any:
    """Return the value of a word that may be a number or one of the words with a meaning."""
    value = None if LEADING_ZERO.fullmatch(word) else meaning(word)
    if value is None or (word[0] == "-" and not _NEGATIVE.match(word)):
        raise _UnusualError
    return value


def _in_brackets(text: str) -> Any:
    """Return the value of a text in brackets, which must end with the text."""
    quoted: list[str] = []
    if '"' in text or "'" in text:
        text, quoted = _without_quotes(text)
    inner = text[1:-1]
    if inner and "[" not in inner and "{" not in inner and text[-1] == _END[text[0]]:
        return _flat(inner, [] if text[0] == "[" else {}, quoted)
    return _nested(text, quoted)


def _nested(text: str, quoted: list[str]) -> Any:
    """Return a list or fields with other brackets in them."""
    parts = _SIGN.split(text)
    outer: list[Any] = []
    around: Any = outer
    above: list[Any] = []
    closed = False
    for written, sign in zip(parts[::2], parts[1::2], strict=False):
        if sign in _OPENING:
            if closed or len(above) > _DEEPEST:
                raise _UnusualError
            new: Any = [] if sign == "[" else {}
            _put(around, written, new, quoted)
            above.append(around)
            around = new
            continue
        if written:
            if closed:
                raise _UnusualError
            _put_word(around, written, quoted)
        elif not closed and (around or sign == ","):
            raise _UnusualError
        closed = sign != ","
        if closed:
            around = _close(around, above, sign)
    if not closed or above or len(outer) != 1 or parts[-1]:
        raise _UnusualError
    return outer[0]


def _flat(inner: str, around: Any, quoted: list[str]) -> Any:
    """Return a list or fields without other brackets in them."""
    parts = inner.split(", ")
    if inner.count(",") >= len(parts) or "]" in inner or "}" in inner:
        raise _UnusualError
    for written in parts:
        _put_word(around, written, quoted)
    return around


def _close(around: Any, above: list[Any], sign: str) -> Any:
    """Return what is around a list or fields that end with a sign."""
    if not above or around.__class__ is not _CLOSING[sign]:
        raise _UnusualError
    return above.pop()


def _without_quotes(text: str) -> tuple[str, list[str]]:
    """Return a text with a sign for every text in quotes, and those texts, the last one first."""
    if "\\" in text:
        raise _UnusualError
    if "'" not in text:
        pieces = text.split('"')
        if len(pieces) % 2 == 0:
            raise _UnusualError
        return _QUOTED.join(pieces[::2]), pieces[-2::-2]
    quoted = [one[1:-1] if one[0] == '"' else one[1:-1].replace("''", "'") for one in _TEXT_IN_QUOTES.findall(text)]
    quoted.reverse()
    text = _TEXT_IN_QUOTES.sub(_QUOTED, text)
    if '"' in text:
        raise _UnusualError
    return text, quoted


def _put(around: Any, before: str, new: Any, quoted: list[str]) -> None:
    """Put a list or fields into those around; ``before`` is what stands in front of the bracket."""
    if around.__class__ is list:
        if before:
            raise _UnusualError
        around.append(new)
        return
    name = before[:-2]
    name = quoted.pop() if name == _QUOTED else _name(name)
    if before[-2:] != ": " or name in around:
        raise _UnusualError
    around[name] = new


def _put_word(around: Any, written: str, quoted: list[str]) -> None:
    """Put what stands between two commas into the list or the fields around it."""
    if around.__class__ is list:
        around.append(quoted.pop() if written == _QUOTED else _word_in_brackets(written))
        return
    name, colon, word = written.partition(": ")
    name = quoted.pop() if name == _QUOTED else _name(name)
    if not colon or name in around:
        raise _UnusualError
    around[name] = quoted.pop() if word == _QUOTED else _word_in_brackets(word)


def _word_in_brackets(written: str) -> Any:
    """Return what a text without quotes means in brackets."""
    first = written[:1]
    if first in FIRST_OF_SPECIAL:
        return _word_in_brackets_checked(written)
    if first in _SIGNS or ":" in written or "#" in written or written[-1:] in _NOT_LAST:
        return _word_in_brackets_checked(written)
    if _QUOTED in written:
        raise _UnusualError
    return written


def _word_in_brackets_checked(written: str) -> Any:
    written = written.rstrip(" ")
    if ":?" in written or _QUOTED in written or (written[:1] in _SIGNS and written[:1] != "-"):
        raise _UnusualError
    return _word(written)
