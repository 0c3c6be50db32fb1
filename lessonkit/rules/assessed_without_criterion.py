"""An activity assesses an outcome but does not say what to look for.

A teacher with a class list in hand needs a criterion that can be seen. Every outcome that is assessed has an entry of
its own under look_for.

Fails:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised, assessed]
    look_for: []

Passes:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised, assessed]
    look_for:
      - outcome: S1.E24.3a
        criterion: Three hits in a row go forward.
        i_can: I can hit the ball forward.
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK214", "assessed-without-criterion", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every assessed outcome without an entry in ``look_for``."""
    assert isinstance(record, Activity)
    looked_for = {entry.outcome for entry in record.look_for}
    for framework, codes in record.outcomes.items():
        for code, ways in codes.items():
            if "assessed" in ways and code not in looked_for:
                says = f"{code} is assessed here, but look_for has no criterion for it."
                yield Fault(("outcomes", framework, code), says, "Add one to look_for.", True)
