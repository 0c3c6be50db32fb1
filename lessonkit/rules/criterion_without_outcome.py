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
from lessonkit.rules.codes_of import codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK215", "criterion-without-outcome", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every outcome of ``look_for`` that is not among the activity's, where it stands first.

    While one of the activity's own codes is wrong, that code may be the one that the criterion is for.
    """
    assert isinstance(record, Activity)
    served = {code for codes in record.outcomes.values() for code in codes}
    asked = {entry.outcome for taught in as_taught(record, "look_for") for entry in taught.activity.look_for}
    if asked <= served:
        return
    if any(
        named.framework.complete and named.code not in named.framework.by_code
        for named in codes_of(record, context.library)
    ):
        return
    hint = f"The activity's outcomes: {', '.join(sorted(served))}."
    said: set[str] = set()
    for taught in as_taught(record, "look_for"):
        for number, entry in enumerate(taught.activity.look_for):
            if entry.outcome not in served and entry.outcome not in said:
                said.add(entry.outcome)
                says = f"The criterion is for {entry.outcome}, which is not among the activity's outcomes."
                yield Fault((*taught.place("look_for"), number, "outcome"), says, hint)
