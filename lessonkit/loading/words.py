"""What a word without quotes means in YAML 1.2: a number, yes or no, nothing, or itself.

Only true and false are yes-or-no values (YAML 1.2, core schema): ``no``, ``off``, ``1:30`` and ``2026-01-05`` are
words. Of that schema, ``.inf`` and ``.nan`` stay words too.
"""

import re
from typing import Any, Final

DIGITS: Final = 300
"""Digits of the longest number; a longer one stays a word."""
FIRST_OF_SPECIAL: Final = frozenset("0123456789-+.nNtTfF~")
"""What every word begins with that may be something else than itself; the empty word is nothing."""
LEADING_ZERO: Final = re.compile(r"[-+]?0[0-9]+")
"""A number that starts with a zero, which has two meanings in the world, so that nobody should write it."""

_EXACT: Final = 2.0**53
"""Up to here a number with a point and nothing behind it is the whole number it looks like."""
_INTEGER: Final = re.compile(r"[-+]?[0-9]+")
_OTHER_INTEGER: Final = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_DECIMAL: Final = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_WORDS: Final[dict[str, Any]] = {
    **dict.fromkeys(("null", "Null", "NULL", "~", "")),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}


def meaning(word: str) -> Any:
    """Return what a word without quotes means. A number that starts with a zero counts as the number."""
    if word in _WORDS:
        return _WORDS[word]
    return number(word)


def number(text: str) -> int | float | str:
    """Return the number that a plain word is in YAML 1.2, or the word itself."""
    if len(text) > DIGITS:
        return text
    if _INTEGER.fullmatch(text):
        return int(text)
    if _OTHER_INTEGER.fullmatch(text):
        return int(text, 0)
    if not _DECIMAL.fullmatch(text):
        return text
    value = float(text)
    if value.is_integer() and abs(value) <= _EXACT:
        return int(value)
    return value if abs(value) != float("inf") else text
