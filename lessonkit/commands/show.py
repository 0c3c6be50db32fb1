"""``show``: one record or plan in the terminal."""

import argparse
import textwrap
from collections.abc import Iterable, Iterator
from contextlib import suppress
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.meant import meant, quoted, refuse_folder
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.records.activity import Activity, How
    from lessonkit.records.framework import Framework
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan
    from lessonkit.records.record import Record
    from lessonkit.records.school import Meeting, School
    from lessonkit.records.unit import Unit

NAME = "show"
HELP = "Show one record or plan in the terminal."
EXAMPLES = (
    ("lessonkit show ladder-of-taps", "an activity"),
    ("lessonkit show paddles-grade-3-grade-3-heron", "a plan, lesson by lesson"),
    ("lessonkit show S1.E24.3a", "an outcome code, and the activities that serve it"),
    ("lessonkit show", "everything there is, by kind"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("name", nargs="?", help="the id of a record, or an outcome code")
    parser.add_argument("--in", dest="folder", metavar="FOLDER", help="the curriculum to look in")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show it. Returns 0; a name that nothing has ends in a sentence and code 2."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.plans import refuse_unread

    refuse_folder(args.name)
    loaded = open_curriculum(args.folder, terminal)
    library = loaded.library
    refuse_unread(args.name, loaded)
    if args.name is None:
        for line in _everything(library, terminal.width):
            terminal.line(line)
        return 0
    found = [record for record in library.records() if record.id == args.name]
    lines = [line for record in found for line in _record(record, library, terminal.width)]
    if not lines:
        _refuse_class(args.name, args.folder, library)
    for line in lines or _code(args.name, args.folder, library, terminal.width):
        terminal.line(line)
    return 0


def _refuse_class(name: str, folder: str | None, library: "Library") -> None:
    """Raise CannotRunError for the id of a class, which is a part of its school's record."""
    for school in library.schools.values():
        if any(each.id == name for each in school.classes):
            raise CannotRunError(
                f"{quoted(name)} is a class; its school tells of it: {call(f'show {school.id}', folder)}"
            )


def _everything(library: "Library", width: int) -> Iterator[str]:
    kind = ""
    for record in library.records():
        if record.kind != kind:
            kind = record.kind
            yield f"{kind}:"
        yield from textwrap.wrap(f"{record.id}  {record.title}", width, initial_indent="  ", subsequent_indent="      ")


def _record(record: "Record", library: "Library", width: int) -> Iterator[str]:
    from lessonkit.records.activity import Activity
    from lessonkit.records.framework import Framework
    from lessonkit.records.plan import Plan
    from lessonkit.records.school import School
    from lessonkit.records.unit import Unit

    yield f"{record.title}  ({record.kind}, {record.path})"
    match record:
        case Activity():
            yield from _activity(record, width)
        case Plan():
            yield from _plan(record, library, width)
        case School():
            yield from _school(record, width)
        case Unit():
            yield from _unit(record, width)
        case Framework():
            yield from _framework(record)
        case _:
            yield from _fold(getattr(record, "summary", ""), width)


def _fold(words: str, width: int, label: str = "") -> list[str]:
    return textwrap.wrap(f"{label}{words}", width, subsequent_indent="  ") if words else []


def _activity(activity: "Activity", width: int) -> Iterator[str]:
    minutes = activity.minutes
    yield from _fold(activity.summary, width)
    yield ""
    yield f"Grades {activity.grades}; {', '.join(activity.parts)}; {minutes.least} to {minutes.most} minutes"
    codes = ", ".join(f"{code} ({_ways(how)})" for table in activity.outcomes.values() for code, how in table.items())
    yield from _fold(codes, width, "Outcomes: ")
    items = ", ".join(f"{need.count} {need.item} per {need.per}" for need in activity.equipment)
    yield from _fold(items or "none", width, "Equipment: ")
    yield ""
    for line in activity.steps.rstrip().splitlines():
        indent = " " * (len(line) - len(line.lstrip()) + 3)
        yield from textwrap.wrap(line, width, subsequent_indent=indent) or [""]
    yield ""
    yield from _fold(" / ".join(activity.cues), width, "Cues: ")
    yield from _fold(" ".join(activity.easier), width, "Easier: ")
    yield from _fold(" ".join(activity.harder), width, "Harder: ")
    yield from _fold(" ".join(activity.safety), width, "Safety: ")


def _ways(how: "Iterable[How]") -> str:
    """Return how an activity serves an outcome, in the words of the pages."""
    from lessonkit.document.lesson_facts import WAYS_SAID

    return ", ".join(WAYS_SAID[each] for each in how)


def _plan(plan: "Plan", library: "Library", width: int) -> Iterator[str]:
    from lessonkit.document.lesson_facts import work_out
    from lessonkit.document.unit_overview import minutes_say

    with suppress(KeyError):
        for says in minutes_say(work_out(plan, library)):
            yield from _fold(says, width)
    for lesson in plan.lessons:
        yield ""
        over = ", taught" if lesson.taught else ""
        yield f"Lesson {lesson.lesson}, {lesson.date} {lesson.at}, {lesson.space}, {lesson.minutes} minutes{over}"
        rows = []
        clock = 0
        for slot in lesson.activities:
            ends = clock + slot.setup + slot.minutes
            record = library.activities.get(slot.activity)
            title = record.title if record else slot.activity
            stands = [f"station {slot.station}"] if slot.station is not None else []
            marks = ", ".join([*stands, *slot.assess, *(["pinned"] if slot.pinned else [])])
            rows.append((f"{clock}-{ends}", slot.part, title, marks))
            clock = ends
        yield from grid(("Minutes", "Part", "Activity", "Checked"), rows, width)


def _school(school: "School", width: int) -> Iterator[str]:
    from lessonkit.logistics.activity_time import WEEKLY_MINUTES
    from lessonkit.logistics.lengths import say_area
    from lessonkit.logistics.weekly import week
    from lessonkit.logistics.words import counted

    for space in school.spaces:
        yield f"{space.title}: {say_area(space.length, space.width, school.lengths)}, {space.where}"
    rows = [
        (c.id, c.grade, str(c.children), str(week(c).minutes), ", ".join(_meets(meet) for meet in c.meets))
        for c in school.classes
    ]
    yield from grid(("Class", "Grade", "Children", "A week", "Meets"), rows, width)
    recommended = f"{WEEKLY_MINUTES} minutes a week are recommended for elementary schools"
    short = sum(week(c).missing > 0 for c in school.classes)
    yield from _fold(f"{recommended}; {short} of {counted(len(rows), 'class', 'classes')} have less.", width)
    yield from grid(("Item", "Count"), [(owned.item, str(owned.count)) for owned in school.equipment], width)


def _meets(meeting: "Meeting") -> str:
    return f"{meeting.day[:3]} {meeting.at} ({meeting.minutes} min)".replace(" ", "\u00a0")


def _unit(unit: "Unit", width: int) -> Iterator[str]:
    yield from _fold(unit.summary, width)
    length = f"{unit.lessons} lessons" if unit.lessons else f"{unit.weeks} weeks"
    yield f"{length} from {unit.start} for {', '.join(unit.classes)}"
    rows = [(aim.code, str(aim.practise), str(aim.assess)) for aim in unit.aims]
    yield from grid(("Aim", "Practiced in", "Checked in"), rows, width)


def _framework(framework: "Framework") -> Iterator[str]:
    yield f"{framework.publisher}, {framework.year}: {len(framework.outcomes)} codes"
    for standard, says in framework.standards.items():
        yield f"  {standard}: {says}"


def _code(written: str, folder: str | None, library: "Library", width: int) -> Iterator[str]:
    from lessonkit.outcomes.look_up import Ambiguous, Known, Repairable, look_up

    for framework in library.frameworks.values():
        match look_up(framework, written):
            case Known(outcome=outcome) | Repairable(outcome=outcome):
                yield f"{outcome.code}, grade {outcome.grade}: {outcome.topic}"
                yield from _fold(outcome.says or "", width)
                for activity in library.activities.values():
                    how = activity.outcomes.get(framework.id, {}).get(outcome.code)
                    if how:
                        yield f"  {activity.id} ({_ways(how)})"
                return
            case Ambiguous(candidates=candidates):
                yield f"{written} could mean {' or '.join(candidates)}."
                return
            case _:
                continue
    hint = meant(written, (record.id for record in library.records()), all_names=call("show", folder))
    raise CannotRunError(f"nothing here is called {quoted(written)}. {hint}")
