"""A unit's pins cannot all hold: an activity too often or too soon again, or too much for a lesson or a part of it.

The sequencer refuses such a request. How often an activity may come back stands under repeats, how many activities and
minutes a part holds in the shape of the lesson.

Fails (in a unit):

    repeats: {most: 2, apart: 1}
    pins:
      - {lesson: 2, activity: ladder-of-taps}
      - {lesson: 3, activity: ladder-of-taps}

Passes:

    repeats: {most: 2, apart: 1}
    pins:
      - {lesson: 2, activity: ladder-of-taps}
      - {lesson: 4, activity: ladder-of-taps}
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.records.school import SchoolClass
from lessonkit.records.unit import Pin, Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

if TYPE_CHECKING:
    from lessonkit.logistics.asked_for import Room
    from lessonkit.logistics.pins_together import Asked, Clash

RULE = Rule(Code("LK277", "pins-collide", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every pin that cannot hold beside the others, in one of the unit's classes."""
    assert isinstance(record, Unit)
    if not record.pins or not record.shapes:
        return
    classes: tuple[SchoolClass | None, ...] = context.library.classes_of(record) or (None,)
    for clash in dict.fromkeys(clash for one in classes for clash in _clashes(record, one, context.library)):
        yield Fault(("pins", clash.number, "activity"), clash.says, clash.hint)


def _clashes(unit: Unit, one: SchoolClass | None, library: Library) -> Iterator["Clash"]:
    from lessonkit.logistics.asked_for import rooms_of, shape_of
    from lessonkit.logistics.pins_together import too_long, too_many, too_often

    by_lesson: dict[int, list[Asked]] = {}
    for number, pin in enumerate(unit.pins):
        if pin.activity in library.activities:
            asked = _asked(number, pin, unit, one, library)
            by_lesson.setdefault(pin.lesson, []).append(asked)
    yield from too_often([asked for own in by_lesson.values() for asked in own], unit.repeats.most, unit.repeats.apart)
    for lesson, own in sorted(by_lesson.items()):
        rooms = rooms_of(unit, shape_of(unit, lesson))
        yield from too_many(own, rooms)
        if one is not None and one.meets:
            yield from too_long(own, rooms, max(meeting.minutes for meeting in one.meets))


def _asked(number: int, pin: Pin, unit: Unit, one: SchoolClass | None, library: Library) -> "Asked":
    from lessonkit.logistics.asked_for import Place, fitting, rooms_of, shape_of, usable_parts
    from lessonkit.logistics.pins_together import Asked

    activity = library.activities[pin.activity]
    rooms: tuple[Room, ...] = rooms_of(unit, shape_of(unit, pin.lesson))
    parts = fitting(Place(usable_parts(activity, unit), activity.station, pin.part), rooms)
    minutes = (activity if one is None else activity.for_grade(one.grade)).minutes
    shortest = (pin.minutes or minutes.least) + minutes.setup
    in_circuit = any(rooms[part].circuit for part in parts)
    return Asked(number, pin.lesson, activity.id, activity.title, parts, 0 if in_circuit else shortest)
