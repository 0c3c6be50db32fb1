"""Reading from an activity's words whether what could be thrown flies, or only rolls or is carried.

The words are common practice of the trade, no source.
"""

import re
from collections.abc import Iterable
from enum import Enum
from typing import Final

from lessonkit.source.pattern import Pattern


class Flight(Enum):
    """What sentences say of the things that could be thrown."""

    FLIES = "flies"
    STAYS_LOW = "stays low"
    UNSAID = "unsaid"


_THING: Final = r"(?:\w*balls?|\w*bags?|balloons?|scar(?:f|ves)|rings?|discs?|it|them|one|both)"
_FLIES: Final = Pattern(
    r"\b(?:throw(?:s|n|ing|er)?|threw|toss(?:es|ed|ing)?|(?<!it )(?<!ball )(?<!bag )hits?|hitting|strik(?:es?|ing)"
    r"|struck|kick(?:s|ed|ing)?|volley(?:s|ed|ing)?|bats?|batt(?:ed|ing)|serv(?:es?|ed|ing)|fling(?:s|ing)?|flung|hurls?"
    r"|lob(?:s|bed|bing)?|juggl(?:e|es|ed|ing)|sho(?:ots?|oting|t)|rall(?:y|ies)|bounce\s+pass(?:es)?"
    r"|overhand|underhand|overarm|underarm)\b"
    rf"|\b{_THING}\s+fl(?:y|ies)\b|\b(?:in|into|through)\s+the\s+air\b|\bin\s+an\s+arch\b|\bkeeps?\s+(?:\w+\s+){{1,3}}up\b"
    rf"|\b(?:taps?|lifts?)\s+(?:\w+\s+){{0,3}}?(?:{_THING}\s+)?up\b|\btaps?\s+(?:\w+\s+){{0,2}}?balloons?\b",
    re.IGNORECASE,
)
_MAY_FLY: Final = Pattern(
    rf"\b(?:pass(?:es)?|catch(?:es)?|taps?|punch(?:es)?|sends?|aims?|bounces?)\s+(?:\w+\s+){{0,3}}?{_THING}\b"
    r"|\b(?:and|to|then|or)\s+catch(?:es)?\b(?!\s+(?:up|a\s+(?:tail|fox|runner|child)|somebody|someone|you))",
    re.IGNORECASE,
)
_GOES_LOW: Final = Pattern(
    r"\broll(?:s|ed|ing)?\b|\bslid(?:e|es|ing)?\b|\bpush(?:es|ed|ing)?\b|\bnudg(?:e|es|ing)\b|\bsweep(?:s|ing)?\b"
    r"|\bdribbl(?:e|es|ed|ing)\b|\b(?:along|across|on)\s+the\s+(?:floor|ground|mat)\b",
    re.IGNORECASE,
)
_IS_HELD: Final = Pattern(
    r"\bcarr(?:y|ies|ied|ying)\b|\bdrag(?:s|ged)?\b|\bbalanc(?:e|es|ed|ing)\b|\blays?\b|\blaid\b|\btucks?\b"
    r"|\bhand(?:s|ed|ing)?\s+(?:\w+\s+){0,2}over\b|\bhand\s+to\s+hand\b|\bh(?:olds?|eld)\s+(?:\w+\s+){0,3}"
    rf"{_THING}\b|\b(?:sets?|puts?|places?)\s+(?:\w+\s+){{0,4}}(?:down|on|into|in|beside|at)\b",
    re.IGNORECASE,
)
_PASSED_ON: Final = Pattern(
    rf"\b(?:pass(?:es)?|sends?)\s+(?:\w+\s+){{0,3}}?{_THING}\s+(?:\w+\s+){{0,2}}?"
    r"(?:along|round|around|on|under|over|behind|hand\s+to\s+hand|between|from\s+hand)\b",
    re.IGNORECASE,
)
_NOT: Final = Pattern(
    r"(?:\b(?:not|never|no|without|instead\s+of|rather\s+than|nor|nothing\s+is|nobody)|n['\u2019]t)"
    r"\s+(?:(?:be|is|are|to|any|ever|a|an|or|kick|kicked|throws?|thrown|toss|tossed|hits?)\s+)*$",
    re.IGNORECASE,
)
_SENTENCE: Final = Pattern(r"(?<=[.!?;:])\s+|\n\s*\n|\n(?=\s*(?:\d+[.)]|[-*])\s)")


def flight(texts: Iterable[str]) -> tuple[Flight, str]:
    """Return what texts say of flying, and the sentence that says that something flies, or nothing.

    What is passed or caught flies unless the texts say that it rolls, slides or goes from hand to hand.
    """
    sentences = [" ".join(each.split()) for text in texts for each in _SENTENCE.split(text)]
    flies = next((each for each in sentences if _says(_FLIES, each)), None)
    goes_low = any(_GOES_LOW.search(each) for each in sentences)
    if flies is None and not goes_low:
        flies = next((each for each in sentences if _says(_MAY_FLY, _PASSED_ON.sub("", each))), None)
    if flies is not None:
        return Flight.FLIES, flies
    held = goes_low or any(_IS_HELD.search(each) or _PASSED_ON.search(each) for each in sentences)
    return (Flight.STAYS_LOW if held else Flight.UNSAID), ""


def _says(flying: Pattern, sentence: str) -> bool:
    """Tell whether a sentence says that something flies, and not that nothing does."""
    return any(not _NOT.search(sentence[: found.start()]) for found in flying.finditer(sentence))
