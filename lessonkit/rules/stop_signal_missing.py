"""Something is swung, but the activity has no stop signal.

Children who swing must all be able to stop at once.

Fails:

    equipment:
      - {item: short-paddle, count: 1, per: child}

Passes:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    stop_signal: Two claps, then every paddle is held against the chest.
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK242", "stop-signal-missing", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for the first swung item of an activity, or of a version of it, without a stop signal."""
    assert isinstance(record, Activity)
    if record.stop_signal:
        return
    for taught in as_taught(record, "equipment"):
        for number, need in enumerate(taught.activity.equipment):
            item = context.library.items.get(need.item)
            if item is not None and item.swung:
                says = f"{item.plural[0].upper()}{item.plural[1:]} are swung here, but there is no stop_signal."
                yield Fault((*taught.place("equipment"), number), says, "Add stop_signal: how you stop everybody.")
                return
