"""What of an activity other records' checks may read, and what stands for it.

A change of an activity's words alone can change nothing that is said of another record. Which fields that is true of is
not left to memory: a test watches all rules and audits and fails when one reads a field of ``INWARD`` elsewhere.
"""

from hashlib import blake2b
from operator import attrgetter
from typing import Final

import msgspec

from lessonkit.records.activity import Activity
from lessonkit.records.measures import GradeBand, Length

INWARD: Final = frozenset(
    (
        "summary",
        "steps",
        "stop_signal",
        "cues",
        "see_say",
        "easier",
        "harder",
        "inclusion",
        "safety",
        "look_for",
        "questions",
        "words",
        "drawing",
    )
)
"""Fields that only the checks of the activity itself read."""
OUTWARD: Final = tuple(sorted(set(Activity.__struct_fields__) - INWARD - {"path"}))
_FIELDS: Final = attrgetter(*OUTWARD)


def _write(value: object) -> object:
    if isinstance(value, Length):
        return value.metres, value.written
    if isinstance(value, GradeBand):
        return value.first, value.last
    raise TypeError(f"no way to write {value!r}")


_ENCODER: Final = msgspec.msgpack.Encoder(enc_hook=_write)


def outward_mark(activity: Activity) -> bytes:
    """Return what stands for all that other records' checks may read of an activity."""
    return blake2b(_ENCODER.encode(_FIELDS(activity)), digest_size=12).digest()
