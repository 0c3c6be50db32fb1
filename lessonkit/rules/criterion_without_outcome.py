"""A criterion belongs to an outcome that the activity does not serve.

What a teacher looks for must prove something: its outcome is one of the activity's own.

Fails:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised]
    look_for:
      - outcome: S1.E24.3b
        criterion: The paddle face is flat.
        i_can: I can keep my paddle flat.

Passes:

    outcomes:
      us-pe-2013:
        S1.E24.3b: [practised]
    look_for:
      - outcome: S1.E24.3b
        criterion: The paddle face is flat.
        i_can: I can keep my paddle flat.
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK215", "criterion-without-outcome", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every entry of ``look_for`` whose outcome is not among the activity's."""
    assert isinstance(record, Activity)
    served = sorted({code for codes in record.outcomes.values() for code in codes})
    hint = f"The activity's outcomes: {', '.join(served)}."
    for taught in as_taught(record, "look_for"):
        for number, entry in enumerate(taught.activity.look_for):
            if entry.outcome not in served:
                says = f"The criterion is for {entry.outcome}, which is not among the activity's outcomes."
                yield Fault((*taught.place("look_for"), number, "outcome"), says, hint)
