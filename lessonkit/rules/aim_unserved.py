"""A unit has an aim that no activity for its grade practices, or that none assesses although it must be.

The sequencer would search in vain.

Fails (in a unit):

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
from lessonkit.rules.activities_of import serving
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK271", "aim-unserved", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every aim that no activity of the classes' grades serves as it asks."""
    assert isinstance(record, Unit)
    framework = context.library.frameworks.get(record.framework)
    school = context.library.schools.get(record.school)
    if framework is None or school is None or context.broken:
        return  # An activity that cannot be read may serve the aim.
    grades = frozenset(c.grade for c in school.classes if c.id in record.classes)
    for number, aim in enumerate(record.aims):
        if aim.code not in framework.by_code:
            continue
        asked: tuple[tuple[int, How], ...] = ((aim.practise, "practised"), (aim.assess, "assessed"))
        for count, how in asked:
            able = _able(context.library, record, aim.code, how, grades) if count else []
            excluded = [activity for activity in able if activity.id in record.exclude]
            if count and len(able) == len(excluded):
                field = "practise" if how == "practised" else "assess"
                why = f"No activity for the unit's grade has {aim.code} as {how}"
                if excluded:
                    why = f"The unit excludes every activity that has {aim.code} as {how}"
                    why += f" ({', '.join(sorted(activity.id for activity in excluded))})"
                yield Fault(("aims", number, "code"), f"{why}, but the aim asks for {field}: {count}.")


def _able(library: Library, unit: Unit, code: str, how: How, grades: frozenset[str]) -> list[Activity]:
    return [
        activity
        for activity in serving(library, unit.framework, code, how)
        if not grades or not grades.isdisjoint(activity.grades.grades)
    ]
