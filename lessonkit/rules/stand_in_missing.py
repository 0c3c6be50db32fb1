"""An item of equipment has no stand-in.

A school that has none of it, or a day on which it is broken, then has no way to teach what needs it. A stand-in is
another item of the catalogue, or something that a school has anyway.

Fails (in an equipment catalogue):

    items:
      - {id: pogo-stick, title: pogo stick, plural: pogo sticks}

Passes:

    items:
      - id: hoop
        title: hoop
        plural: hoops
        stand_ins: [{use: a ring of floor tape}]
"""

from collections.abc import Iterator

from lessonkit.records.equipment import Catalogue
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK245", "stand-in-missing", Level.ADVICE), (Catalogue,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every item without a stand-in."""
    assert isinstance(record, Catalogue)
    for number, item in enumerate(record.items):
        if not item.stand_ins:
            says = f"Nothing stands in for the {item.title} where a school has none."
            yield Fault(("items", number, "id"), says, "Add stand_ins: another item, or what a school has anyway.")
