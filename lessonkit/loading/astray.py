"""Fields and items in the wrong place: one slip of an indent, or one lost line, that looks like many faults."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from lessonkit.loading.phrases import whose
from lessonkit.loading.shape import Schema, ShapeFault, resolved, schema_at, value_at
from lessonkit.source.location import FieldPath


@dataclass(frozen=True, slots=True)
class Astray:
    """Something in the wrong place: what to say, the values this covers, and the missing field that it explains."""

    path: FieldPath
    says: str
    hint: str
    covers: tuple[FieldPath, ...]
    explains: FieldPath

    def is_about(self, path: FieldPath) -> bool:
        """Tell whether a place lies in what this covers."""
        return any(path[: len(covered)] == covered for covered in self.covers)


def find_astray(schema: Schema, record: Any, faults: tuple[ShapeFault, ...]) -> tuple[Astray, ...]:
    """Return what stands in the wrong place of a record, each once. ``schema`` is the schema of the record."""
    found: dict[FieldPath, Astray] = {}
    for fault in faults:
        if fault.keyword == "required":
            moved = _too_far_right(schema, fault)
        elif fault.keyword == "additionalProperties" and fault.path and isinstance(fault.path[-1], int):
            moved = _without_heading(schema, record, fault)
        else:
            continue
        for one in moved:
            found.setdefault(one.explains, one)
    return tuple(found.values())


def _too_far_right(schema: Schema, fault: ShapeFault) -> Iterator[Astray]:
    """Find fields that are missing here and stand, indented, under one of the fields here."""
    missing = [name for name in fault.schema["required"] if name not in fault.value]
    for name in missing:
        for field, value in fault.value.items():
            known = schema_at(schema, (*fault.path, field)).get("properties", {})
            if isinstance(value, dict) and name in value and name not in known:
                path = (*fault.path, field, name)
                says = f"The field {name!r} does not belong under {field!r}."
                yield Astray(path, says, "Take its indent away.", (path,), (*fault.path, name))


def _without_heading(schema: Schema, record: Any, fault: ShapeFault) -> Iterator[Astray]:
    """Find items of a list that are items of another list, whose name was lost above them."""
    *outer, field, _ = fault.path
    around = value_at(record, tuple(outer))
    for name, part in schema_at(schema, tuple(outer)).get("properties", {}).items():
        known = _item_fields(schema, part)
        if name in around or not known or not set(fault.value) <= known:
            continue
        alike = [
            (*outer, field, number)
            for number, item in enumerate(around[field])
            if isinstance(item, dict) and set(item) <= known
        ]
        says = f"{whose(fault.path)} looks like an item of {name!r}."
        yield Astray(fault.path, says, f"Write the line {name}: above it.", tuple(alike), (*outer, name))
        return


def _item_fields(schema: Schema, part: Schema) -> set[str]:
    item = resolved(schema, resolved(schema, part).get("items", {}))
    return set(item.get("properties", {}))
