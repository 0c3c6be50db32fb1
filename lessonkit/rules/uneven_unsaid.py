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
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK231", "uneven-unsaid", Level.ERROR), (Activity,))
_FIXED_SIZES = ("pairs", "threes", "fours", "teams")


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where groups of a fixed size have no rule for the children left over."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "organisation"):
        organisation = taught.activity.organisation
        if organisation.form in _FIXED_SIZES and organisation.uneven is None:
            says = f"The children work in {organisation.form}, but nothing says what the children left over do."
            yield Fault(taught.place("organisation"), says, "Add uneven with a rule and what to say.", True)
