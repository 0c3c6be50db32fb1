"""Where the record fields of a page's keys stand: the file and the way in it."""

from dataclasses import dataclass
from pathlib import Path

from lessonkit.loading.rewrite import CannotRewriteError, value_at
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.source.location import FieldPath


@dataclass(frozen=True, slots=True)
class KeyPlaces:
    """The fields of the keys of a page that was made for ``plan``, or for no plan."""

    library: Library
    plan: Plan | None

    def place(self, key: str) -> tuple[str, FieldPath]:
        """Return the file and the field of a key. Raises CannotRewriteError for a record that has gone."""
        kind, identity, *rest = key.split("/")
        path: FieldPath = tuple(int(step) if step.isdigit() else step for step in rest)
        if kind == "lesson":
            plan, lesson = self.lesson(key)
            return plan.path, ("lessons", lesson, *path)
        if kind == "activity":
            return self._activity(identity, path)
        records = {"unit": self.library.units, "school": self.library.schools, "skill": self.library.skills}
        record = records.get(kind, {}).get(identity)
        if record is None:
            raise CannotRewriteError(f"there is no {kind} {identity!r} any more")
        return record.path, path

    def lesson(self, key: str) -> tuple[Plan, int]:
        """Return the plan and the place (from 0) of the lesson that a key names by its number."""
        number = int(key.split("/")[1])
        lessons = self.plan.lessons if self.plan else ()
        place = next((place for place, each in enumerate(lessons) if each.lesson == number), None)
        if self.plan is None or place is None:
            raise CannotRewriteError(f"the plan has no lesson {number} any more")
        return self.plan, place

    def value(self, key: str) -> str:
        """Return the words of a field as they are written now."""
        path, field = self.place(key)
        return str(value_at(_text(path), path, field))

    def _activity(self, identity: str, path: FieldPath) -> tuple[str, FieldPath]:
        """Return where a field of an activity stands, in the version of the plan's grade where that has it."""
        activity = self.library.activities.get(identity)
        if activity is None:
            raise CannotRewriteError(f"there is no activity {identity!r} any more")
        if self.plan is not None:
            grade = self.library.schools[self.plan.school].school_class(self.plan.school_class).grade
            version = activity.version_for(grade)
            if version is not None and getattr(version, str(path[0]), None) is not None:
                return activity.path, ("versions", activity.versions.index(version), *path)
        return activity.path, path


def _text(path: str) -> str:
    try:
        return Path(path).read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        raise CannotRewriteError(f"{path} cannot be read") from None
