"""A plan assesses an outcome with an activity that does not assess it.

The activity has no criterion for it, so the lesson plan cannot say what to look for.

Fails (in a plan):

    lessons:
      - {lesson: 1, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: over-the-net, minutes: 5, setup: 1, assess: [S1.E24.3a]}]}

Passes:

    lessons:
      - {lesson: 1, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1, assess: [S1.E24.3a]}]}
"""

from collections.abc import Iterator

from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK284", "assessed-without-task", Level.WARNING), (Plan,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every code under ``assess`` that the slot's activity does not assess."""
    assert isinstance(record, Plan)
    unit = context.library.units.get(record.unit)
    if unit is None:
        return
    for number, lesson in enumerate(record.lessons):
        for place, slot in enumerate(() if lesson.taught else lesson.activities):
            activity = context.library.activities.get(slot.activity)
            known = activity.served(unit.framework, "assessed") if activity is not None else ()
            for index, code in enumerate(slot.assess):
                if activity is not None and code not in known:
                    field = ("lessons", number, "activities", place, "assess", index)
                    can = f"it assesses {' and '.join(known)}" if known else "it assesses nothing"
                    yield Fault(field, f"{activity.title} does not assess {code}; {can}.")
