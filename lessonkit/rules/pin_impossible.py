"""A unit pins an activity that it cannot have there: excluded, for other grades, skills or parts of a lesson.

A pin is a must, so the sequencer refuses the whole request instead of planning without it. What is short of equipment
or does not fit the floor is said by `equipment-short` and `floor-too-small`.

Fails (in a unit):

    pins:
      - {lesson: 2, activity: ladder-of-taps, part: closing}

Passes:

    pins:
      - {lesson: 2, activity: ladder-of-taps, part: practice}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.records.unit import Pin, Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK276", "pin-impossible", Level.ERROR), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every pin that the request itself, the class or the activity makes impossible."""
    assert isinstance(record, Unit)
    for number, pin in enumerate(record.pins):
        activity = context.library.activities.get(pin.activity)
        if activity is not None:
            yield from _pin(("pins", number), pin, activity, record, context)


def _pin(field: FieldPath, pin: Pin, activity: Activity, unit: Unit, context: Context) -> Iterator[Fault]:
    from lessonkit.logistics.asked_for import for_other_grades, for_other_skills, left_out, pinned_but, usable_parts

    at = (*field, "activity")
    why = left_out(activity, unit)
    if why is not None:
        here: FieldPath = ("exclude", unit.exclude.index(activity.id))
        hint = "Take it out of exclude, or take the pin away."
        says = pinned_but(activity.title, pin.lesson, why)
        yield Fault(at, says, hint, related=((unit, here, "excluded here"),))
    classes = context.library.classes_of(unit)
    for why in dict.fromkeys(for_other_grades(activity, one.grades) for one in classes):
        if why is not None:
            hint = "Pin an activity for that grade, or take the pin away."
            says = pinned_but(activity.title, pin.lesson, why)
            yield Fault(at, says, hint, related=((activity, ("grades",), "its grades"),))
    why = for_other_skills(activity, unit)
    if why is not None:
        hint = "Add a skill that it trains to the unit's skills, or take the pin away."
        yield Fault(at, pinned_but(activity.title, pin.lesson, why), hint, related=_parts(activity))
    elif unit.shapes:
        yield from _part(field, pin, activity, unit, usable_parts(activity, unit))


def _part(field: FieldPath, pin: Pin, activity: Activity, unit: Unit, usable: tuple[str, ...]) -> Iterator[Fault]:
    from lessonkit.logistics.asked_for import Place, no_part_for, rooms_of, shape_of

    place, rooms = Place(usable, activity.station, pin.part), rooms_of(unit, shape_of(unit, pin.lesson))
    says = no_part_for(activity.title, place, pin.lesson, rooms)
    if says is not None:
        at = (*field, "activity" if pin.part is None else "part")
        yield Fault(at, says, "Pin it to a part or a lesson that it is for.", related=_parts(activity))


def _parts(activity: Activity) -> tuple[tuple[Record, FieldPath, str], ...]:
    return ((activity, ("parts",), "the parts that it is for"),)
