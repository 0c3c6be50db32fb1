"""A pin or a lesson shape is for a lesson that the unit does not have, or two shapes claim the same lesson.

The sequencer numbers the lessons from 1 to the last one of the unit. A unit in weeks has at most as many as its class
meets in them; which fall out for holidays is counted when it is planned.

Fails (in a unit):

    lessons: 8
    pins:
      - {lesson: 9, activity: ladder-of-taps}

Passes:

    lessons: 8
    pins:
      - {lesson: 8, activity: ladder-of-taps}
"""

from collections.abc import Iterator

from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK274", "lesson-outside-unit", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every number past the last lesson, and for a lesson with two shapes."""
    assert isinstance(record, Unit)
    for number, pin in enumerate(record.pins):
        if record.lessons is not None and pin.lesson > record.lessons:
            says = f"A pin asks for lesson {pin.lesson}, but the unit has {record.lessons} lessons."
            yield Fault(("pins", number, "lesson"), says)
    last = _last(record, context)
    if last is not None:
        for number, pin in enumerate(record.pins):
            if pin.lesson > last:
                says = f"A pin asks for lesson {pin.lesson}, but in {record.weeks} weeks there are {last} at most."
                yield Fault(
                    ("pins", number, "lesson"), says, "Pin it to an earlier lesson, or give the unit more weeks."
                )
    yield from _shapes(record)


def _last(record: Unit, context: Context) -> int | None:
    """Return the most lessons that a unit in weeks has in each of its classes; None for a unit in lessons."""
    if record.lessons is not None or record.weeks is None:
        return None
    return min((record.weeks * len(one.meets) for one in context.library.classes_of(record) if one.meets), default=None)


def _shapes(record: Unit) -> Iterator[Fault]:
    first: dict[int, FieldPath] = {}
    for number, shape in enumerate(record.shapes):
        for place, lesson in enumerate(shape.lessons or ()):
            field: FieldPath = ("shapes", number, "lessons", place)
            if record.lessons is not None and lesson > record.lessons:
                says = f"The shape {shape.title!r} is for lesson {lesson}, but the unit has {record.lessons} lessons."
                yield Fault(field, says)
            earlier = first.setdefault(lesson, field)
            if earlier != field:
                says = f"Lesson {lesson} has two shapes."
                yield Fault(field, says, "Take the number away from one.", related=((record, earlier, "the other"),))
