"""Not even one group of an activity has room in any space of the school, or a class's groups do not fit its space.

An area is counted with its safety distance on all sides. An activity is held against every space that it may be played
in; one that a unit pins or names as a favorite is held against the space of each class, with all of its groups: they
must have room at once, or half of them where the record says in `if_more` what the others do.

Fails (in a school whose largest space has 40 by 30 meters):

    floor: {length: 60 m, width: 30 m}

Passes:

    floor: {length: 20 m, width: 10 m}
"""

from collections.abc import Iterable, Iterator

from lessonkit.records.activity import Activity, Floor, LessonPart
from lessonkit.records.record import Record
from lessonkit.records.school import School, SchoolClass, Space
from lessonkit.records.unit import Shape, Unit
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

_TURNS = "Where half of the groups fit, say in if_more of the activity's floor what the others do meanwhile."
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
    for field, name, station in _asked_for(record):
        activity = context.library.activities.get(name)
        for one in context.library.classes_of(record):
            if activity is not None and one.grade in activity.grades:
                for says, hint in _class(activity.for_grade(one.grade), one, school, station):
                    yield Fault(field, says, hint, related=((activity, ("floor",), "the floor it needs"),))


def _asked_for(record: Unit) -> Iterator[tuple[FieldPath, str, bool]]:
    """Yield what a unit asks for, where, and whether that may be a station, for which one group of floor is enough."""
    seen: set[str] = set()
    for number, pin in enumerate(record.pins):
        if pin.activity not in seen:
            yield ("pins", number, "activity"), pin.activity, _has_circuit(_shapes_of(record, pin.lesson), pin.part)
        seen.add(pin.activity)
    for number, name in enumerate(record.favourites):
        if name not in seen:
            yield ("favourites", number), name, _has_circuit(record.shapes, None)


def _shapes_of(record: Unit, lesson: int) -> tuple[Shape, ...]:
    own = tuple(shape for shape in record.shapes if lesson in (shape.lessons or ()))
    return own or tuple(shape for shape in record.shapes if shape.lessons is None)


def _has_circuit(shapes: Iterable[Shape], part: LessonPart | None) -> bool:
    return any(one.circuit is not None and part in (None, one.part) for shape in shapes for one in shape.parts)


def _class(activity: Activity, one: SchoolClass, school: School, station: bool) -> Iterator[tuple[str, str | None]]:
    """Say in which of its spaces a class cannot do an activity: where no group fits, and where too few fit anywhere."""
    from lessonkit.logistics.floor import fits, share_of
    from lessonkit.logistics.groups import CannotGroupError

    used = {meeting.space or one.space for meeting in one.meets}
    spaces = [each for each in school.spaces if each.id in used]
    none: list[tuple[str, str | None]] = []
    few: list[tuple[str, str | None]] = []
    for space in spaces:
        try:
            answer = fits(activity, one.children, space, school.lengths)
        except CannotGroupError:
            return
        named = f"the {space.title[0].lower()}{space.title[1:]}"
        says = f"{activity.title} does not fit {one.title} in {named}. {answer.says}"
        if activity.floor.where not in ("either", space.where):
            says = f"{activity.title} is for {activity.floor.where} only, and {named} of {one.title} is {space.where}."
            few.append((says, None))
        elif not answer.fits and not answer.largest:
            none.append((says, None))
        elif not share_of(answer, activity):
            few.append((says, _TURNS if 2 * answer.largest >= answer.groups else None))
    yield from none
    if not station and len(none) + len(few) == len(spaces):
        yield from few
