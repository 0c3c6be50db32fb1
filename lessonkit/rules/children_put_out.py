"""The steps put children out of an activity and never say how they come back.

The child who is out first is most often the one who needs the practice most. A way back within a minute keeps the
game and the moving time.

Fails:

    steps: |
      1. Everyone taps a ball up around the hall.
      2. Whoever drops the ball is out and sits on the bench.
      3. The last one standing wins.

Passes:

    steps: |
      1. Everyone taps a ball up around the hall.
      2. Whoever drops the ball is out, does five taps at the wall and comes back in.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK235", "children-put-out", Level.WARNING), (Activity,))

_OUT: Final = re.compile(
    r"\beliminat(?:e|es|ed|ion)\b"
    r"|\bknock(?:s|ed)?\s+out\b(?!\s+of\b)"
    r"|\bsit(?:s|ting)?\s+out\b"
    r"|\blast\s+(?:one|child|player|pair|team)\s+(?:standing|left|in)\b"
    r"|\b(?:you|they|child|children|player|players|pair|team|tagged|caught|hit)\s+(?:is|are)\s+out\b"
    r"(?!\s+of\b)(?!\s+(?:at|in|on|by|to|from)\b)",
    re.IGNORECASE,
)
_WHO_IS_OUT: Final = re.compile(r"\bwho(?:ever)?\b[^.;:]*\bis\s+out\b(?!\s+of\b)", re.IGNORECASE)
_BACK: Final = re.compile(
    r"\b(?:comes?|goes|go|gets?|is|are|jumps?|walks?|runs?)\s+(?:straight\s+)?back\b|\bback\s+in(?:to)?\b"
    r"|\brejoins?\b|\breturns?\b|\bre-?enters?\b|\bplays?\s+on\b|\bchanges?\s+in\b|\bjoins?\s+(?:in\s+)?again\b",
    re.IGNORECASE,
)
_NOBODY: Final = re.compile(
    r"\b(?:nobody|no\s+one|no\s+child|none|never|not|no\s+player|without)\b|n't\b", re.IGNORECASE
)
_SENTENCE: Final = re.compile(r"(?<=[.!?])\s+|\n+")

_SIGNS: Final = (
    *("eliminat", "knock out", "knocks out", "knocked out", "sit out", "sits out", "sitting out"),
    *("last one", "last child", "last player", "last pair", "last team", "is out", "are out"),
)
"""One of these stands in all steps that put children out; looking for them is quick."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for the first sentence that puts children out, where nothing in the steps brings them back."""
    assert isinstance(record, Activity)
    whole = " ".join(record.steps.lower().split())
    if not any(sign in whole for sign in _SIGNS):
        return
    for sentence in _SENTENCE.split(record.steps):
        found = _OUT.search(sentence) or _WHO_IS_OUT.search(sentence)
        if found and not _NOBODY.search(sentence):
            if not _BACK.search(record.steps):
                says = f"The steps put children out ({found.group(0)!r}) and do not say how they come back."
                yield Fault(("steps",), says, "Say what brings a child back in within a minute.", True)
            return
