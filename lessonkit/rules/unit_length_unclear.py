"""A unit must say how long it is: lessons or weeks, and not both.

The sequencer fills as many lessons as the unit has; it does not guess.

Fails (in a unit):

    lessons: 8
    weeks: 4

Passes:

    lessons: 8
"""

from collections.abc import Iterator

from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK272", "unit-length-unclear", Level.ERROR), (Unit,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for a unit with neither lessons nor weeks, or with both."""
    assert isinstance(record, Unit)
    if record.lessons is None and record.weeks is None:
        yield Fault(("start",), "The unit says neither lessons nor weeks.", "Add lessons: 8, for example.", True)
    if record.lessons is not None and record.weeks is not None:
        yield Fault(("weeks",), "The unit says both lessons and weeks; keep one of them.", None, True)
