"""Every text that an author wrote in a record, with its place."""

from collections.abc import Iterator, Mapping

import msgspec

from lessonkit.records.record import Record
from lessonkit.source.location import FieldPath


def texts(record: Record) -> Iterator[tuple[FieldPath, str, bool]]:
    """Give (field, text, whether the text is a name in a table) for all texts of a record, in the order of its fields.

    Names of fields do not count; names that the author chose, such as an access need, do.
    """
    for name in record.__struct_fields__:
        if name != "path":
            yield from _texts((name,), getattr(record, name))


def _texts(field: FieldPath, value: object) -> Iterator[tuple[FieldPath, str, bool]]:
    match value:
        case str():
            yield field, value, False
        case tuple():
            for number, item in enumerate(value):
                yield from _texts((*field, number), item)
        case msgspec.Struct():
            for name in value.__struct_fields__:
                yield from _texts((*field, name), getattr(value, name))
        case Mapping():
            for key, item in value.items():
                yield (*field, str(key)), str(key), True
                yield from _texts((*field, str(key)), item)
        case _:
            return
