"""Getting ready takes longer than the activity itself.

Children stand about while cones are set out. What takes that long is better set up before the lesson, or used for two
activities in a row.

Fails:

    minutes: {least: 4, usual: 5, most: 8, setup: 6}

Passes:

    minutes: {least: 4, usual: 5, most: 8, setup: 2}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK222", "setup-too-long", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where the set-up takes more minutes than the activity usually does."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "minutes"):
        minutes = taught.activity.minutes
        if minutes.setup > minutes.usual:
            says = f"The set-up of {minutes.setup} minutes is longer than the activity's usual {minutes.usual}."
            yield Fault((*taught.place("minutes"), "setup"), says)
