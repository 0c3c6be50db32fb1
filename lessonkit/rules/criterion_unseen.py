"""A criterion says what a child knows or feels, which nobody can see or hear.

A teacher with a clipboard decides in a second whether a criterion is met. Name what the child does or says: *points to
the open space* rather than *understands open space* (common practice, no source).

Fails:

    look_for:
      - {outcome: S1.E24.3a, criterion: Understands the swing., i_can: I can swing.}

Passes:

    look_for:
      - {outcome: S1.E24.3a, criterion: Ends the swing with the hand near the shoulder., i_can: I can swing.}
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK258", "criterion-unseen", Level.WARNING), (Activity,))
_UNSEEN: Final = Pattern(
    r"(?:The child |Children |Partners )?(?:always |really |fully )?"
    r"(understands?|knows?|feels?|thinks?|realizes?|appreciates?|enjoys?|believes?|learns?|remembers?"
    r"|is aware|are aware|values?|wants?)\b(?! for\b)",
    re.IGNORECASE,
)


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every criterion that begins with something unseen."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "look_for"):
        for number, each in enumerate(taught.activity.look_for):
            found = _UNSEEN.match(each.criterion)
            if found:
                says = f"Nobody can see or hear whether a child {found[1].lower()}; say what the child does or says."
                yield Fault((*taught.place("look_for"), number, "criterion"), says)
