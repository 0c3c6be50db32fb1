"""The parts of a lesson shape cannot fill the lesson, or do not fit into it, by their own limits of minutes.

When every part has most_minutes and these together are fewer than the class's lesson has, minutes stay empty; when the
least_minutes together are more, the lesson runs over. The sequencer fills every lesson exactly.

Fails (in a unit for lessons of 35 minutes):

    shapes:
      - title: Usual lesson
        parts:
          - {part: warm-up, most_minutes: 7}
          - {part: practice, most_minutes: 12}
          - {part: closing, most_minutes: 5}

Passes:

    shapes:
      - title: Usual lesson
        parts:
          - {part: warm-up, most_minutes: 7}
          - {part: practice, most: 2}
          - {part: closing, most_minutes: 5}
"""

from collections.abc import Iterator

from lessonkit.records.record import Record
from lessonkit.records.school import SchoolClass
from lessonkit.records.unit import Shape, Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK223", "parts-cannot-fill", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every shape whose limits leave minutes empty, or ask for too many, in a class's lessons."""
    assert isinstance(record, Unit)
    classes = context.library.classes_of(record)
    for number, shape in enumerate(record.shapes):
        for says in dict.fromkeys(_said(shape, one) for one in classes):
            if says:
                yield Fault(("shapes", number, "parts"), says, on_key=True)


def _said(shape: Shape, one: SchoolClass) -> str | None:
    most = [part.most_minutes for part in shape.parts]
    least = sum(part.least_minutes or 0 for part in shape.parts)
    for meeting in one.meets:
        lesson = f"a lesson of {one.title} has {meeting.minutes}"
        if least > meeting.minutes:
            return f"The parts of {shape.title!r} take {least} minutes or more, but {lesson}."
        filled = sum(minutes for minutes in most if minutes is not None)
        if None not in most and filled < meeting.minutes:
            return f"The parts of {shape.title!r} take {filled} minutes at most, but {lesson}."
    return None
