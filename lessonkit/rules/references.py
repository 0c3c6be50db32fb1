"""Every name in a record that must lead to another record."""

from collections.abc import Collection, Iterator
from typing import NamedTuple

from lessonkit.records.activity import Activity, Need, SkillStep
from lessonkit.records.equipment import Catalogue
from lessonkit.records.library import Library
from lessonkit.records.plan import Happened, Plan
from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year, YearMap
from lessonkit.source.location import FieldPath


class Reference(NamedTuple):
    """A name, where it stands, what it names, and the names that there are."""

    field: FieldPath
    what: str
    name: str
    known: Collection[str]


def references(record: Record, library: Library) -> Iterator[Reference]:
    """Give every reference of a record, in the order of its fields."""
    match record:
        case Activity():
            yield from _activity(record, library)
        case Catalogue():
            yield from _catalogue(record, library)
        case School():
            yield from _school(record, library)
        case Unit():
            yield from _unit(record, library)
        case Plan():
            yield from _plan(record, library)
        case Year():
            yield from _year(record, library)
        case YearMap():
            yield from _year_map(record, library)
        case _:
            return


def _steps(field: FieldPath, steps: tuple[SkillStep, ...], library: Library) -> Iterator[Reference]:
    for number, place in enumerate(steps):
        yield Reference((*field, number, "skill"), "skill", place.skill, library.skills)
        skill = library.skills.get(place.skill)
        if skill is not None:
            what = f"step of the skill {skill.id!r}"
            yield Reference((*field, number, "step"), what, place.step, [step.id for step in skill.steps])


def _needs(field: FieldPath, needs: tuple[Need, ...], library: Library) -> Iterator[Reference]:
    for number, need in enumerate(needs):
        yield Reference((*field, number, "item"), "item of equipment", need.item, library.items)


def _names(field: FieldPath, what: str, names: tuple[str, ...], known: Collection[str]) -> Iterator[Reference]:
    for number, name in enumerate(names):
        yield Reference((*field, number), what, name, known)


def all_lead_somewhere(record: Activity, library: Library) -> bool:
    """Tell whether every reference of an activity leads somewhere; so it is nearly always, and quick to see."""
    items, activities = library.items, library.activities
    for place in record.skills:
        skill = library.skills.get(place.skill)
        if skill is None or not any(step.id == place.step for step in skill.steps):
            return False
    needs = [*record.equipment, *(need for version in record.versions for need in version.equipment or ())]
    return (
        all(name in activities for name in record.builds_on)
        and all(name in library.frameworks for name in record.outcomes)
        and all(need.item in items for need in needs)
    )


def _activity(record: Activity, library: Library) -> Iterator[Reference]:
    yield from _steps(("skills",), record.skills, library)
    yield from _names(("builds_on",), "activity", record.builds_on, library.activities)
    for framework in record.outcomes:
        yield Reference(("outcomes", framework), "outcome framework", framework, library.frameworks)
    yield from _needs(("equipment",), record.equipment, library)
    for number, version in enumerate(record.versions):
        yield from _needs(("versions", number, "equipment"), version.equipment or (), library)


def _catalogue(record: Catalogue, library: Library) -> Iterator[Reference]:
    for number, item in enumerate(record.items):
        for place, stand_in in enumerate(item.stand_ins):
            if stand_in.item is not None:
                yield Reference(
                    ("items", number, "stand_ins", place, "item"), "item of equipment", stand_in.item, library.items
                )


def _school(record: School, library: Library) -> Iterator[Reference]:
    spaces = [space.id for space in record.spaces]
    for number, owned in enumerate(record.equipment):
        yield Reference(("equipment", number, "item"), "item of equipment", owned.item, library.items)
    for number, school_class in enumerate(record.classes):
        yield Reference(("classes", number, "space"), "space", school_class.space, spaces)
        for place, meeting in enumerate(school_class.meets):
            if meeting.space is not None:
                yield Reference(("classes", number, "meets", place, "space"), "space", meeting.space, spaces)


def _unit(record: Unit, library: Library) -> Iterator[Reference]:
    yield Reference(("school",), "school", record.school, library.schools)
    school = library.schools.get(record.school)
    if school is not None:
        yield from _names(("classes",), "class of the school", record.classes, [c.id for c in school.classes])
    yield Reference(("framework",), "outcome framework", record.framework, library.frameworks)
    yield from _names(("skills",), "skill", record.skills, library.skills)
    yield from _steps(("mastered",), record.mastered, library)
    for number, pin in enumerate(record.pins):
        yield Reference(("pins", number, "activity"), "activity", pin.activity, library.activities)
    yield from _names(("exclude",), "activity", record.exclude, library.activities)
    yield from _names(("favourites",), "activity", record.favourites, library.activities)


def _happened(happened: Happened, spaces: Collection[str], library: Library) -> Iterator[Reference]:
    for number, room in enumerate(happened.rooms):
        yield Reference(("happened", "rooms", number, "space"), "space", room.space, spaces)
    for number, broken in enumerate(happened.broken):
        yield Reference(("happened", "broken", number, "item"), "item of equipment", broken.item, library.items)


def _plan(record: Plan, library: Library) -> Iterator[Reference]:
    yield Reference(("unit",), "unit", record.unit, library.units)
    yield Reference(("school",), "school", record.school, library.schools)
    school = library.schools.get(record.school)
    if school is not None:
        yield Reference(("school_class",), "class of the school", record.school_class, [c.id for c in school.classes])
    spaces = [space.id for space in school.spaces] if school else []
    if record.happened is not None and school is not None:
        yield from _happened(record.happened, spaces, library)
    for number, lesson in enumerate(record.lessons):
        field: FieldPath = ("lessons", number)
        if school is not None:
            yield Reference((*field, "space"), "space", lesson.space, spaces)
        for place, slot in enumerate(lesson.activities):
            yield Reference((*field, "activities", place, "activity"), "activity", slot.activity, library.activities)
        for place, activity in enumerate(lesson.without):
            yield Reference((*field, "without", place), "activity", activity, library.activities)


def _year(record: Year, library: Library) -> Iterator[Reference]:
    yield Reference(("school",), "school", record.school, library.schools)
    yield Reference(("framework",), "outcome framework", record.framework, library.frameworks)
    asked = [each.unit for each in record.units]
    for number, each in enumerate(record.units):
        yield Reference(("units", number, "unit"), "unit", each.unit, library.units)
        yield from _names(("units", number, "follows"), "unit in this year", each.follows, asked)


def _year_map(record: YearMap, library: Library) -> Iterator[Reference]:
    yield Reference(("year",), "year", record.year, library.years)
    yield Reference(("school",), "school", record.school, library.schools)
    year = library.years.get(record.year)
    asked = [each.unit for each in year.units] if year else []
    for number, each in enumerate(record.units):
        yield Reference(("units", number, "unit"), "unit of the year", each.unit, asked if year else library.units)
    yield from _names(("left_out",), "unit of the year", record.left_out, asked if year else library.units)
