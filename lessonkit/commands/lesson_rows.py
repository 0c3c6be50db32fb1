"""Rows of a page that show an activity of a lesson, and where the activity stands in the plan now."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from lessonkit.commands.changed_leaves import AlreadyThereError
from lessonkit.commands.edits import Edit
from lessonkit.commands.key_places import KeyPlaces
from lessonkit.loading.rewrite import CannotRewriteError
from lessonkit.records.plan import Slot
from lessonkit.source.location import FieldPath
from lessonkit.writers.word.changes import Item


class Stands(NamedTuple):
    """An activity's place in a lesson, with the file of the plan and the way to it."""

    slot: Slot
    path: str
    field: FieldPath

    def edits(self, minutes: int, setup: int) -> Iterator[Edit]:
        """Yield the edits that give the activity so many minutes, and so many to set up."""
        for name, old, new in (("minutes", self.slot.minutes, minutes), ("setup", self.slot.setup, setup)):
            if old != new:
                says = f"{'set-up' if name == 'setup' else 'minutes'} of {self.slot.activity!r}: {old} becomes {new}."
                yield Edit(self.path, (*self.field, name), "set", new, says)


@dataclass(frozen=True, slots=True)
class LessonRows:
    """The rows of a page as it was exported; ``keys`` are the record fields by the bookmarks of its lines."""

    lines: Sequence[Item]
    keys: Mapping[str, str]
    records: KeyPlaces

    def stands(self, key: str) -> Stands | None:
        """Return where the activity of the row of a key stands now; None where the plan has no such place any more.

        The plan may have lost another row since. Raises AlreadyThereError where the lesson has this activity no more.
        """
        try:
            plan, lesson = self.records.lesson(key)
        except CannotRewriteError:
            return None
        activities, place = plan.lessons[lesson].activities, int(key.split("/")[3])
        beside = self._activities_beside("/".join(key.split("/")[:4]))
        if beside and (place >= len(activities) or activities[place].activity not in beside):
            found = [number for number, each in enumerate(activities) if each.activity in beside]
            if not found:
                raise AlreadyThereError
            place = found[0] if len(found) == 1 else len(activities)
        if place >= len(activities):
            return None
        return Stands(activities[place], plan.path, ("lessons", lesson, "activities", place))

    def clock(self, slot: str) -> str:
        """Return what the exported page said of the minutes of a place in a lesson."""
        return next((item.line.words for item in self.lines if self._key(item) == f"{slot}/minutes"), "")

    def _activities_beside(self, slot: str) -> set[str]:
        """Return the activities whose words stood in the row of a place in a lesson."""
        rows = {(item.table, item.row) for item in self.lines if item.row and self._key(item).startswith(f"{slot}/")}
        fields = [field for item in self.lines if (item.table, item.row) in rows for field in self._key(item).split()]
        return {field.split("/")[1] for field in fields if field.startswith("activity/")}

    def _key(self, item: Item) -> str:
        return self.keys.get(item.line.key, "")
