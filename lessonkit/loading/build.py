"""Values in good shape to the frozen types of the records."""

from typing import Any

import msgspec

from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.records.measures import GradeBand, Length, read_band, read_length


def build_record(kind: str, data: dict[str, Any], path: str) -> AnyRecord:
    """Return the record that a file's values mean; ``path`` is remembered in it.

    The values must have passed the schema of the kind. Raises msgspec.ValidationError for values that have not.
    """
    values = _with_class_grades(data) if kind == "school" else data
    return msgspec.convert({**values, "path": path}, KINDS[kind], dec_hook=_read)


def _read(wanted: type, value: Any) -> Any:
    if wanted is Length:
        return read_length(value)
    if wanted is GradeBand:
        return read_band(value)
    raise TypeError(f"no way to read {wanted!r}")


def _with_class_grades(data: dict[str, Any]) -> dict[str, Any]:
    """Take a grade written as a number (``grade: 3``) for the same grade as the text."""
    classes = [{**school_class, "grade": str(school_class["grade"])} for school_class in data["classes"]]
    return {**data, "classes": classes}
