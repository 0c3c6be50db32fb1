"""A unit has the same outcome as an aim twice.

The sequencer would count both and nobody could say which numbers hold.

Fails (in a unit):

    aims:
      - {code: S1.E24.3a, practise: 2}
      - {code: S1.E24.3a, practise: 3}

Passes:

    aims:
      - {code: S1.E24.3a, practise: 3}
"""

from collections.abc import Iterator

from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK273", "aim-twice", Level.ERROR), (Unit,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every aim whose code an earlier aim has."""
    assert isinstance(record, Unit)
    first: dict[str, FieldPath] = {}
    for number, aim in enumerate(record.aims):
        field: FieldPath = ("aims", number, "code")
        earlier = first.setdefault(aim.code, field)
        if earlier != field:
            says = f"{aim.code} is an aim of the unit already; keep one of the two."
            yield Fault(field, says, None, related=((record, earlier, "first an aim here"),))
