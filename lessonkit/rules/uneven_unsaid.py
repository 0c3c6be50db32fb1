"""An activity in groups does not say what an odd number of children does.

Few classes divide evenly. A substitute who reads no rule leaves a child standing.

Fails:

    organisation: {form: pairs}

Passes:

    organisation:
      form: pairs
      uneven: {rule: larger-group, say: One group of three sends the ball round a triangle.}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK231", "uneven-unsaid", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where groups of a fixed size have no rule for the children left over."""
    assert isinstance(record, Activity)
    if record.organisation.form in ("pairs", "threes", "fours", "teams") and record.organisation.uneven is None:
        says = f"The children work in {record.organisation.form}, but nothing says what the children left over do."
        yield Fault(("organisation",), says, "Add uneven with a rule and what to say.", True)
