"""A unit names a favorite that no plan of it can have: excluded, for other grades, skills or parts of a lesson.

The sequencer plans without it and does not say so, and a wish is lost.

Fails (in a unit):

    favourites: [ladder-of-taps]
    exclude: [ladder-of-taps]

Passes:

    favourites: [ladder-of-taps]
    exclude: []
"""

from collections.abc import Iterator, Sequence

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.records.school import SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK278", "favourite-unused", Level.WARNING), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every favorite that the unit cannot have in any of its classes."""
    assert isinstance(record, Unit)
    classes = context.library.classes_of(record)
    for number, name in enumerate(record.favourites):
        activity = context.library.activities.get(name)
        why = None if activity is None else _why_not(activity, record, classes)
        if activity is not None and why is not None:
            yield Fault(("favourites", number), f"{activity.title} is a favorite, but: {why}", "Name another favorite.")


def _why_not(activity: Activity, unit: Unit, classes: Sequence[SchoolClass]) -> str | None:
    from lessonkit.logistics.asked_for import for_no_lesson, for_other_grades, for_other_skills, left_out

    grades = [for_other_grades(activity, one.grades) for one in classes]
    return (
        left_out(activity, unit)
        or (grades[0] if grades and None not in grades else None)
        or for_other_skills(activity, unit)
        or for_no_lesson(activity, unit, [[part.part for part in shape.parts] for shape in unit.shapes])
    )
