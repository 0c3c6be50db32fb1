"""A school has too little equipment for an activity that a unit asks for, even with what can stand in.

Counted for the real number of children in each of the unit's classes, with the groups they make. An activity that the
unit pins or names as a favorite is a warning; any other that trains one of the unit's skills is advice, because the
sequencer leaves it out without being asked. In a terminal an item that is short for many is told in one piece.

Fails (in a unit):

    pins:
      - {lesson: 2, activity: over-the-net}

Passes:

    pins:
      - {lesson: 2, activity: ladder-of-taps}
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lessonkit.records.activity import Activity, Organisation
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.unit import Unit
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.group_size import group_size
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.rules.same import for_the_same
from lessonkit.source.finding import Code, Level, Tally
from lessonkit.source.location import FieldPath

if TYPE_CHECKING:
    from lessonkit.logistics.equipment import Shortage

RULE = Rule(Code("LK244", "equipment-short", Level.WARNING), (Unit,))


def check(record: Record, context: Context) -> Iterator[Fault]:
    """Yield a fault for every activity and class with too little equipment, at the line that asks for it."""
    assert isinstance(record, Unit)
    library = context.library
    school = library.schools.get(record.school)
    if school is None or any(owned.item not in library.items for owned in school.equipment):
        return  # what a misspelt item counts is not known, and its own line says that it is misspelt
    asked = _asked_for(record, library)
    for number, class_id in enumerate(record.classes):
        for school_class in (c for c in school.classes if c.id == class_id):
            for name, field in asked.items():
                for says, related, tally in _short(library.activities[name], school, school_class, library):
                    yield Fault(field, says, related=related, tally=tally)
            for activity in _others(record, school, library, asked, school_class.grade):
                for says, related, tally in _short(activity, school, school_class, library):
                    yield Fault(("classes", number), says, level=Level.ADVICE, related=related, tally=tally)


def _asked_for(unit: Unit, library: Library) -> dict[str, FieldPath]:
    asked: dict[str, FieldPath] = {}
    for number, pin in enumerate(unit.pins):
        asked.setdefault(pin.activity, ("pins", number, "activity"))
    for number, name in enumerate(unit.favourites):
        asked.setdefault(name, ("favourites", number))
    return {name: field for name, field in asked.items() if name in library.activities}


def _others(
    unit: Unit, school: School, library: Library, asked: dict[str, FieldPath], grade: str
) -> Iterator[Activity]:
    left_out = {*asked, *unit.exclude}
    for activity in _doubtful(school, library):
        trains = any(place.skill in unit.skills for place in activity.skills)
        if trains and activity.id not in left_out and grade in activity.grades:
            yield activity


@for_the_same
def _doubtful(school: School, library: Library) -> list[Activity]:
    """Return the activities, in the order of their ids, for which a school may have too little for its largest class.

    That is found quickly, from as many groups as a class can make at the most.
    """
    largest = max((one.children for one in school.classes), default=0)
    return [
        library.activities[name]
        for name in sorted(library.activities)
        if not all(
            _is_enough(taught.activity, school, largest)
            for taught in as_taught(library.activities[name], "equipment", "organisation")
        )
    ]


def _is_enough(activity: Activity, school: School, children: int) -> bool:
    groups = -(-children // _smallest(activity.organisation))
    times = {"child": children, "pair": -(-children // 2), "group": groups}
    most: dict[str, int] = {}
    for need in activity.equipment:
        most[need.item] = most.get(need.item, 0) + need.count * times.get(need.per, 1)
    return all(school.owned(item) >= count for item, count in most.items())


def _smallest(organisation: Organisation) -> int:
    """Return the children in the smallest group that makes as many groups as there can be."""
    squad = organisation.squad
    if organisation.form == "squads" and squad is not None:
        return min(squad.least, squad.most)
    return group_size(organisation) or 1


_Related = tuple[tuple[Record, FieldPath, str], ...]


def _short(
    activity: Activity, school: School, school_class: SchoolClass, library: Library
) -> Iterator[tuple[str, _Related, Tally]]:
    """Give a sentence for every item that is short, with the place of the activity's equipment, and its tally."""
    from lessonkit.logistics.equipment import needed, shortages
    from lessonkit.logistics.groups import CannotGroupError

    try:
        needs = needed(activity.for_grade(school_class.grade), school_class.children)
    except CannotGroupError:
        return
    for short in shortages(needs, school, library.items):
        if short.still_short and short.item in library.items:
            what = f"{activity.title} needs {_counted(short, library)} for {school_class.title}"
            related: _Related = ((activity, ("equipment",), "what it needs"),)
            tally = Tally(_too_few(short, library), activity.title, short.needed)
            yield f"{what}; {_owned(short, library)}.", related, tally


def _too_few(short: "Shortage", library: Library) -> str:
    """Return how a sentence begins that names all activities for which an item is short."""
    if not short.owned:
        return f"The school has no {_name(short.item, library, 2)} for"
    return f"The school has {short.owned} {_name(short.item, library, short.owned)}, too few for"


def _counted(short: "Shortage", library: Library) -> str:
    return f"{short.needed} {_name(short.item, library, short.needed)}"


def _owned(short: "Shortage", library: Library) -> str:
    has = f"the school has {short.owned or 'none'}"
    if not short.stand_ins:
        return f"{has}, and nothing to stand in"
    others = " and ".join(f"{count} {_name(item, library, count)}" for item, count in short.stand_ins)
    return f"{has} and {others} to stand in, which leaves {short.still_short} missing"


def _name(item: str, library: Library, count: int) -> str:
    known = library.items.get(item)
    return item if known is None else known.title if count == 1 else known.plural
