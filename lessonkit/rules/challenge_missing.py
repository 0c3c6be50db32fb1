"""An activity has no easier or no harder version, or says nothing of how everyone takes part.

In every class someone needs more room, more time or more challenge. A closing talk needs none of these.

Fails:

    easier: []

Passes:

    easier: [Use a balloon.]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK252", "challenge-missing", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every empty list among easier, harder and the four kinds of inclusion."""
    assert isinstance(record, Activity)
    for name in ("easier", "harder"):
        if not getattr(record, name):
            yield Fault((name,), f"There is no {name} version.", None, True)
    for name in ("space", "task", "equipment", "people"):
        if not getattr(record.inclusion, name):
            yield Fault(("inclusion",), f"Inclusion says nothing of changes to {name}.", None, True)
