"""The outcome codes that a record names, each with its framework and place."""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.framework import Framework
from lessonkit.records.library import Library
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.source.location import FieldPath


def codes_of(record: Record, library: Library) -> Iterator[tuple[Framework, str, FieldPath]]:
    """Give (framework, code as written, field path) for an activity's outcomes or a unit's aims.

    Codes under an unknown framework are left out.
    """
    if isinstance(record, Activity):
        for name, codes in record.outcomes.items():
            if name in library.frameworks:
                for code in codes:
                    yield library.frameworks[name], code, ("outcomes", name, code)
    elif isinstance(record, Unit) and record.framework in library.frameworks:
        for number, aim in enumerate(record.aims):
            yield library.frameworks[record.framework], aim.code, ("aims", number, "code")
