"""The case of a plan that is planned again: its request, what the plan itself pins, and what was changed by hand."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from msgspec import structs

from lessonkit.planning.asked import TAKEN_OUT, without
from lessonkit.planning.case import Case, LeftOut, LessonPlace, PlanPin
from lessonkit.planning.edits import Edits
from lessonkit.planning.said import Said
from lessonkit.planning.setup import set_up
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.records.unit import Pin


def hold(
    library: Library, plan: Plan, places: tuple[LessonPlace, ...], moved: Mapping[int, int], changed: Edits
) -> Case:
    """Return the case. ``moved`` maps lessons of the plan (from 0) to those of the case.

    A pin of a lesson that is gone moves to the lesson that has its number, or to the last.
    """
    unit = library.units[plan.unit]
    pins = _pins(plan, library, moved, len(places), changed)
    own = {(pin.lesson, pin.activity) for pin in unit.pins}
    added = [(pin, source) for pin, source in pins if pin.minutes or (pin.lesson, pin.activity) not in own]
    request = structs.replace(unit, pins=unit.pins + tuple(pin for pin, _ in added))
    keep = {slot.activity for lesson in plan.lessons for slot in lesson.activities}
    school_class = library.schools[plan.school].school_class(plan.school_class)
    case = set_up(library, request, school_class, places=places, keep=keep)
    case = replace(case, plan_pins=tuple(source for _, source in added))
    gone = [(moved[number], number, activity) for number, activity in changed.taken_out if number in moved]
    return without(case, taken_out(case, plan, gone))


def _pins(
    plan: Plan, library: Library, moved: Mapping[int, int], lessons: int, changed: Edits
) -> list[tuple[Pin, PlanPin]]:
    by_hand = {(held.lesson, held.position): held for held in changed.held}
    found = []
    for number, lesson in enumerate(plan.lessons):
        for position, slot in enumerate(lesson.activities):
            held = by_hand.get((number, position))
            if lesson.taught or slot.activity not in library.activities or not (slot.pinned or held):
                continue
            new = moved.get(number, min(number, lessons - 1)) + 1
            pin = Pin(lesson=new, activity=slot.activity, part=slot.part, minutes=held.minutes if held else None)
            field = ("lessons", number, "activities", position)
            found.append((pin, PlanPin(plan.id, field, by_hand=held is not None)))
    return found


def taken_out(case: Case, plan: Plan, gone: Iterable[tuple[int, int, str]]) -> list[LeftOut]:
    """Return the bars that keep out what a teacher took out: (lesson of the case, lesson of the plan, activity)."""
    bars = []
    for lesson, number, activity in gone:
        says = f"{case.title(activity)} was taken out of {case.lesson(lesson)} by hand."
        written = activity in plan.lessons[number].without
        field = ("lessons", number, "without") if written else ("lessons", number)
        bars.append(LeftOut(activity, TAKEN_OUT, (lesson,), Said("plan", plan.id, field, says)))
    return bars
