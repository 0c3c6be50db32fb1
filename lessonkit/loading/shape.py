"""A record's values against the JSON Schema of its kind; the only door to the schema libraries.

The fast engine answers where it is installed; the other gives the same faults where it is not.
"""

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from lessonkit.source.location import FieldPath
from lessonkit.source.shipped import shipped_folder

Engine = Callable[[dict[str, Any], Any], list[tuple[FieldPath, str]]]


@dataclass(frozen=True, slots=True)
class ShapeFault:
    """A value that breaks a limit: where, which keyword of the schema, the schema of the value, the value itself."""

    path: FieldPath
    keyword: str
    schema: dict[str, Any]
    value: Any


@cache
def schema_of(kind: str) -> dict[str, Any]:
    """Return the schema of a record kind. Raises FileNotFoundError for a kind that has none."""
    loaded: dict[str, Any] = json.loads((shipped_folder("schema") / f"{kind}.schema.json").read_text("utf-8"))
    return loaded


def shape_faults(kind: str, data: Any, engine: Engine | None = None) -> tuple[ShapeFault, ...]:
    """Return every fault of a record's shape, in the order of the file's fields; none for a record in good shape."""
    schema = schema_of(kind)
    found = (engine or _best_engine())(schema, data)
    faults = {(path, keyword): _fault(schema, data, path, keyword) for path, keyword in found}
    return tuple(faults[key] for key in sorted(faults, key=lambda key: (_order(key[0]), key[1])))


def _order(path: FieldPath) -> tuple[tuple[int, str], ...]:
    return tuple((step, "") if isinstance(step, int) else (-1, step) for step in path)


def _fault(schema: dict[str, Any], data: Any, path: FieldPath, keyword: str) -> ShapeFault:
    value = data
    for step in path:
        value = value[step]
    return ShapeFault(path, keyword, schema_at(schema, path), value)


def schema_at(schema: dict[str, Any], path: FieldPath) -> dict[str, Any]:
    """Return the part of a schema that a value at a path must meet. The schemas are flat, so there is one."""
    here = schema
    for step in path:
        here = _resolve(schema, here)
        if isinstance(step, int):
            here = here.get("items", {})
        else:
            rest = here.get("additionalProperties")
            here = here.get("properties", {}).get(step) or (rest if isinstance(rest, dict) else {})
    return _resolve(schema, here)


def _resolve(schema: dict[str, Any], part: dict[str, Any]) -> dict[str, Any]:
    if "$ref" not in part:
        return part
    name = part["$ref"].removeprefix("#/$defs/")
    return {**schema["$defs"][name], **{key: value for key, value in part.items() if key != "$ref"}}


@cache
def _best_engine() -> Engine:
    try:
        import jsonschema_rs  # noqa: F401  # only asked whether it is there
    except ImportError:
        return plain_engine
    return fast_engine


@cache
def _fast(text: str) -> Any:
    import jsonschema_rs

    return jsonschema_rs.Draft202012Validator(json.loads(text))


def fast_engine(schema: dict[str, Any], data: Any) -> list[tuple[FieldPath, str]]:
    """Find faults with jsonschema-rs."""
    validator = _fast(json.dumps(schema))
    if validator.is_valid(data):
        return []
    return [(tuple(error.instance_path), _keyword(error.schema_path)) for error in validator.iter_errors(data)]


def _keyword(schema_path: list[Any]) -> str:
    return str(schema_path[-1])


def plain_engine(schema: dict[str, Any], data: Any) -> list[tuple[FieldPath, str]]:
    """Find faults with jsonschema."""
    import jsonschema

    errors: Iterator[Any] = jsonschema.Draft202012Validator(schema).iter_errors(data)
    return [(tuple(error.absolute_path), str(error.validator)) for error in errors]
