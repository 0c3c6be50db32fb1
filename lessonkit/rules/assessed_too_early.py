"""A plan assesses an outcome before the class has practiced it often enough.

The unit's aim says how many lessons of practice come first; an outcome that is no aim needs one. A judgment on the
first try is about luck.

Fails (in a plan):

    lessons:
      - {lesson: 1, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1, assess: [S1.E24.3a]}]}

Passes:

    lessons:
      - {lesson: 1, date: 2027-01-05, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1}]}
      - {lesson: 2, date: 2027-01-07, at: "10:15", space: gym, minutes: 6, shape: Usual lesson, activities: [
          {part: practice, activity: ladder-of-taps, minutes: 5, setup: 1, assess: [S1.E24.3a]}]}
"""

from collections.abc import Iterator

from lessonkit.records.library import Library
from lessonkit.records.plan import Lesson, Plan
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK283", "assessed-too-early", Level.WARNING), (Plan,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every assessment after too few lessons that practise its outcome. Taught lessons are facts."""
    assert isinstance(record, Plan)
    unit = context.library.units.get(record.unit)
    if unit is None:
        return
    for number, lesson in enumerate(record.lessons):
        earlier = record.lessons[:number]
        for place, slot in enumerate(() if lesson.taught else lesson.activities):
            for index, code in enumerate(slot.assess):
                practised = sum(_practises(before, code, unit, context.library) for before in earlier)
                asked = next((aim.after for aim in unit.aims if aim.code == code), 1)
                if practised < asked:
                    field = ("lessons", number, "activities", place, "assess", index)
                    yield Fault(field, _says(code, lesson.lesson, practised, asked))


def _practises(lesson: Lesson, code: str, unit: Unit, library: Library) -> bool:
    activities = (library.activities.get(slot.activity) for slot in lesson.activities)
    return any(each is not None and code in each.served(unit.framework, "practised") for each in activities)


def _says(code: str, lesson: int, practised: int, asked: int) -> str:
    done = f"after {_lessons(practised)} of practice" if practised else "before any practice"
    return f"{code} is assessed in lesson {lesson} {done}; {_lessons(asked)} of practice should come first."


def _lessons(number: int) -> str:
    return "1 lesson" if number == 1 else f"{number} lessons"
