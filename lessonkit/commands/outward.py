"""What of a record other records' checks may read, and what stands for it.

A change of a record's other fields can change nothing that is said of another record. Which fields those are is not
left to memory: a test watches all rules and audits and fails when one reads a field of ``INWARD`` elsewhere.
"""

from _blake2 import blake2b
from operator import attrgetter
from typing import Any, Final

import msgspec

from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.records.measures import GradeBand, Length

INWARD: Final[dict[str, frozenset[str]]] = {
    "activity": frozenset(
        (
            *("summary", "steps", "stop_signal", "cues", "see_say", "easier", "harder", "inclusion", "safety"),
            *("look_for", "questions", "words", "drawing"),
        )
    ),
    "plan": frozenset(("title",)),
    "school": frozenset(("title", "time_zone", "routines", "look", "paper")),
    "skill": frozenset(("summary",)),
    "unit": frozenset(("summary", "letter")),
}
"""Fields that only the checks of the record itself read, by kind; none of a kind that is not here."""
SKILLS: Final = ("skills",)
SERVED: Final = ("grades", "outcomes")
WIDTH: Final = 8
"""Bytes of each of the three marks of a record."""


def outward_fields(kind: str) -> tuple[str, ...]:
    """Return the fields that other records' checks may read of a record of a kind."""
    return tuple(sorted(set(KINDS[kind].__struct_fields__) - INWARD.get(kind, frozenset()) - {"path"}))


def _groups(kind: str) -> tuple[Any, ...]:
    """Return what reads the fields of each mark: of an activity its skills and its outcomes have marks of their own."""
    apart = (SKILLS, SERVED) if kind == "activity" else ((), ())
    rest = tuple(field for field in outward_fields(kind) if field not in {*apart[0], *apart[1]})
    return tuple(attrgetter(*fields) if fields else None for fields in (rest, *apart))


_READ: Final[dict[str, tuple[Any, ...]]] = {}


def _write(value: object) -> object:
    if isinstance(value, Length):
        return value.metres, value.written
    if isinstance(value, GradeBand):
        return value.first, value.last
    raise TypeError(f"no way to write {value!r}")


_ENCODER: Final = msgspec.msgpack.Encoder(enc_hook=_write)


def outward_mark(record: AnyRecord) -> bytes:
    """Return what stands for all that other records' checks may read of a record: three marks side by side.

    The first stands for everything but an activity's skills, grades and outcomes; the second for its skills, the third
    for its grades and outcomes.
    """
    kind = record.kind
    groups = _READ.get(kind) or _READ.setdefault(kind, _groups(kind))
    return b"".join(
        blake2b(_ENCODER.encode(read(record)), digest_size=WIDTH).digest() if read else bytes(WIDTH) for read in groups
    )
