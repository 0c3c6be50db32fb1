"""An activity as it stands, and as each of its versions changes it."""

from collections.abc import Iterable
from typing import NamedTuple

import msgspec

from lessonkit.records.activity import Activity, Version
from lessonkit.rules.same import for_the_same
from lessonkit.source.location import FieldPath

_NOT_TAUGHT = ("grades", "changes")
_NOTHING: frozenset[str] = frozenset()


class Taught(NamedTuple):
    """An activity as taught to some grades.

    ``version`` is the version's place in the record's list, None for the activity as it stands; ``changed`` are the
    fields that stand in place of the activity's own.
    """

    activity: Activity
    version: int | None
    changed: frozenset[str]

    def says(self, *fields: str) -> bool:
        """Tell whether one of the fields is written here: always for the activity itself, else where changed."""
        return self.version is None or not self.changed.isdisjoint(fields)

    def place(self, field: str) -> FieldPath:
        """Return where a field stands in the record; the version itself for what it takes over."""
        if self.version is None:
            return (field,)
        return ("versions", self.version, field) if field in self.changed else ("versions", self.version)


def as_taught(activity: Activity, *fields: str) -> Iterable[Taught]:
    """Return the activity as it stands, then every version that changes one of the fields."""
    found = _all_of(activity, None)
    return found if len(found) == 1 else [taught for taught in found if taught.says(*fields)]


@for_the_same
def _all_of(activity: Activity, _: None) -> tuple[Taught, ...]:
    """Return the activity as it stands and all of its versions."""
    if not activity.versions:
        return (Taught(activity, None, _NOTHING),)
    found = [Taught(activity, None, _NOTHING)]
    for number, version in enumerate(activity.versions):
        changes = _changes(version)
        found.append(Taught(msgspec.structs.replace(activity, **changes), number, frozenset(changes)))
    return tuple(found)


def _changes(version: Version) -> dict[str, object]:
    values = {name: getattr(version, name) for name in version.__struct_fields__ if name not in _NOT_TAUGHT}
    return {name: value for name, value in values.items() if value is not None}
