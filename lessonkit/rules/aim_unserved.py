"""A unit has an aim that no activity for its grade practises, or that none assesses although it must be.

The sequencer would search in vain.

Fails:

    aims:
      - {code: S1.E1.3, practise: 2}

Passes:

    aims:
      - {code: S1.E24.3a, practise: 2}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity, How
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK271", "aim-unserved", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every aim that no activity of the classes' grades serves as it asks."""
    assert isinstance(record, Unit)
    school = context.library.schools.get(record.school)
    grades: set[str] = {c.grade for c in school.classes if c.id in record.classes} if school else set()
    for number, aim in enumerate(record.aims):
        asked: tuple[tuple[int, How], ...] = ((aim.practise, "practised"), (aim.assess, "assessed"))
        for count, how in asked:
            if count and not _serves(context.library, record.framework, aim.code, how, grades):
                says = f"No activity for the unit's grade has {aim.code} as {how}."
                yield Fault(("aims", number, "code"), says)


def _serves(library: Library, framework: str, code: str, how: How, grades: set[str]) -> bool:
    return any(
        _fits(activity, grades) and code in activity.served(framework, how) for activity in library.activities.values()
    )


def _fits(activity: Activity, grades: set[str]) -> bool:
    return not grades or any(grade in activity.grades for grade in grades)
