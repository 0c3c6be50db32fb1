"""What has happened since a unit was asked for, applied to the records: they stay as written, and this plan reads anew.

A lost day moves the lessons after it on to the next dates of the timetable; a dropped one, and any in a unit that runs
for weeks, takes a lesson away; then the numbers in the request's shapes and pins move with their lessons. A shape
for the lost lesson alone, such as a festival, goes over to the next one or the last.
"""

from collections.abc import Iterable
from dataclasses import replace

from msgspec import structs

from lessonkit.logistics.asked_for import shape_of
from lessonkit.planning.case import Case, LessonPlace
from lessonkit.planning.dates import LessonDate, timetable
from lessonkit.planning.digest import digest
from lessonkit.planning.setup import place_of, set_up
from lessonkit.records.library import Library
from lessonkit.records.plan import Broken, Happened, Plan
from lessonkit.records.school import Owned, School
from lessonkit.records.unit import Unit

NOTHING = Happened()


def after(library: Library, plan: Plan) -> Library:
    """Return the library as a plan has to see it. Raises KeyError for a unit, school or class that it does not have."""
    happened = plan.happened
    if happened is None:
        return library
    school = _school(library.schools[plan.school], plan.school_class, happened)
    unit = _unit(library.units[plan.unit], library.schools[plan.school], plan, happened)
    return replace(library, schools={**library.schools, school.id: school}, units={**library.units, plan.unit: unit})


def _school(school: School, class_id: str, happened: Happened) -> School:
    classes = tuple(
        structs.replace(each, children=happened.children) if each.id == class_id and happened.children else each
        for each in school.classes
    )
    return structs.replace(school, classes=classes, equipment=_owned(school.equipment, happened.broken))


def _owned(equipment: tuple[Owned, ...], broken: Iterable[Broken]) -> tuple[Owned, ...]:
    left = list(equipment)
    for each in broken:
        gone = each.count
        for number, owned in enumerate(left):
            if owned.item == each.item and gone:
                taken = min(gone, owned.count)
                left[number] = structs.replace(owned, count=owned.count - taken)
                gone -= taken
    return tuple(left)


def _unit(unit: Unit, school: School, plan: Plan, happened: Happened) -> Unit:
    made_up, dropped = happened.lost_days, happened.dropped_days
    if unit.weeks is not None and unit.lessons is None:
        made_up, dropped = (), made_up + dropped
    dropped = tuple(day for day in dropped if day not in unit.lost_days)
    unit = structs.replace(unit, lost_days=tuple(dict.fromkeys(unit.lost_days + made_up)))
    if not dropped:
        return unit
    lessons = timetable(unit, school, school.school_class(plan.school_class)).lessons
    gone = [number for number, day in enumerate(lessons, 1) if day.date.isoformat() in dropped]
    last = len(lessons) - len(gone)

    def moved(number: int) -> int:
        return max(1, min(last, number - sum(each < number for each in gone)))

    def shaped(numbers: tuple[int, ...]) -> tuple[int, ...]:
        left = [number for number in numbers if number not in gone]
        return tuple(dict.fromkeys(moved(number) for number in left or numbers))

    shapes = tuple(
        shape if shape.lessons is None else structs.replace(shape, lessons=shaped(shape.lessons))
        for shape in unit.shapes
    )
    pins = tuple(structs.replace(pin, lesson=moved(pin.lesson)) for pin in unit.pins)
    wanted = None if unit.lessons is None else last
    lost_days = tuple(dict.fromkeys(unit.lost_days + dropped))
    return structs.replace(unit, lost_days=lost_days, shapes=shapes, pins=pins, lessons=wanted)


def days_after(days: Iterable[LessonDate], happened: Happened | None) -> tuple[LessonDate, ...]:
    """Return lessons with the rooms and lengths that they have now."""
    return tuple(_day(day, happened or NOTHING) for day in days)


def _day(day: LessonDate, happened: Happened) -> LessonDate:
    written = day.date.isoformat()
    space, minutes = day.space, day.minutes
    for room in happened.rooms:
        if room.date is None and (room.first is None or written >= room.first):
            space = room.space
    space = next((room.space for room in reversed(happened.rooms) if room.date == written), space)
    minutes = next((each.minutes for each in reversed(happened.shortened) if each.date == written), minutes)
    return replace(day, space=space, minutes=minutes)


def places_after(library: Library, plan: Plan) -> tuple[LessonPlace, ...]:
    """Return the lessons of a plan's unit as its timetable has them now; ``library`` is what ``after`` returned."""
    unit, school = library.units[plan.unit], library.schools[plan.school]
    days = days_after(timetable(unit, school, school.school_class(plan.school_class)).lessons, plan.happened)
    return tuple(place_of(day, shape_of(unit, number)) for number, day in enumerate(days, 1))


def fresh(library: Library, plan: Plan) -> Case:
    """Return the case of a plan's request as it would be planned from nothing; what it digests to marks its inputs."""
    now = after(library, plan)
    school_class = now.schools[plan.school].school_class(plan.school_class)
    places = places_after(now, plan) if plan.happened else None
    return set_up(now, now.units[plan.unit], school_class, places=places)


def inputs_of(library: Library, plan: Plan) -> str:
    """Return the digest of everything that a plan's request says now."""
    return digest(fresh(library, plan))


def together(old: Happened | None, new: Happened) -> Happened:
    """Return what has happened in all: later news of a day, a room or a number stand in place of earlier ones."""
    if old is None:
        return new
    return Happened(
        lost_days=tuple(dict.fromkeys(old.lost_days + new.lost_days)),
        dropped_days=tuple(dict.fromkeys(old.dropped_days + new.dropped_days)),
        shortened=tuple({each.date: each for each in old.shortened + new.shortened}.values()),
        rooms=tuple(dict.fromkeys(old.rooms + new.rooms)),
        children=old.children if new.children is None else new.children,
        broken=_sum(old.broken + new.broken),
    )


def _sum(broken: tuple[Broken, ...]) -> tuple[Broken, ...]:
    counts: dict[str, int] = {}
    for each in broken:
        counts[each.item] = counts.get(each.item, 0) + each.count
    return tuple(Broken(item=item, count=count) for item, count in counts.items())
