"""From a schedule to a plan record, and from a plan record to the text of its file, which teachers read and edit."""

import json
import re
from collections.abc import Iterable, Iterator
from datetime import date

from msgspec import structs

from lessonkit.planning.case import Case
from lessonkit.planning.digest import lessons_digest
from lessonkit.planning.edits import wrote
from lessonkit.planning.problem import Placed, Schedule
from lessonkit.records.activity import LessonPart
from lessonkit.records.library import Library
from lessonkit.records.plan import Happened, Lesson, Made, Plan, Slot
from lessonkit.records.record import Part

_LONGEST_ID = 60
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:[ ,.()/-]+[A-Za-z0-9]+)*[.)]?")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_NOT_PLAIN = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n"})
_HEADER = """\
# A plan made by the sequencer. It is yours: change it here and check it again with
#     lessonkit check
# Swap an activity, move minutes from one to another, or put lessons right by hand.
# To put the rest right around your changes:
#     lessonkit replan
# pinned: true  keeps an activity in its place when the unit is planned again.
# taught: true  under a lesson's minutes says that the lesson is over and stays as it was.
"""


def plan_record(case: Case, schedule: Schedule, made: Made | None) -> Plan:
    """Return the plan of a case with its schedule."""
    lessons = tuple(_lesson(case, number, placed) for number, placed in enumerate(schedule.lessons))
    return Plan(
        kind="plan",
        id=plan_id(case.unit.id, case.school_class.id),
        title=f"{case.unit.title}: {case.school_class.title}"[:80],
        unit=case.unit.id,
        school=case.school.id,
        school_class=case.school_class.id,
        made=None if made is None else structs.replace(made, lessons=lessons_digest(lessons), wrote=wrote(lessons)),
        lessons=lessons,
    )


def plan_id(unit: str, school_class: str) -> str:
    """Return the id of the plan of a unit for a class."""
    own = f"{unit}-{school_class}"
    return own if len(own) <= _LONGEST_ID else own[:_LONGEST_ID].rstrip("-")


def keeping_out(plan: Plan, taken_out: Iterable[tuple[int, str]]) -> Plan:
    """Return a plan whose lessons (from 0) do without what a teacher took out of them."""
    gone: dict[int, tuple[str, ...]] = {}
    for number, activity in taken_out:
        gone[number] = (*gone.get(number, ()), activity)
    lessons = tuple(structs.replace(lesson, without=gone.get(number, ())) for number, lesson in enumerate(plan.lessons))
    made = None if plan.made is None else structs.replace(plan.made, lessons=lessons_digest(lessons))
    return structs.replace(plan, lessons=lessons, made=made)


def _lesson(case: Case, number: int, placed: tuple[Placed, ...]) -> Lesson:
    place = case.places[number]
    if place.taught is None:
        slots = tuple(_slot(case, number, item, _station(case, number, placed, item)) for item in placed)
    else:
        slots = tuple(
            Slot(
                part=each.part,
                activity=each.activity,
                minutes=each.minutes,
                setup=each.setup,
                assess=each.assess,
                station=each.station,
            )
            for each in place.taught
        )
    return Lesson(
        lesson=number + 1,
        date=place.date,
        at=place.at,
        space=place.space,
        minutes=place.minutes,
        shape=case.unit.shapes[place.shape].title,
        taught=place.taught is not None,
        activities=slots,
    )


def _station(case: Case, lesson: int, placed: tuple[Placed, ...], item: Placed) -> int | None:
    """Return the number of an activity's station in its circuit, None outside one."""
    if not case.problem.is_circuit(item.part, lesson):
        return None
    return [other for other in placed if other.part == item.part].index(item) + 1


def _slot(case: Case, lesson: int, item: Placed, station: int | None) -> Slot:
    return Slot(
        part=_shape_part(case, lesson, item.part),
        activity=case.problem.choices[item.activity].id,
        minutes=item.minutes,
        setup=item.setup,
        assess=tuple(case.problem.outcomes[outcome] for outcome in item.assess),
        pinned=item.pinned,
        station=station,
    )


def _shape_part(case: Case, lesson: int, part: int) -> LessonPart:
    return case.unit.shapes[case.places[lesson].shape].parts[part].part


def plan_text(plan: Plan, library: Library) -> str:
    """Return the text of a plan's file: the same plan, the same text, with the activities' titles beside their ids."""
    return _HEADER + "\n".join(_lines(plan, library)) + "\n"


def _lines(plan: Plan, library: Library) -> Iterator[str]:
    yield "kind: plan"
    for name in ("id", "title", "unit", "school", "school_class"):
        yield f"{name}: {scalar(getattr(plan, name))}"
    if plan.made is not None:
        yield from _made(plan.made)
    if plan.happened is not None:
        yield from _happened(plan.happened)
    yield "lessons:"
    for lesson in plan.lessons:
        yield f"  # {_day(lesson.date)}"
        yield from _lesson_lines(lesson, library)


def _made(made: Made) -> Iterator[str]:
    best = "no better plan exists" if made.status == "proven" else "a better plan may exist"
    yield f"# How the plan came about ({best}). Leave this part as it is."
    yield "made:"
    for name in ("lessonkit", "solver", "inputs", "lessons", "status"):
        yield f"  {name}: {scalar(getattr(made, name))}"
    yield f"  cost: {made.cost}"
    yield f"  bound: {made.bound}"
    if made.wrote:
        yield "  wrote:"
        yield from (f"    - {json.dumps(line)}" for line in made.wrote)


def _happened(happened: Happened) -> Iterator[str]:
    """Write what has happened, each kind of news on lines of its own."""
    yield "# What has happened since the unit was asked for. The records stay as they are; this plan reckons with it."
    yield "happened:"
    if happened.lost_days:
        yield f"  lost_days: [{', '.join(happened.lost_days)}]"
    if happened.dropped_days:
        yield f"  dropped_days: [{', '.join(happened.dropped_days)}]"
    for name, news in (("shortened", happened.shortened), ("rooms", happened.rooms)):
        if news:
            yield f"  {name}:"
            yield from (f"    - {_flow(each)}" for each in news)
    if happened.children is not None:
        yield f"  children: {happened.children}"
    if happened.broken:
        yield "  broken:"
        yield from (f"    - {_flow(each)}" for each in happened.broken)


def _flow(part: Part) -> str:
    fields = ((name, getattr(part, name)) for name in part.__struct_fields__)
    return "{" + ", ".join(f"{name}: {_written(value)}" for name, value in fields if value is not None) + "}"


def _written(value: str | int) -> str:
    return str(value) if isinstance(value, int) or _DATE.fullmatch(value) else scalar(value)


def _lesson_lines(lesson: Lesson, library: Library) -> Iterator[str]:
    yield f"  - lesson: {lesson.lesson}"
    yield f"    date: {lesson.date}"
    yield f"    at: {json.dumps(lesson.at)}"
    yield f"    space: {scalar(lesson.space)}"
    yield f"    minutes: {lesson.minutes}"
    yield f"    shape: {scalar(lesson.shape)}"
    if lesson.taught:
        yield "    taught: true"
    if lesson.without:
        yield f"    without: [{', '.join(lesson.without)}]  # taken out by hand; stays out until you delete it here"
    yield "    activities:"
    for slot in lesson.activities:
        record = library.activities.get(slot.activity)
        yield f"      - {_slot_text(slot)}" + (f"  # {record.title}" if record else "")


def _slot_text(slot: Slot) -> str:
    fields = [f"part: {slot.part}", f"activity: {scalar(slot.activity)}", f"minutes: {slot.minutes}"]
    if slot.setup:
        fields.append(f"setup: {slot.setup}")
    if slot.assess:
        fields.append(f"assess: [{', '.join(scalar(code) for code in slot.assess)}]")
    if slot.station is not None:
        fields.append(f"station: {slot.station}")
    if slot.pinned:
        fields.append("pinned: true")
    return "{" + ", ".join(fields) + "}"


def scalar(text: str) -> str:
    """Write a text plainly where YAML reads it back as the same text, else between double quotes."""
    if _PLAIN.fullmatch(text) and text.lower() not in _NOT_PLAIN and ", " not in text:
        return text
    return json.dumps(text, ensure_ascii=False)


_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_SPRING = ("January", "February", "March", "April", "May", "June")
_AUTUMN = ("July", "August", "September", "October", "November", "December")
_MONTHS = _SPRING + _AUTUMN


def month_and_day(day: date) -> str:
    """Return ``January 5`` for a date, whatever the machine's own language."""
    return f"{_MONTHS[day.month - 1]} {day.day}"


def _day(written: str) -> str:
    day = date.fromisoformat(written)
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"
