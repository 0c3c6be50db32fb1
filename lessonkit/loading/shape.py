"""A record's values against the JSON Schema of its kind: which value breaks which limit."""

import json
from collections.abc import Callable, Iterable
from functools import cache
from typing import Any, NamedTuple

from lessonkit.loading.engines import Check, Engine, best_engine, best_gate
from lessonkit.source.location import FieldPath
from lessonkit.source.shipped import shipped_folder

Schema = dict[str, Any]


class ShapeFault(NamedTuple):
    """A value that breaks a limit: where, which keyword of the schema, the schema of the value, the value itself.

    ``needed`` tells whether the value's field must be there; ``beside`` are the other fields next to it.
    """

    path: FieldPath
    keyword: str
    schema: Schema
    value: Any
    needed: bool = True
    beside: frozenset[str] = frozenset()


@cache
def schema_of(kind: str) -> Schema:
    """Return the schema of a record kind. Raises FileNotFoundError for a kind that has none."""
    loaded: Schema = json.loads((shipped_folder("schema") / f"{kind}.schema.json").read_text("utf-8"))
    return loaded


def shape_faults(kind: str, data: Any, engine: Engine | None = None) -> tuple[ShapeFault, ...]:
    """Return every fault of a record's shape, by place and keyword; none for a record in good shape."""
    check = _checker(kind) if engine is None else engine(schema_of(kind))
    return tuple(_fault(schema_of(kind), data, path, keyword) for path, keyword in _in_order(check(data)))


@cache
def _checker(kind: str) -> Check:
    return best_engine()(schema_of(kind))


def is_in_shape(kind: str, data: Any) -> bool:
    """Tell whether a record of a kind has no fault of its shape."""
    return _gate(kind)(data)


@cache
def _gate(kind: str) -> Callable[[Any], bool]:
    return best_gate(schema_of(kind))


def _in_order(faults: Iterable[tuple[FieldPath, str]]) -> list[tuple[FieldPath, str]]:
    return sorted(set(faults), key=lambda fault: ([_step(step) for step in fault[0]], fault[1]))


def _step(step: str | int) -> tuple[int, str]:
    return (step, "") if isinstance(step, int) else (-1, step)


def _fault(schema: Schema, data: Any, path: FieldPath, keyword: str) -> ShapeFault:
    value, around = data, None
    for step in path:
        value, around = value[step], value
    if not isinstance(around, dict):
        return ShapeFault(path, keyword, schema_at(schema, path), value)
    needed = path[-1] in schema_at(schema, path[:-1]).get("required", ())
    return ShapeFault(path, keyword, schema_at(schema, path), value, needed, frozenset(around))


def value_at(record: Any, path: FieldPath) -> Any:
    """Return the value at a path of a record."""
    value = record
    for step in path:
        value = value[step]
    return value


def schema_at(schema: Schema, path: FieldPath) -> Schema:
    """Return the part of a schema that a value at a path must meet. The schemas are flat, so there is one.

    A reference is followed, and what stands beside it (title, description) goes first. Empty for an unknown field.
    """
    here = resolved(schema, schema)
    for step in path:
        if isinstance(step, int):
            here = here.get("items", {})
        else:
            rest = here.get("additionalProperties")
            here = here.get("properties", {}).get(step) or (rest if isinstance(rest, dict) else {})
        here = resolved(schema, here)
    return here


def resolved(schema: Schema, part: Schema) -> Schema:
    """Return a part of a schema with its reference, if it is one, followed."""
    if "$ref" not in part:
        return part
    name = part["$ref"].removeprefix("#/$defs/")
    return {**schema["$defs"][name], **{key: value for key, value in part.items() if key != "$ref"}}
