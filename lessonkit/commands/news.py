"""What a teacher tells ``replan`` has happened, from the words of the command line to a plan that knows it."""

import argparse
from typing import TYPE_CHECKING, NoReturn

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import meant, quoted

if TYPE_CHECKING:
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Broken, Plan, Room, Shortened


def with_news(plan: "Plan", library: "Library", args: argparse.Namespace) -> "Plan":
    """Return the plan with its taught lessons marked and the news noted. Raises CannotRunError for senseless news."""
    from msgspec import structs

    from lessonkit.planning.happened import together
    from lessonkit.records.plan import Happened

    if args.same_end and not args.lost:
        raise CannotRunError("--same-end goes with --lost, for a lesson that is not made up for.")
    plan = _taught(plan, args.taught)
    for day in args.lost:
        _lesson_on(day, plan)
    news = Happened(
        lost_days=() if args.same_end else tuple(args.lost),
        dropped_days=tuple(args.lost) if args.same_end else (),
        shortened=tuple(_shortened(written, plan) for written in args.short),
        rooms=tuple(_room(written, plan, library) for written in args.room),
        children=_children(args.children),
        broken=tuple(_broken(written, plan, library) for written in args.broken),
    )
    return plan if news == Happened() else structs.replace(plan, happened=together(plan.happened, news))


def _taught(plan: "Plan", taught: int | None) -> "Plan":
    from msgspec import structs

    if taught is None:
        return plan
    if not 0 <= taught <= len(plan.lessons):
        raise CannotRunError(f"--taught {taught}: the plan has lessons 1 to {len(plan.lessons)}.")
    lessons = tuple(
        structs.replace(lesson, taught=True) if number < taught else lesson
        for number, lesson in enumerate(plan.lessons)
    )
    return structs.replace(plan, lessons=lessons)


def _lesson_on(day: str, plan: "Plan") -> None:
    """Refuse a day on which the plan has no lesson still to come."""
    lesson = next((lesson for lesson in plan.lessons if lesson.date == day), None)
    if lesson is None:
        days = ", ".join(lesson.date for lesson in plan.lessons if not lesson.taught)
        raise CannotRunError(f"the plan has no lesson on {day}; those to come are on {days}.")
    if lesson.taught:
        raise CannotRunError(f"lesson {lesson.lesson} on {day} has been taught and stays as it was.")


def _split(written: str, option: str, form: str) -> tuple[str, str]:
    name, equals, value = written.partition("=")
    if not (name and equals and value):
        _refuse(option, written, form)
    return name, value


def _refuse(option: str, written: str, form: str) -> NoReturn:
    raise CannotRunError(f"{option} {written}: write {form}.")


def _shortened(written: str, plan: "Plan") -> "Shortened":
    from lessonkit.records.plan import Shortened

    form = "a day and its minutes, such as 2027-01-14=20"
    day, minutes = _split(written, "--short", form)
    if not minutes.isdigit() or not 5 <= int(minutes) <= 180:
        _refuse("--short", written, form + ", from 5 to 180 minutes")
    _lesson_on(day, plan)
    return Shortened(date=day, minutes=int(minutes))


def _room(written: str, plan: "Plan", library: "Library") -> "Room":
    from lessonkit.records.plan import Room

    day, _, space = written.rpartition("=")
    spaces = [each.id for each in library.schools[plan.school].spaces]
    if space not in spaces:
        raise CannotRunError(f"--room {written}: the school has no such space; it has {', '.join(spaces)}.")
    if day:
        _lesson_on(day, plan)
        return Room(space=space, date=day)
    first = next((lesson.date for lesson in plan.lessons if not lesson.taught), None)
    return Room(space=space, first=first)


def _children(children: int | None) -> int | None:
    if children is not None and not 1 <= children <= 120:
        raise CannotRunError(f"--children {children}: write a number from 1 to 120.")
    return children


def _broken(written: str, plan: "Plan", library: "Library") -> "Broken":
    from lessonkit.records.plan import Broken

    form = "an item and how many, such as short-paddle=4"
    item, count = _split(written, "--broken", form)
    if not count.isdigit() or int(count) < 1:
        _refuse("--broken", written, form)
    school = library.schools[plan.school]
    if not school.owned(item):
        hint = meant(item, (owned.item for owned in school.equipment))
        raise CannotRunError(f"the school has no {quoted(item)}. {hint}")
    return Broken(item=item, count=int(count))
