"""Fields that the schema does not know, and what their author meant by them."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from lessonkit.loading.phrases import listed
from lessonkit.loading.shape import Schema, ShapeFault, resolved
from lessonkit.source.closest import closest
from lessonkit.source.location import FieldPath

_MOST_LISTED: Final = 12
"""Fields that a hint lists at most."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """A field that is not known, the known field that was surely meant (or None), and a hint.

    ``sure`` tells that nothing else can be meant: the field is needed and not there, or differs in its signs only.
    """

    path: FieldPath
    meant: str | None
    hint: str | None
    sure: bool = False


def unknown_fields(schema: Schema, fault: ShapeFault) -> Iterator[Unknown]:
    """Give each unknown field of a set of fields. ``schema`` is the schema of the whole record."""
    known: Schema = fault.schema.get("properties", {})
    free = [name for name in known if name not in fault.value]
    missing = [name for name in fault.schema.get("required", ()) if name in free]
    for name, value in fault.value.items():
        if name in known:
            continue
        meant = _meant(name, missing) or _meant(name, free)
        if meant:
            hint: str | None = f"Did you mean {meant!r}?"
        else:
            hint = _cut_by_comma(name, value) or _belongs_below(schema, known, name) or _may_stand(free)
        sure = meant is not None and (meant in missing or meant == _plain(name))
        yield Unknown((*fault.path, name), meant, hint, sure)


def _meant(name: str, fields: Iterable[str]) -> str | None:
    plain = _plain(name)
    return plain if plain in fields else closest(plain, fields)


def _plain(name: str) -> str:
    """Return a name as fields are written: small letters, and lines for whatever parts its words."""
    words = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", name)
    return re.sub(r"[^a-z0-9]+", "_", words.lower()).strip("_")


def _cut_by_comma(name: str, value: object) -> str | None:
    if value is None and " " in name:
        return "If it belongs to the text in front of the comma, put the whole text in quotes."
    return None


def _belongs_below(schema: Schema, known: Schema, name: str) -> str | None:
    for field, part in known.items():
        if name in resolved(schema, part).get("properties", {}):
            return f"It belongs under {field!r}; indent it there."
    return None


def _may_stand(free: list[str]) -> str | None:
    if not free:
        return "Every field that may stand here is there already."
    if len(free) > _MOST_LISTED:
        return None
    return f"Fields that may be added here: {listed(sorted(free), 'and')}."
