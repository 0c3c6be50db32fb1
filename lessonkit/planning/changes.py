"""What differs between two plans, lesson by lesson."""

from collections.abc import Mapping
from dataclasses import dataclass

from lessonkit.records.library import Library
from lessonkit.records.plan import Lesson, Plan, Slot


@dataclass(frozen=True, slots=True)
class Change:
    """A lesson before and after: its number in the new plan (in the old one where it is gone), dates and activities.

    A date is empty, and there are no activities, where the lesson was not there. ``retimed`` lists activities that stay
    with other minutes: title, minutes before, minutes after. ``frame`` says in words what else is new (space, length).
    """

    lesson: int
    date_before: str
    date_after: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    retimed: tuple[tuple[str, int, int], ...] = ()
    frame: tuple[str, ...] = ()

    @property
    def out(self) -> tuple[str, ...]:
        """Activities that the lesson loses."""
        return tuple(title for title in self.before if title not in self.after)

    @property
    def new(self) -> tuple[str, ...]:
        """Activities that the lesson gains."""
        return tuple(title for title in self.after if title not in self.before)

    @property
    def swapped(self) -> int:
        """How many activities the lesson lost or gained."""
        return len(self.out) + len(self.new)


def changes(old: Plan, new: Plan, library: Library, moved: Mapping[int, int] | None = None) -> tuple[Change, ...]:
    """Return the lessons in which two plans differ, in the order of the old plan and then the new one.

    ``moved`` maps lessons of the old plan (from 0) to those of the new one that they have become; by default a lesson
    keeps its number.
    """
    if moved is None:
        moved = {number: number for number in range(min(len(old.lessons), len(new.lessons)))}
    pairs: list[tuple[int | None, int | None]] = [(number, moved.get(number)) for number in range(len(old.lessons))]
    taken = set(moved.values())
    pairs += [(None, number) for number in range(len(new.lessons)) if number not in taken]
    found = []
    for before, after in pairs:
        change = _change(
            None if before is None else old.lessons[before], None if after is None else new.lessons[after], library
        )
        if change is not None:
            found.append(change)
    return tuple(found)


def _change(before: Lesson | None, after: Lesson | None, library: Library) -> Change | None:
    known = after or before
    if known is None:
        return None
    change = Change(
        known.lesson,
        before.date if before else "",
        after.date if after else "",
        _titles(before, library),
        _titles(after, library),
        _retimed(before, after, library) if before and after else (),
        _frame(before, after) if before and after else (),
    )
    same = (change.date_before, change.before) == (change.date_after, change.after)
    return None if same and not change.retimed and not change.frame else change


def _titles(lesson: Lesson | None, library: Library) -> tuple[str, ...]:
    return tuple(_title(slot, library) for slot in lesson.activities) if lesson else ()


def _title(slot: Slot, library: Library) -> str:
    record = library.activities.get(slot.activity)
    return record.title if record else slot.activity


def _retimed(before: Lesson, after: Lesson, library: Library) -> tuple[tuple[str, int, int], ...]:
    minutes = {slot.activity: slot.minutes for slot in before.activities}
    return tuple(
        (_title(slot, library), minutes[slot.activity], slot.minutes)
        for slot in after.activities
        if minutes.get(slot.activity, slot.minutes) != slot.minutes
    )


def _frame(before: Lesson, after: Lesson) -> tuple[str, ...]:
    found = []
    if before.space != after.space:
        found.append(f"in {after.space} instead of {before.space}")
    if before.minutes != after.minutes:
        found.append(f"{after.minutes} minutes instead of {before.minutes}")
    return tuple(found)
