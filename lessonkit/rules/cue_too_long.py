"""A cue has more than seven words.

A cue is called out while children move; what is longer is not heard (common practice, no source).

Fails:

    cues: [Keep your paddle flat like a tray when the ball comes down to you]

Passes:

    cues: [Face flat like a tray]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK251", "cue-too-long", Level.WARNING), (Activity,))
MOST_WORDS = 7


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every cue of the activity and its versions that has too many words."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "cues"):
        for number, cue in enumerate(taught.activity.cues):
            words = len(cue.split())
            if words > MOST_WORDS:
                says = f"This cue has {words} words; children hear {MOST_WORDS} at most."
                yield Fault((*taught.place("cues"), number), says)
