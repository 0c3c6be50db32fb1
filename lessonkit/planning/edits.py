"""What a teacher has changed in a plan by hand, seen from what the sequencer wrote.

``made.wrote`` keeps a line for every lesson: ``gym 35: ropes-awake 7, balloon-post 7``. An activity that is not in it,
or not for these minutes, is the teacher's; so is the absence of one that stood there. What was taken out stays in the
lesson's ``without``, so that it is known as long as the teacher leaves it there and does not put it back.
"""

from dataclasses import dataclass

from lessonkit.records.activity import Activity
from lessonkit.records.library import Library
from lessonkit.records.plan import Happened, Lesson, Plan, Room, Shortened, Slot
from lessonkit.records.unit import Unit

_Written = tuple[str, int]
"""Activity, minutes."""


NOTHING = Happened()


@dataclass(frozen=True, slots=True)
class Held:
    """An activity put into a lesson (from 0) by hand, with its minutes where they were chosen by hand too."""

    lesson: int
    position: int
    slot: Slot
    minutes: int | None


@dataclass(frozen=True, slots=True)
class Edits:
    """What was changed: activities put in or given other minutes, (lesson, activity) taken out, and whole lessons."""

    held: tuple[Held, ...] = ()
    taken_out: tuple[tuple[int, str], ...] = ()
    happened: Happened = NOTHING

    @property
    def any(self) -> bool:
        """Whether anything was changed."""
        return self != Edits()


NO_EDITS = Edits()


def wrote(lessons: tuple[Lesson, ...]) -> tuple[str, ...]:
    """Return the line that keeps each lesson as it was written."""
    return tuple(
        f"{lesson.space} {lesson.minutes}: "
        + ", ".join(f"{slot.activity} {slot.minutes}" for slot in lesson.activities)
        for lesson in lessons
    )


def edits(plan: Plan, library: Library) -> Edits:
    """Return what was changed by hand in the lessons that are not taught; nothing where it cannot be known.

    Minutes beyond what an activity's record allows are taken back to the nearest that it does.
    """
    if plan.made is None or not plan.made.wrote:
        return Edits(taken_out=kept_out(plan))
    grade = library.schools[plan.school].school_class(plan.school_class).grade
    held: list[Held] = []
    taken_out: list[tuple[int, str]] = []
    shortened: list[Shortened] = []
    rooms: list[Room] = []
    for number, (lesson, line) in enumerate(zip(plan.lessons, plan.made.wrote, strict=False)):
        if lesson.taught:
            continue
        space, minutes, slots = _read(line)
        held += _held(number, lesson, slots, library, grade)
        now = {slot.activity for slot in lesson.activities}
        gone = dict.fromkeys((*lesson.without, *(activity for activity, _ in slots)))
        taken_out += [(number, activity) for activity in gone if activity not in now]
        if lesson.minutes != minutes:
            shortened.append(Shortened(date=lesson.date, minutes=lesson.minutes))
        if lesson.space != space:
            rooms.append(Room(space=lesson.space, date=lesson.date))
    return Edits(tuple(held), tuple(taken_out), Happened(shortened=tuple(shortened), rooms=tuple(rooms)))


def kept_out(plan: Plan) -> tuple[tuple[int, str], ...]:
    """Return what the lessons still to come do without: (lesson from 0, activity), put back by hand aside."""
    return tuple(
        (number, activity)
        for number, lesson in enumerate(plan.lessons)
        for activity in lesson.without
        if not lesson.taught and activity not in {slot.activity for slot in lesson.activities}
    )


def holds_edits(plan: Plan, unit: Unit) -> bool:
    """Tell whether a plan pins what its unit's request does not, or keeps out what a teacher took out of a lesson.

    Both come from changes by hand around which it was put right.
    """
    asked = {(pin.lesson, pin.activity) for pin in unit.pins}
    return any(lesson.without for lesson in plan.lessons) or any(
        slot.pinned and (lesson.lesson, slot.activity) not in asked
        for lesson in plan.lessons
        for slot in lesson.activities
    )


def _read(line: str) -> tuple[str, int, tuple[_Written, ...]]:
    """Read a line of ``wrote``; one that is no such line is read as an empty lesson."""
    head, _, rest = line.partition(": ")
    space, _, minutes = head.partition(" ")
    words = [each.partition(" ") for each in rest.split(", ")]
    slots = tuple((activity, int(length)) for activity, _, length in words if length.isdigit())
    return space, int(minutes) if minutes.isdigit() else 0, slots


def _held(number: int, lesson: Lesson, slots: tuple[_Written, ...], library: Library, grade: str) -> list[Held]:
    before = dict(slots)
    now = {slot.activity for slot in lesson.activities}
    gone = {minutes for activity, minutes in slots if activity not in now}
    found = []
    for position, slot in enumerate(lesson.activities):
        was = before.get(slot.activity)
        if was == slot.minutes or slot.activity not in library.activities:
            continue
        typed_over = was is None and slot.minutes in gone
        allowed = _allowed(library.activities[slot.activity].for_grade(grade), slot.minutes)
        found.append(Held(number, position, slot, None if typed_over else allowed))
    return found


def _allowed(activity: Activity, minutes: int) -> int:
    return max(activity.minutes.least, min(activity.minutes.most, minutes))
