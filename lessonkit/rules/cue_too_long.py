"""A cue has more than seven words, or there are more than three for the youngest.

A cue is called out while children move; what is longer is not heard (common practice, no source).

Fails:

    cues: [Keep your paddle flat like a tray when the ball comes down to you]

Passes:

    cues: [Face flat like a tray]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK251", "cue-too-long", Level.WARNING), (Activity,))
MOST_WORDS = 7
MOST_CUES_FOR_YOUNGEST = 3
_YOUNGEST = frozenset({"K", "1", "2"})


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every long cue, for too many cues at once for K to 2, and for none at all."""
    assert isinstance(record, Activity)
    if not record.cues:
        yield Fault(("cues",), "There is no cue; give the children a few words that help.", None, True)
    yield from _cues(record.cues, ("cues",), record.grades.last in _YOUNGEST)
    for number, version in enumerate(record.versions):
        yield from _cues(version.cues or (), ("versions", number, "cues"), version.grades.first in _YOUNGEST)


def _cues(cues: tuple[str, ...], field: FieldPath, youngest: bool) -> Iterator[Fault]:
    for number, cue in enumerate(cues):
        words = len(cue.split())
        if words > MOST_WORDS:
            yield Fault((*field, number), f"This cue has {words} words; children hear {MOST_WORDS} at most.")
    if youngest and len(cues) > MOST_CUES_FOR_YOUNGEST:
        says = f"{len(cues)} cues are too many at once for children up to grade 2; {MOST_CUES_FOR_YOUNGEST} are plenty."
        yield Fault(field, says, None, True)
