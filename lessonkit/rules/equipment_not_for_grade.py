"""An activity gives an item to children who are too young or too old for it.

Fails:

    grades: 3-5
    equipment:
      - {item: foam-paddle, count: 1, per: child}

Passes:

    grades: 1-3
    equipment:
      - {item: foam-paddle, count: 1, per: child}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK243", "equipment-not-for-grade", Level.WARNING), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every item that is not for one of the grades that would use it."""
    assert isinstance(record, Activity)
    for number, need in enumerate(record.equipment):
        item = context.library.items.get(need.item)
        if item is None or item.grades is None:
            continue
        outside = [
            grade for grade in record.grades.grades if grade not in item.grades and _keeps(record, grade, item.id)
        ]
        if outside:
            says = f"{item.plural} are for grades {item.grades}, but the activity is also for grade {outside[0]}."
            yield Fault(("equipment", number, "item"), says, "Change the grades, or give that grade a version.")


def _keeps(record: Activity, grade: str, item: str) -> bool:
    return any(need.item == item for need in record.for_grade(grade).equipment)
