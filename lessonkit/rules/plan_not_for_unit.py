"""A plan is for a school or a class that its unit is not for, or a lesson has a shape that the unit does not have.

The unit says who is to be taught; the plan's minutes, floor and equipment are counted for that class. A shape without
the unit's title is a warning: the lesson is then judged by the shape that the unit has for it.

Fails (in a plan):

    school_class: grade-2-swallow

Passes:

    school_class: grade-3-heron
"""

from collections.abc import Iterator

from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK282", "plan-not-for-unit", Level.ERROR), (Plan,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for a school, a class, or a lesson's shape that is not the unit's."""
    assert isinstance(record, Plan)
    unit = context.library.units.get(record.unit)
    if unit is None:
        return
    if record.school != unit.school:
        says = f"The plan is for the school {record.school!r}, but its unit is for {unit.school!r}."
        yield Fault(("school",), says, None, related=((unit, ("school",), "the unit's school"),))
    if record.school_class not in unit.classes:
        says = f"The plan is for {record.school_class!r}, but its unit is for {' and '.join(unit.classes)}."
        yield Fault(("school_class",), says, None, related=((unit, ("classes",), "the unit's classes"),))
    shapes = [shape.title for shape in unit.shapes]
    for number, lesson in enumerate(record.lessons):
        if lesson.shape not in shapes:
            says = f"The unit has no lesson shape {lesson.shape!r}."
            hint = f"Its shapes: {', '.join(repr(title) for title in shapes)}."
            yield Fault(("lessons", number, "shape"), says, hint, level=Level.WARNING)
