"""Activities build on each other in a circle, so that none of them can come first.

The sequencer puts an activity after what it builds on. The whole way round is shown, because the link that is wrong is
often in another record.

Fails (in the record paddle-tag):

    builds_on: [paddle-tag]

Passes:

    builds_on: [ladder-of-taps]
"""

from collections import deque
from collections.abc import Iterator
from itertools import pairwise

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK261", "builds-on-in-circle", Level.ERROR), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for the first of a circle's activities in the order of their ids, with the way round."""
    assert isinstance(record, Activity)
    way = _way_back(record.id, context.library) if record.builds_on else ()
    if way and record.id == min(way):
        links = [_link(context.library.activities[here], there) for here, there in pairwise([*way, way[0]])]
        says = f"Activities build on each other in a circle: {' -> '.join([*way, way[0]])}."
        yield Fault(links[0][1], says, "Take one link away.", related=tuple(links[1:]))


def _link(activity: Activity, earlier: str) -> tuple[Record, FieldPath, str]:
    return activity, ("builds_on", activity.builds_on.index(earlier)), f"builds on {earlier}"


def _way_back(start: str, library: Library) -> tuple[str, ...]:
    """Return a shortest circle through an activity, starting with it; empty where there is none."""
    ways: deque[tuple[str, ...]] = deque([(start,)])
    seen: set[str] = set()
    while ways:
        way = ways.popleft()
        here = library.activities.get(way[-1])
        for earlier in here.builds_on if here else ():
            if earlier == start:
                return way
            if earlier not in seen:
                seen.add(earlier)
                ways.append((*way, earlier))
    return ()
