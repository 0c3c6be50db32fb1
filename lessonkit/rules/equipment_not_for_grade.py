"""An activity gives an item to children who are too young or too old for it.

The catalogue says whom an item is for. A version without the item may serve the other grades.

Fails:

    grades: 3-5
    equipment:
      - {item: foam-paddle, count: 1, per: child}
    stop_signal: Two claps.

Passes:

    grades: 2-3
    equipment:
      - {item: foam-paddle, count: 1, per: child}
    stop_signal: Two claps.
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Item
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import Taught, as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK243", "equipment-not-for-grade", Level.WARNING), (Activity,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every item that is not for one of the grades that would use it."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "equipment"):
        for number, need in enumerate(taught.activity.equipment):
            item = context.library.items.get(need.item)
            outside = _outside(record, taught, item) if item is not None else ()
            if item is not None and outside:
                grades = f"grade{'s' if len(outside) > 1 else ''} {' and '.join(outside)}"
                says = f"The {item.plural} are for grades {item.grades}, but {grades} would use them here."
                hint = "Change the grades, or write a version with another item."
                yield Fault((*taught.place("equipment"), number, "item"), says, hint)


def _outside(record: Activity, taught: Taught, item: Item) -> tuple[str, ...]:
    """Return the grades taught in this way that an item is not for."""
    if item.grades is None:
        return ()
    number = taught.version
    served = record.grades.grades if number is None else record.versions[number].grades.grades
    return tuple(grade for grade in served if grade not in item.grades and _is_so_taught(record, taught, grade))


def _is_so_taught(record: Activity, taught: Taught, grade: str) -> bool:
    """Tell whether a grade gets its equipment from here, and not from a version that changes it."""
    version = record.version_for(grade)
    if taught.version is None:
        return version is None or version.equipment is None
    return version is record.versions[taught.version]
