"""The minutes of an activity do not run from least over usual to most, or the set-up takes longer than the activity.

Fails:

    minutes: {least: 8, usual: 6, most: 10}

Passes:

    minutes: {least: 5, usual: 6, most: 10}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity, Minutes
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK221", "minutes-out-of-order", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield faults for the activity's minutes and for those of its versions."""
    assert isinstance(record, Activity)
    yield from _minutes(record.minutes, ("minutes",))
    for number, version in enumerate(record.versions):
        if version.minutes is not None:
            yield from _minutes(version.minutes, ("versions", number, "minutes"))


def _minutes(minutes: Minutes, field: FieldPath) -> Iterator[Fault]:
    if not minutes.least <= minutes.usual <= minutes.most:
        says = f"Least {minutes.least}, usual {minutes.usual} and most {minutes.most} minutes are not in rising order."
        yield Fault(field, says)
    if minutes.setup > minutes.most:
        says = f"The set-up of {minutes.setup} minutes is longer than the activity's {minutes.most}."
        yield Fault((*field, "setup"), says, level=Level.WARNING)
