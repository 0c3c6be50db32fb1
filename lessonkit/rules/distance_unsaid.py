"""Something is swung or flies, but the floor keeps no safety distance.

The distance is what keeps a swing or a stray ball from the neighbours. How far is for the teacher and the school's own
rules to say; lessonkit only asks that it is said.

Fails:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    stop_signal: Two claps.
    floor: {length: 2 m, width: 2 m}

Passes:

    equipment:
      - {item: short-paddle, count: 1, per: child}
    stop_signal: Two claps.
    floor: {length: 2 m, width: 2 m, safety: 1 m}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Item
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK241", "distance-unsaid", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for swung or thrown equipment on a floor without a safety distance."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "equipment", "floor"):
        if taught.activity.floor.safety is not None:
            continue
        items = (context.library.items.get(need.item) for need in taught.activity.equipment)
        moving = next((item for item in items if item is not None and (item.swung or item.thrown)), None)
        if moving is not None:
            hint = "Add safety to floor, such as 1 m."
            yield Fault(taught.place("floor"), f"{_says(moving)}, but floor has no safety distance.", hint, True)


def _says(item: Item) -> str:
    return f"{item.plural[0].upper()}{item.plural[1:]} are {'swung' if item.swung else 'thrown or hit'} here"
