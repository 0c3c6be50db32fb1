"""Values in good shape to the frozen types of the records."""

from typing import Any

import msgspec

from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.records.measures import GradeBand, Length, read_band, read_length


def build_record(kind: str, data: dict[str, Any], path: str) -> AnyRecord:
    """Return the record that a file's values mean; ``path`` is remembered in it.

    Raises msgspec.ValidationError, whose words are a sentence for the author, for a grade band that runs backwards.
    """
    return msgspec.convert({**data, "path": path}, KINDS[kind], dec_hook=_read, strict=False)


def _read(wanted: type, value: Any) -> Any:
    if wanted is Length:
        return read_length(str(value))
    if wanted is GradeBand:
        return read_band(value)
    raise TypeError(f"no way to read {wanted!r}")
