"""An activity that teaches has no cue.

A few words that a child can say along are what is left when the explaining is over. A closing needs none.

Fails:

    parts: [practice]
    cues: []

Passes:

    parts: [practice]
    cues: [Face flat like a tray]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK254", "cue-missing", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where an activity, or a version of it, has no cue."""
    assert isinstance(record, Activity)
    if set(record.parts) == {"closing"}:
        return
    for taught in as_taught(record, "cues"):
        if not taught.activity.cues:
            yield Fault(taught.place("cues"), "There is no cue; give the children a few words that help.", None, True)
