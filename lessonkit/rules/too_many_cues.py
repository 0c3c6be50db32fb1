"""Children up to grade 2 are given more than three cues at once.

The youngest hold one or two things in mind while they move; three cues are plenty (common practice, no source).

Fails:

    grades: K-2
    outcomes:
      us-pe-2013:
        S1.E24.2: [practised]
    cues: [Flat face, Soft knees, Eyes up, Tap low]

Passes:

    grades: K-2
    outcomes:
      us-pe-2013:
        S1.E24.2: [practised]
    cues: [Flat face, Soft knees, Eyes up]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK255", "too-many-cues", Level.WARNING), (Activity,))
MOST_CUES = 3
_YOUNGEST = frozenset({"K", "1", "2"})


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for a record for K to 2 only, or a version for such a grade, with more than three cues."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "cues"):
        band = record.grades if taught.version is None else record.versions[taught.version].grades
        number = len(taught.activity.cues)
        if band.last in _YOUNGEST and number > MOST_CUES:
            says = f"{number} cues at once are too many for children up to grade 2; {MOST_CUES} are plenty."
            yield Fault(taught.place("cues"), says, None, True)
