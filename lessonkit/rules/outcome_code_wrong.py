"""An outcome code does not exist, is misspelled, or could mean several outcomes.

Codes are looked up in the framework they stand under. A misspelled code that can mean only one outcome is named in the
hint; a code without its letter, where the framework has a, b or c, is ambiguous. The coverage report can count only
exact codes. A well-formed code of a framework that is not complete here is advice: nobody can say whether it exists.

Fails:

    outcomes:
      us-pe-2013:
        S1.E24.3: [practised]

Passes:

    outcomes:
      us-pe-2013:
        S1.E24.3a: [practised]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.codes_of import NamedCode, codes_of
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK211", "outcome-code-wrong", Level.ERROR), (Activity, Unit, Plan))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every code that is not one of its framework's."""
    for named in codes_of(record, context.library):
        if named.code not in named.framework.by_code:
            yield _fault(named)


def _fault(named: NamedCode) -> Fault:
    from lessonkit.outcomes.look_up import Ambiguous, Impossible, Repairable, look_up

    field, code, on_key = named.field, named.code, named.on_key
    match look_up(named.framework, code):
        case Repairable(outcome=outcome):
            says, right = f"The outcome code {code!r} is misspelled.", outcome.code
            return Fault(field, says, f"Write {right}.", on_key, repair=right)
        case Ambiguous(candidates=candidates):
            says = f"The outcome code {code!r} could mean {' or '.join(candidates)}."
            return Fault(field, says, "Write the one you mean.", on_key)
        case Impossible(reason=reason):
            return Fault(field, reason, None, on_key)
        case _:
            title = named.framework.title
            says = f"{title} is not complete here and does not list {code}, so it cannot be checked."
            return Fault(field, says, None, on_key, Level.ADVICE)
