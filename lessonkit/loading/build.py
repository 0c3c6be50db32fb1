"""Values in good shape to the frozen types of the records."""

from functools import lru_cache
from typing import TYPE_CHECKING, Any

import msgspec

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.records.measures import GradeBand, Length, read_band, read_length
from lessonkit.source.finding import Finding
from lessonkit.source.location import file_start

if TYPE_CHECKING:
    from lessonkit.loading.remarks import Remark


def build_file(
    kind: str,
    data: dict[str, Any],
    path: str,
    findings: tuple[Finding, ...] = (),
    remarks: "tuple[Remark, ...]" = (),
) -> LoadedFile:
    """Return what becomes of a file whose values are in good shape."""
    try:
        return LoadedFile(build_record(kind, data, path), findings, kind, remarks)
    except msgspec.ValidationError as problem:
        says = f"This record cannot be understood: {problem}."
        return LoadedFile(None, (*findings, make(codes.WRONG_VALUE, says, file_start(path))))


def build_record(kind: str, data: dict[str, Any], path: str) -> AnyRecord:
    """Return the record that a file's values mean; ``path`` is remembered in it.

    The values must have passed the schema of the kind. Raises msgspec.ValidationError for values that have not.
    """
    values = _with_class_grades(data) if kind == "school" else data
    return msgspec.convert({**values, "path": path}, KINDS[kind], dec_hook=read_value)


def read_value(wanted: type, value: Any) -> Any:
    """Return a length or a span of grades from its text."""
    if wanted is Length:
        return _length(value)
    if wanted is GradeBand:
        return _band(value)
    raise TypeError(f"no way to read {wanted!r}")


_length = lru_cache(maxsize=1024)(read_length)
_band = lru_cache(maxsize=64)(read_band)


def _with_class_grades(data: dict[str, Any]) -> dict[str, Any]:
    """Take grades written as numbers (``grade: 3``) for the same grades as texts."""
    return {**data, "classes": [_with_grades(school_class) for school_class in data["classes"]]}


def _with_grades(school_class: dict[str, Any]) -> dict[str, Any]:
    further = (
        {"also_grades": [str(each) for each in school_class["also_grades"]]} if "also_grades" in school_class else {}
    )
    return {**school_class, "grade": str(school_class["grade"]), **further}
