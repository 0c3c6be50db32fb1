"""Spaces that must not break: between a number and its unit, and around a multiplication sign."""

import re

_NO_BREAK = "\u00a0"
_UNITS = (
    "mm|cm|m|km|g|kg|ml|l|s|min|h|sec|secs|mins|ft|yd|lb|oz|"
    "second|seconds|minute|minutes|hour|hours|meter|meters|metre|metres|foot|feet|inch|inches|yard|yards|"
    "step|steps|point|points|%|°C|°F"
)
_NUMBER_AND_UNIT = re.compile(rf"(?<=[0-9]) (?=(?:{_UNITS})(?!\w))")
_TIMES = re.compile("(?<=[0-9a-z]) \u00d7 (?=[0-9])")


def bind_units(words: str) -> str:
    """Return the words with a no-break space in ``4 m``, ``35 minutes`` and around a multiplication sign."""
    bound = _NUMBER_AND_UNIT.sub(_NO_BREAK, words)
    return _TIMES.sub(f"{_NO_BREAK}\u00d7{_NO_BREAK}", bound) if "\u00d7" in bound else bound
