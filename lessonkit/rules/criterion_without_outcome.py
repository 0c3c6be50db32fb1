"""A criterion belongs to an outcome that the activity does not serve.

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
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.closest import closest
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK215", "criterion-without-outcome", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every entry of ``look_for`` whose outcome is not among the activity's."""
    assert isinstance(record, Activity)
    served = {code for codes in record.outcomes.values() for code in codes}
    for number, entry in enumerate(record.look_for):
        if entry.outcome not in served:
            meant = closest(entry.outcome, served)
            hint = f"Did you mean {meant.upper() if meant not in served else meant!r}?" if meant else None
            says = f"The criterion is for {entry.outcome}, which is not among the activity's outcomes."
            yield Fault(("look_for", number, "outcome"), says, hint)
