"""Something is swung or flies, but the floor keeps no safety distance.

Fails:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    floor: {length: 2 m, width: 2 m}

Passes:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    floor: {length: 2 m, width: 2 m, safety: 1 m}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK241", "distance-unsaid", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for swung or thrown equipment on a floor without a safety distance."""
    assert isinstance(record, Activity)
    if record.floor.safety is not None:
        return
    for need in record.equipment:
        item = context.library.items.get(need.item)
        if item is not None and (item.swung or item.thrown):
            how = "swung" if item.swung else "thrown or hit"
            yield Fault(
                ("floor",), f"A {item.title.lower()} is {how} here, but floor has no safety distance.", None, True
            )
            return
