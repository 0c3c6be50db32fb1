"""The lessons of a plan are not numbered 1, 2, 3, or not in the order of their dates.

What builds on what, and what is assessed after how much practice, is counted lesson by lesson from the top.

Fails (in a plan):

    lessons:
      - {lesson: 2, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1}]}

Passes:

    lessons:
      - {lesson: 1, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1}]}
"""

from collections.abc import Iterator

from lessonkit.records.plan import Lesson, Plan
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK281", "lessons-out-of-order", Level.ERROR), (Plan,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every wrong number, and for every lesson that is not later than the one above it."""
    assert isinstance(record, Plan)
    before: Lesson | None = None
    for number, lesson in enumerate(record.lessons):
        if lesson.lesson != number + 1:
            says = f"This is lesson {number + 1} of the plan, but it is numbered {lesson.lesson}."
            yield Fault(("lessons", number, "lesson"), says, f"Write {number + 1}.")
        if before is not None and _when(lesson) <= _when(before):
            says = f"This lesson on {lesson.date} at {lesson.at} is not later than the one above it"
            says += f" ({before.date} at {before.at})."
            yield Fault(("lessons", number, "date"), says)
        before = lesson


def _when(lesson: Lesson) -> tuple[str, int, int]:
    hour, _, minute = lesson.at.partition(":")
    return lesson.date, int(hour), int(minute)
