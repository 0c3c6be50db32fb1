"""An activity that is played outdoors only says nothing about heat or about lightning.

Play stops at the first thunder and begins again 30 minutes after the last; shade, water and shorter work keep children
safe in heat. The figures of a school's or district's own policy come first.

Fails:

    floor: {length: 20 m, width: 10 m, where: outdoors}
    safety: [Follow your school's own rules.]

Passes:

    floor: {length: 20 m, width: 10 m, where: outdoors}
    safety:
      - Water and shade when it is hot; go in at the first thunder.
      - Follow your school's own rules on weather.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK247", "weather-unsaid", Level.WARNING), (Activity,))
_HEAT: Final = Pattern(r"heat|\bhot\b|sun|shade|water", re.IGNORECASE)
_STORM: Final = Pattern(r"lightning|thunder|storm", re.IGNORECASE)


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where an activity for outdoors only lacks a word on heat, on lightning, or on both."""
    assert isinstance(record, Activity)
    if not any(taught.activity.floor.where == "outdoors" for taught in as_taught(record, "floor")):
        return
    said = "\n".join(record.safety)
    missing = [word for word, found in (("heat", _HEAT), ("lightning", _STORM)) if not found.search(said)]
    if missing:
        says = f"It is played outdoors, and safety says nothing about {' or '.join(missing)}."
        yield Fault(
            ("safety",), says, "Water and shade in heat; in at the first thunder; local policy first.", on_key=True
        )
