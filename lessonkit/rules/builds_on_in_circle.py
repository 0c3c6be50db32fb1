"""Activities build on each other in a circle, so that none of them can come first.

The sequencer puts an activity after what it builds on. The whole way round is shown, because the link that is wrong is
often in another record.

Fails (in the record paddle-tag):

    builds_on: [paddle-tag]

Passes:

    builds_on: [ladder-of-taps]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK261", "builds-on-in-circle", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for the first of a circle's activities in the order of their ids, with the way round."""
    assert isinstance(record, Activity)
    way = _way_back(record.id, context.library)
    if way and record.id == min(way):
        number = record.builds_on.index(way[1] if len(way) > 1 else record.id)
        shown = " -> ".join([*way, way[0]])
        yield Fault(
            ("builds_on", number), f"Activities build on each other in a circle: {shown}.", "Take one link away."
        )


def _way_back(start: str, library: Library) -> tuple[str, ...]:
    """Return a shortest circle through an activity, starting with it; empty where there is none."""
    ways: list[tuple[str, ...]] = [(start,)]
    seen: set[str] = set()
    while ways:
        way = ways.pop(0)
        here = library.activities.get(way[-1])
        for earlier in here.builds_on if here else ():
            if earlier == start:
                return way
            if earlier not in seen:
                seen.add(earlier)
                ways.append((*way, earlier))
    return ()
