"""An outcome code has no outcome at its grade.

The framework lists the cell, but says that the skill starts in a later grade, is applied rather than taught, or is
covered by another outcome. The code may stand, but it proves nothing in a coverage report.

Fails:

    grades: 3-5
    outcomes:
      us-pe-2013:
        S1.E9.3: [practised]

Passes:

    grades: 2-5
    outcomes:
      us-pe-2013:
        S1.E9.2: [practised]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.framework import Outcome
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.codes_of import codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK212", "outcome-not-active", Level.WARNING), (Activity, Unit))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every code whose cell holds no outcome."""
    for named in codes_of(record, context.library):
        outcome = named.framework.by_code.get(named.code)
        if outcome is not None and outcome.status != "active":
            says = f"{named.code} has no outcome of its own: {_reason(outcome)}."
            yield Fault(named.field, says, None, named.on_key)


def _reason(outcome: Outcome) -> str:
    match outcome.status:
        case "emerging":
            return f"it starts in grade {outcome.first_grade}" if outcome.first_grade else "it starts in a later grade"
        case "applies-skill":
            return "the skill is applied in this grade, not taught anew"
        case _:
            return f"see {outcome.see}" if outcome.see else "the framework leaves the cell empty"
