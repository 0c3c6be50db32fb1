"""Spaces that must not break: between a number and its unit or its noun, and around a multiplication sign."""

import re

_NO_BREAK = "\u00a0"
_UNITS = (
    "mm|cm|m|km|g|kg|ml|l|s|min|h|sec|secs|mins|ft|yd|lb|oz|"
    "second|seconds|minute|minutes|hour|hours|meter|meters|metre|metres|foot|feet|inch|inches|yard|yards|"
    "step|steps|point|points|%|°C|°F"
)
_NUMBER_AND_UNIT = re.compile(rf"(?<=[0-9]) (?=(?:{_UNITS})(?!\w))")
_NOUNS = "grade|lesson|station|place|group|squad|team|zone|court|step|page|week|figure|child"
_NOUN_AND_NUMBER = re.compile(rf"\b({_NOUNS}) (?=[0-9])", re.IGNORECASE)
_DIGIT = re.compile("[0-9]")
_BEFORE_NUMBER = re.compile(" [0-9]")
_TIMES = re.compile("(?<=[0-9a-z]) \u00d7 (?=[0-9])")


def bind_units(words: str) -> str:
    """Return the words with no-break spaces in ``4 m``, ``35 minutes``, ``lesson 4`` and around a times sign."""
    if not _DIGIT.search(words):
        return words
    bound = _NUMBER_AND_UNIT.sub(_NO_BREAK, words)
    if _BEFORE_NUMBER.search(bound):
        bound = _NOUN_AND_NUMBER.sub(rf"\1{_NO_BREAK}", bound)
    return _TIMES.sub(f"{_NO_BREAK}\u00d7{_NO_BREAK}", bound) if "\u00d7" in bound else bound
