"""An activity has no easier or no harder version.

In every class someone needs more time and someone more challenge; a teacher should not have to invent both on the spot.

Fails:

    easier: []

Passes:

    easier: [Use a balloon.]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK252", "challenge-missing", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for an empty list under easier or harder, the versions' own included."""
    assert isinstance(record, Activity)
    for name in ("easier", "harder"):
        for taught in as_taught(record, name):
            if not getattr(taught.activity, name):
                yield Fault(taught.place(name), f"There is no way to make it {name}.", None, True)
