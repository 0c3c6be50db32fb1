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
from lessonkit.records.skill import Skill

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
APART: Final[dict[str, tuple[tuple[str, ...], tuple[str, ...]]]] = {
    "activity": (("effort", "skills"), ("grades", "outcomes")),
    "skill": (("steps",), ()),
    "unit": (("school", "classes", "skills", "pins", "favourites", "exclude"), ()),
}
"""Outward fields with marks of their own: what rules that read very many records, and maps of a year, read there."""
STEP_OUTWARD: Final = ("id", "title")
"""Fields of a skill's step that other records' checks may read."""
WIDTH: Final = 8
"""Bytes of each of the three marks of a record."""


def outward_fields(kind: str) -> tuple[str, ...]:
    """Return the fields that other records' checks may read of a record of a kind."""
    return tuple(sorted(set(KINDS[kind].__struct_fields__) - INWARD.get(kind, frozenset()) - {"path"}))


def _groups(kind: str) -> tuple[Any, ...]:
    """Return what reads the fields of each mark."""
    apart = APART.get(kind, ((), ()))
    rest = tuple(field for field in outward_fields(kind) if field not in {*apart[0], *apart[1]})
    if kind == "skill":
        return attrgetter(*rest), _steps, None
    return tuple(attrgetter(*fields) if fields else None for fields in (rest, *apart))


def _steps(skill: Skill) -> list[tuple[str, ...]]:
    """Return what other records' checks may read of a skill's steps."""
    return [tuple(getattr(step, field) for field in STEP_OUTWARD) for step in skill.steps]


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

    The first stands for everything that is not in ``APART``, the others for the two parts there.
    """
    kind = record.kind
    groups = _READ.get(kind) or _READ.setdefault(kind, _groups(kind))
    return b"".join(
        blake2b(_ENCODER.encode(read(record)), digest_size=WIDTH).digest() if read else bytes(WIDTH) for read in groups
    )
