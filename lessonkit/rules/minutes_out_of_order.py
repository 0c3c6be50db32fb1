"""The minutes of an activity do not run from least over usual to most.

The sequencer stretches and shortens an activity between its least and its most minutes; in another order no length is
right.

Fails:

    minutes: {least: 8, usual: 6, most: 10}

Passes:

    minutes: {least: 5, usual: 6, most: 10}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK221", "minutes-out-of-order", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield faults for the activity's minutes and for those of its versions."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "minutes"):
        minutes = taught.activity.minutes
        if not minutes.least <= minutes.usual <= minutes.most:
            order = f"Least {minutes.least}, usual {minutes.usual} and most {minutes.most} minutes"
            yield Fault(taught.place("minutes"), f"{order} are not in rising order.")
