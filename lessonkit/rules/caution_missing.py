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

from collections.abc import Iterable, Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK246", "caution-missing", Level.WARNING), (Activity,))
_DEFERS: Final = (
    *("school", "local", "district", "licensed", "trained", "qualified", "medical", "nurse", "physician", "doctor"),
    *("therapist", "policy", "policies", "staff"),
)
_SWINGS: Final = (
    *("swing", "swung", "reach", "apart", "space", "distance", "room", "clear", "free", "still", "hold", "hug", "low"),
    "lane",
)
_ITEMS: Final = {
    "mat": (("land", "roll", "edge"), Pattern(r"\bmats?\b"), "mats are used"),
    "bench": (("bench", "step", "climb", "edge", "tip", "carr"), None, "benches are used"),
    "long-rope": (("turn", "enter", "trip"), Pattern(r"\bropes?\b"), "long ropes are turned"),
    "balloon": (("balloon", "latex", "burst"), None, "balloons are used"),
    "parachute": (("parachute", "silk", "cloth", "under"), None, "a parachute is lifted"),
}
"""What to look for where an item is used: parts of words, whole words, and what the finding says."""


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every usual caution that no sentence of an activity's safety speaks of."""
    assert isinstance(record, Activity)
    said = "\n".join(record.safety).lower()
    for what in _missing(record, said, context):
        yield Fault(("safety",), f"No sentence of safety says what to look out for where {what}.", on_key=True)
    if not _has(said, _DEFERS):
        says = "No sentence of safety leaves the last word to the school's own rules, medical plans or trained staff."
        yield Fault(("safety",), says, on_key=True)


def _missing(record: Activity, said: str, context: Context) -> Iterator[str]:
    items = [context.library.items.get(need.item) for need in record.equipment]
    swung = next((item for item in items if item is not None and item.swung), None)
    if swung is not None and not _has(said, _SWINGS):
        yield f"{swung.plural} are swung"
    for need in record.equipment:
        parts, whole, what = _ITEMS.get(need.item, ((), None, ""))
        if parts and not _has(said, parts) and not (whole is not None and whole.search(said)):
            yield what


def _has(said: str, parts: Iterable[str]) -> bool:
    """Tell whether small letters have one of some parts of words in them."""
    return any(part in said for part in parts)
