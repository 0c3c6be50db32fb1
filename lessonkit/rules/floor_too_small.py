"""Not even one group of an activity has room in any space of the school, or a class's groups do not fit its space.

An area is counted with its safety distance on all sides. An activity is held against every space that it may be played
in; one that a unit pins or names as a favourite is held against the space of each class, with all of its groups.

Fails (in a school whose largest space has 40 by 30 meters):

    floor: {length: 60 m, width: 30 m}

Passes:

    floor: {length: 20 m, width: 10 m}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity, Floor
from lessonkit.records.record import Record
from lessonkit.records.school import School, SchoolClass, Space
from lessonkit.records.unit import Unit
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK248", "floor-too-small", Level.WARNING), (Activity, Unit))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for an area that no space holds, and for what a unit asks for that a class's space does not."""
    if isinstance(record, Activity):
        yield from _activity(record, context)
    elif isinstance(record, Unit):
        yield from _unit(record, context)


def _activity(record: Activity, context: Context) -> Iterator[Fault]:
    spaces = [space for school in context.library.schools.values() for space in school.spaces]
    for taught in as_taught(record, "floor") if spaces else ():
        floor = taught.activity.floor
        there = [space for space in spaces if floor.where in ("either", space.where)]
        if not any(_holds(space, floor) for space in there):
            around = f" with {floor.safety} clear around it" if floor.safety else ""
            wall = ", at a wall," if floor.wall else ""
            where = "" if floor.where == "either" else f" {floor.where}"
            says = f"No space of the school{where} holds one area of {floor.length} by {floor.width}{wall}{around}."
            yield Fault(taught.place("floor"), says, on_key=True)


def _holds(space: Space, floor: Floor) -> bool:
    """Tell whether a space holds one area, either way round; with a wall, its width must lie along one."""
    if floor.wall and not space.walls:
        return False
    around = 2 * floor.clear
    along, across = (floor.length.metres + around, floor.width.metres + around)
    if floor.wall:
        along -= around / 2
    sides = (space.length.metres, space.width.metres)
    return min(along, across) <= min(sides) and max(along, across) <= max(sides)


def _unit(record: Unit, context: Context) -> Iterator[Fault]:
    school = context.library.schools.get(record.school)
    if school is None:
        return
    for field, name in _asked_for(record):
        activity = context.library.activities.get(name)
        for one in school.classes:
            if activity is not None and one.id in record.classes and one.grade in activity.grades:
                yield from _class(activity, one, school, field)


def _asked_for(record: Unit) -> Iterator[tuple[FieldPath, str]]:
    seen: set[str] = set()
    for number, pin in enumerate(record.pins):
        if pin.activity not in seen:
            yield ("pins", number, "activity"), pin.activity
        seen.add(pin.activity)
    for number, name in enumerate(record.favourites):
        if name not in seen:
            yield ("favourites", number), name


def _class(activity: Activity, one: SchoolClass, school: School, field: FieldPath) -> Iterator[Fault]:
    from lessonkit.logistics.floor import fits
    from lessonkit.logistics.groups import CannotGroupError

    spaces = {meeting.space or one.space for meeting in one.meets}
    for space in (each for each in school.spaces if each.id in spaces):
        try:
            answer = fits(activity.for_grade(one.grade), one.children, space, school.lengths)
        except CannotGroupError:
            continue
        if not answer.fits and not answer.largest:
            says = f"{activity.title} does not fit {one.title} in {_named(space)}. {answer.says}"
            yield Fault(field, says, related=((activity, ("floor",), "the floor it needs"),))


def _named(space: Space) -> str:
    return f"the {space.title[0].lower()}{space.title[1:]}"
