"""The usual caution for what an activity uses is missing, or the last word on safety is not left to the school.

Swung implements need free space around them, mats and benches a word on how they are used, and jumping a soft landing
(common practice, no source). Every activity leaves the last word to the school's own rules, to medical plans or to
trained or licensed staff, because a record cannot know a school.

Fails:

    safety: [Have fun.]

Passes:

    safety:
      - Look for a free swing on all sides first.
      - Follow your school's own rules.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK246", "caution-missing", Level.WARNING), (Activity,))
_DEFERS: Final = re.compile(
    r"school|local|district|licensed|trained|qualified|medical|nurse|physician|doctor|therapist|polic(?:y|ies)|staff",
    re.IGNORECASE,
)
_SWINGS: Final = re.compile(
    r"swing|swung|reach|apart|space|distance|room|clear|free|still|hold|hug|low|lane", re.IGNORECASE
)
_ITEMS: Final = {
    "mat": (re.compile(r"\bmats?\b|land|roll|edge", re.IGNORECASE), "mats are used"),
    "bench": (re.compile(r"bench|step|climb|edge|tip|carr", re.IGNORECASE), "benches are used"),
    "long-rope": (re.compile(r"\bropes?\b|turn|enter|trip", re.IGNORECASE), "long ropes are turned"),
    "balloon": (re.compile(r"balloon|latex|burst", re.IGNORECASE), "balloons are used"),
    "parachute": (re.compile(r"parachute|silk|cloth|under", re.IGNORECASE), "a parachute is lifted"),
}


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every usual caution that no sentence of an activity's safety speaks of."""
    assert isinstance(record, Activity)
    said = "\n".join(record.safety)
    for what in _missing(record, said, context):
        yield Fault(("safety",), f"No sentence of safety says what to look out for where {what}.", on_key=True)
    if not _DEFERS.search(said):
        says = "No sentence of safety leaves the last word to the school's own rules, medical plans or trained staff."
        yield Fault(("safety",), says, on_key=True)


def _missing(record: Activity, said: str, context: Context) -> Iterator[str]:
    items = [context.library.items.get(need.item) for need in record.equipment]
    swung = next((item for item in items if item is not None and item.swung), None)
    if swung is not None and not _SWINGS.search(said):
        yield f"{swung.plural} are swung"
    for need in record.equipment:
        words, what = _ITEMS.get(need.item, (None, ""))
        if words is not None and not words.search(said):
            yield what
