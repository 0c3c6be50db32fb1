"""One line of a record in the usual layout: what it is, and the value that stands on it."""

import re
import sys
from functools import lru_cache
from typing import Any, Final

from lessonkit.loading.words import FIRST_OF_SPECIAL, LEADING_ZERO, meaning

DEEPEST: Final = 40
"""Values inside each other; far more than any record has, and fewer than the whole reader allows."""
_SIGNS: Final = frozenset(" -?:,[]{}#&*!|>'\"%@`")
"""What no word begins with, a minus in front of a number aside."""
_NEGATIVE: Final = re.compile(r"-[0-9]")
_NOT_LAST: Final = frozenset((":", " ", ""))
_LONGEST_WORD: Final = len("false")
"""Letters of the longest word with a meaning of its own."""
_SHORT: Final = 12
"""Words of fewer letters are looked up rather than read again."""
_NAME: Final = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_ .\-]{0,60}+(?<! )|\"[^\"\\\n]{1,60}\"|'[^'\"\\\n]{1,60}'")
_SIGN: Final = re.compile(r"([\[\]{},]) *")
_TEXT_IN_QUOTES: Final = re.compile(r"\"[^\"]*\"|(?<=[\[{, ])'(?:[^']|'')*'")
_QUOTES: Final = frozenset("\"'")
_OPENING: Final = frozenset("[{")
_END: Final = {"[": "]", "{": "}"}
_CLOSING: Final[dict[str, Any]] = {"]": list, "}": dict}
_QUOTED: Final = "\0"
"""Stands for a text in quotes; it cannot be part of a record's text."""


class UnusualError(Exception):
    """What only the whole reader can read."""


FIELD, OPENS, ITEM, TEXT, ITEM_FIELD, ITEM_OPENS, ITEM_TEXT, DASHES, NOTHING = range(9)
"""What a line is: a field with its value, a field whose lines follow, an item; a field whose text follows after ``|``;
the three sorts of field as the first of an item; several dashes; nothing."""
_FIELDS: Final = (FIELD, OPENS, TEXT)
_FIELDS_OF_ITEM: Final = (ITEM_FIELD, ITEM_OPENS, ITEM_TEXT)
_Line = tuple[int, str, Any]
"""What a line is, the name of its field, and the value."""


KNOWN_LINES: Final[dict[str, tuple[int, _Line]]] = {}
"""Lines that were read before: many stand in several records, which then share their value. It is never changed."""
_MOST_KNOWN: Final = 1 << 15


def line_of(line: str) -> tuple[int, _Line]:
    """Return the indent of a line, and what it is."""
    rest = line.lstrip(" ")
    if not rest and line:
        raise UnusualError
    known = len(line) - len(rest), understood(rest)
    if len(KNOWN_LINES) < _MOST_KNOWN:
        KNOWN_LINES[line] = known
    return known


def understood(rest: str) -> _Line:
    """Return what a line without its indent is."""
    if not rest or rest[0] == "#":
        return NOTHING, "", None
    return _item(rest[2:]) if rest[:2] == "- " else _field(rest, _FIELDS)


def shared(text: str) -> str:
    """Return the same text for a text that was read before."""
    known = _KNOWN_WORDS.get(text)
    if known is None:
        known = text
        if len(_KNOWN_WORDS) < _MOST_KNOWN:
            _KNOWN_WORDS[text] = text
    return known


def _item(rest: str) -> _Line:
    """Return what a line is that begins with a dash; ``rest`` is what stands behind it."""
    first = rest[:1]
    if _is_plain(rest) and ":" not in rest:
        return ITEM, "", rest
    if rest[:2] == "- ":
        return DASHES, "", None
    if first in _SIGNS and (first != '"' or (rest[-1] == '"' and rest.count('"') == 2)):
        return ITEM, "", _value(rest)
    if ": " in rest or rest[-1:] == ":":
        return _field(rest, _FIELDS_OF_ITEM)
    if first in _QUOTES:
        raise UnusualError  # Quotes that do not end on this line, or before its end.
    return ITEM, "", _word(rest)


def _field(rest: str, sorts: tuple[int, int, int]) -> _Line:
    """Return what a field is, as one of three sorts."""
    sort, opens, text = sorts
    name, colon, written = rest.partition(": ")
    if not colon:
        if rest[-1] != ":":
            raise UnusualError
        return opens, _name(rest[:-1]), None
    if _is_plain(written):
        return sort, _name(name), written
    return (text, _name(name), None) if written == "|" else (sort, _name(name), _value(written))


def _is_plain(text: str) -> bool:
    """Tell whether a text is so plain that it means itself: no word, number or sign that YAML knows."""
    return (
        len(text) > _LONGEST_WORD
        and text[0].isalpha()
        and text[-1] not in _NOT_LAST
        and " #" not in text
        and ": " not in text
    )


@lru_cache(maxsize=4096)
def _name(written: str) -> str:
    """Return the name of a field without its quotes."""
    if not _NAME.fullmatch(written):
        raise UnusualError
    return sys.intern(written[1:-1] if written[0] in _QUOTES else written)


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
    raise UnusualError


def _word(written: str) -> Any:
    """Return what a text without quotes means."""
    if written[:1] in FIRST_OF_SPECIAL and not _is_plain(written):
        return _special(written) if len(written) < _SHORT else _text(_meaning(written))
    if ": " in written or " #" in written or written[-1:] in _NOT_LAST:
        raise UnusualError
    return written


def _text(meant: Any) -> Any:
    if meant.__class__ is str and (": " in meant or " #" in meant or meant[-1:] in _NOT_LAST):
        raise UnusualError
    return meant


@lru_cache(maxsize=4096)
def _special(word: str) -> Any:
    return _text(_meaning(word))


def _meaning(word: str) -> Any:
    """Return the value of a word that may be a number or one of the words with a meaning."""
    value = None if LEADING_ZERO.fullmatch(word) else meaning(word)
    if value is None or (word[0] == "-" and not _NEGATIVE.match(word)):
        raise UnusualError
    return value


def _in_brackets(text: str) -> Any:
    """Return the value of a text in brackets, which must end with the text."""
    quoted: list[Any] = []
    if '"' in text or "'" in text:
        text, quoted = _without_quotes(text)
    elif text[0] == "{" and text.count("[") == 1:
        before, _, rest = text.partition("[")
        inner, _, after = rest.partition("]")
        if "{" in inner:
            raise UnusualError
        text, quoted = before + _QUOTED + after, [_flat_list(inner, []) if inner else []]
    inside = text[1:-1]
    if not inside or "[" in inside or "{" in inside or text[-1] != _END[text[0]]:
        return _nested(text, quoted)
    return _flat_list(inside, quoted) if text[0] == "[" else _flat_fields(inside, quoted)


def _nested(text: str, quoted: list[str]) -> Any:
    """Return a list or fields with other brackets in them."""
    parts = _SIGN.split(text)
    outer: list[Any] = []
    around: Any = outer
    above: list[Any] = []
    closed = False
    for written, sign in zip(parts[::2], parts[1::2], strict=False):
        if sign in _OPENING:
            if closed or len(above) > DEEPEST:
                raise UnusualError
            new: Any = [] if sign == "[" else {}
            _put(around, written, new, quoted)
            above.append(around)
            around = new
            continue
        if written:
            if closed:
                raise UnusualError
            _put_word(around, written, quoted)
        elif not closed and (around or sign == ","):
            raise UnusualError
        closed = sign != ","
        if closed:
            around = _close(around, above, sign)
    if not closed or above or len(outer) != 1 or parts[-1]:
        raise UnusualError
    return outer[0]


def _parts(inner: str) -> list[str]:
    """Return what stands between the commas of a text without other brackets in it."""
    parts = inner.split(", ")
    if inner.count(",") >= len(parts) or "]" in inner or "}" in inner:
        raise UnusualError
    return parts


def _flat_list(inner: str, quoted: list[Any]) -> list[Any]:
    around = []
    for written in _parts(inner):
        value = _KNOWN_WORDS.get(written)
        if value is None:
            value = quoted.pop() if written == _QUOTED else _word_in_brackets(written)
        around.append(value)
    return around


def _flat_fields(inner: str, quoted: list[Any]) -> dict[str, Any]:
    around: dict[str, Any] = {}
    for written in _parts(inner):
        name, colon, word = written.partition(": ")
        name = _quoted_name(quoted) if name == _QUOTED else _name(name)
        if not colon or name in around:
            raise UnusualError
        value = _KNOWN_WORDS.get(word)
        if value is None:
            value = quoted.pop() if word == _QUOTED else _word_in_brackets(word)
        around[name] = value
    return around


def _quoted_name(quoted: list[Any]) -> str:
    name = quoted.pop()
    if name.__class__ is not str:
        raise UnusualError
    return name


def _close(around: Any, above: list[Any], sign: str) -> Any:
    """Return what is around a list or fields that end with a sign."""
    if not above or around.__class__ is not _CLOSING[sign]:
        raise UnusualError
    return above.pop()


def _without_quotes(text: str) -> tuple[str, list[str]]:
    """Return a text with a sign for every text in quotes, and those texts, the last one first."""
    if "\\" in text:
        raise UnusualError
    if "'" not in text:
        pieces = text.split('"')
        if len(pieces) % 2 == 0:
            raise UnusualError
        return _QUOTED.join(pieces[::2]), pieces[-2::-2]
    quoted = [one[1:-1] if one[0] == '"' else one[1:-1].replace("''", "'") for one in _TEXT_IN_QUOTES.findall(text)]
    quoted.reverse()
    text = _TEXT_IN_QUOTES.sub(_QUOTED, text)
    if '"' in text:
        raise UnusualError
    return text, quoted


def _put(around: Any, before: str, new: Any, quoted: list[str]) -> None:
    """Put a list or fields into those around; ``before`` is what stands in front of the bracket."""
    if around.__class__ is list:
        if before:
            raise UnusualError
        around.append(new)
        return
    name = before[:-2]
    name = _quoted_name(quoted) if name == _QUOTED else _name(name)
    if before[-2:] != ": " or name in around:
        raise UnusualError
    around[name] = new


def _put_word(around: Any, written: str, quoted: list[str]) -> None:
    """Put what stands between two commas into the list or the fields around it."""
    if around.__class__ is list:
        around.append(quoted.pop() if written == _QUOTED else _word_in_brackets(written))
        return
    name, colon, word = written.partition(": ")
    name = _quoted_name(quoted) if name == _QUOTED else _name(name)
    if not colon or name in around:
        raise UnusualError
    around[name] = quoted.pop() if word == _QUOTED else _word_in_brackets(word)


_KNOWN_WORDS: Final[dict[str, Any]] = {}
"""Short words in brackets that were read before, and what they mean."""


def _word_in_brackets(written: str) -> Any:
    """Return what a text without quotes means in brackets."""
    value = _read_in_brackets(written)
    if len(_KNOWN_WORDS) < _MOST_KNOWN:
        _KNOWN_WORDS[written] = value
    return value


def _read_in_brackets(written: str) -> Any:
    first = written[:1]
    if first in FIRST_OF_SPECIAL:
        return _word_in_brackets_checked(written)
    if first in _SIGNS or ":" in written or "#" in written or written[-1:] in _NOT_LAST:
        return _word_in_brackets_checked(written)
    if _QUOTED in written:
        raise UnusualError
    return written


def _word_in_brackets_checked(written: str) -> Any:
    written = written.rstrip(" ")
    if ":?" in written or _QUOTED in written or (written[:1] in _SIGNS and written[:1] != "-"):
        raise UnusualError
    return _word(written)
