"""Metres in running words said in feet: a school that counts in feet reads ``7 feet`` where an author wrote two meters.

Words are rounded to the foot, below a metre to the inch, as one paces them out; exact lengths are in the record's own
fields. What keeps children safe is rounded up. Feet are not turned into metres: the word also names what children stand
on.
"""

import re
from collections.abc import Callable, Mapping
from math import ceil
from typing import Final, TypeVar, cast

import msgspec

from lessonkit.logistics.lengths import NO_BREAK

_WORDS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_VALUES: Final = {word: float(value) for value, word in enumerate(_WORDS, 1)} | {
    "a": 1.0,
    "half a": 0.5,
    "a half": 0.5,
    "fifteen": 15.0,
    "twenty": 20.0,
}
_AMOUNT: Final = "|".join([*sorted(_VALUES, key=len, reverse=True), r"\d+(?:\.\d+)?"])
_METRES: Final = re.compile(
    rf"\b(?P<first>{_AMOUNT})(?P<half> and a half)?"
    rf"(?:(?P<between> to | or | and | by )(?P<last>{_AMOUNT})(?P<last_half> and a half)?)?"
    rf"(?:[ {NO_BREAK}](?P<clear>clear )?|(?P<hyphen>-)|(?<=\d))(?:m|met(?:er|re)s?)\b(?P<more> and a half)?",
    re.IGNORECASE,
)
_CENTIMETRES: Final = re.compile(rf"\b(\d+(?:\.\d+)?)[ {NO_BREAK}]?(?:cm|centimet(?:er|re)s?)\b")
_FOOT: Final = 0.3048
_INCH: Final = 0.0254
_INCH_OF_CM: Final = 0.01 / _INCH
_TINY: Final = 0.01
_KEEPS_SAFE: Final = frozenset({"safety", "stop_signal", "never"})
"""Fields whose lengths must not come out shorter than they were written."""
Value = TypeVar("Value")
Rounded = Callable[[float], int]


def prose_in_feet(words: str, *, keeps_safe: bool = False) -> str:
    """Return words with every length in metres said in feet; anything else stays letter by letter.

    With ``keeps_safe`` no length comes out shorter than it was written.
    """
    if "m" not in words:
        return words
    rounded = _up if keeps_safe else round
    in_feet = _METRES.sub(lambda found: _in_feet(found, rounded), words)
    return _CENTIMETRES.sub(lambda found: f"{rounded(float(found[1]) * _INCH_OF_CM)} inches", in_feet)


def _up(amount: float) -> int:
    return ceil(amount - _TINY)


def _in_feet(found: re.Match[str], rounded: Rounded) -> str:
    first = _metres(found["first"], found["half"] or found["more"])
    clear = found["clear"] or ""
    if found["last"] is None:
        amount, unit = _said(first, rounded)
        amount = amount.capitalize() if found["first"][0].isupper() else amount
        if found["hyphen"]:
            return f"{amount}-{unit.replace('feet', 'foot').replace('inches', 'inch')}"
        return f"{'a ' if clear else ''}{clear}{amount} {unit}"
    last = _metres(found["last"], found["last_half"] or found["more"])
    (low, low_unit), (high, unit) = _said(first, rounded), _said(last, rounded)
    said = f"{low}{'' if low_unit == unit else ' ' + low_unit}{found['between']}{high} {unit}"
    return said[:1].upper() + said[1:] if found["first"][0].isupper() else said


def _metres(amount: str, half: str | None) -> float:
    known = _VALUES.get(amount.lower())
    return (float(amount) if known is None else known) + (0.5 if half else 0.0)


def _said(metres: float, rounded: Rounded) -> tuple[str, str]:
    """Return whole feet, in words up to twelve, or below a metre inches."""
    if metres < 1:
        return str(rounded(metres / _INCH)), "inches"
    feet = rounded(metres / _FOOT)
    return _WORDS[feet - 1] if feet <= len(_WORDS) else str(feet), "feet"


def all_in_feet(value: Value) -> Value:
    """Return a record, or a part of one, with the metres in all of its words said in feet."""
    return cast(Value, _converted(value, keeps_safe=False))


def _converted(value: object, *, keeps_safe: bool) -> object:
    if isinstance(value, str):
        return prose_in_feet(value, keeps_safe=keeps_safe)
    if isinstance(value, tuple):
        return tuple(_converted(each, keeps_safe=keeps_safe) for each in value)
    if isinstance(value, msgspec.Struct):
        fields = {name: getattr(value, name) for name in value.__struct_fields__}
        changed = {name: _converted(was, keeps_safe=keeps_safe or name in _KEEPS_SAFE) for name, was in fields.items()}
        changed = {name: new for name, new in changed.items() if new is not fields[name] and new != fields[name]}
        return msgspec.structs.replace(value, **changed) if changed else value
    if isinstance(value, Mapping):
        return {key: _converted(each, keeps_safe=keeps_safe) for key, each in value.items()}
    return value
