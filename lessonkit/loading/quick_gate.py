"""Tells of one record's values that they are in good shape, without loading an engine for schemas.

For one or two records that takes a part of the time that loading the fast engine takes. Where anything is wrong, or
the schema says something that is not understood here, the answer is no, and an engine has to look. A yes is a yes of
the engines too, which tests hold over thousands of changed records.
"""

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any, Final

Schema = dict[str, Any]
_TYPES: Final[dict[str, type]] = {"string": str, "object": dict, "array": list, "integer": int, "boolean": bool}
_NUMBERS: Final = frozenset((int, float))
_PLAIN: Final = frozenset((str, int))


def is_surely_in_shape(schema: Schema, value: Any) -> bool:
    """Tell whether a value surely has no fault by a schema."""
    return _holds(schema, value, schema.get("$defs", {}))


def _holds(schema: Any, value: Any, parts: Schema) -> bool:
    if schema.__class__ is not dict:
        return schema is True
    for keyword, limit in schema.items():
        limited = _LIMITS.get(keyword)
        if limited is None or not limited(limit, value, schema, parts):
            return False
    return True


def _nothing(_limit: Any, _value: Any, _schema: Schema, _parts: Schema) -> bool:
    return True


def _type(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    kinds = limit if isinstance(limit, list) else [limit]
    return any(_is_of(kind, value) for kind in kinds)


def _is_of(kind: str, value: Any) -> bool:
    if kind == "number":
        return value.__class__ in _NUMBERS
    return value.__class__ is _TYPES.get(kind)


def _reference(limit: Any, value: Any, _schema: Schema, parts: Schema) -> bool:
    name = limit.removeprefix("#/$defs/")
    return name in parts and _holds(parts[name], value, parts)


def _enum(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return any(_const(each, value, _schema, _parts) for each in limit)


def _const(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ in _PLAIN and value.__class__ is limit.__class__ and value == limit


def _pattern(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is not str or _matches(limit, value)


@lru_cache(maxsize=512)
def _matches(pattern: str, value: str) -> bool:
    """Tell whether a text is as a pattern says that has both ends in it; of any other it is not told."""
    if pattern[:1] != "^" or pattern[-1:] != "$":
        return False
    try:
        return _compiled(pattern[:-1] + r"\Z").match(value) is not None
    except re.error:
        return False


@lru_cache(maxsize=64)
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.ASCII)


def _least_length(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is not str or len(value) >= limit


def _most_length(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is not str or len(value) <= limit


def _least(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ not in _NUMBERS or value >= limit


def _most(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ not in _NUMBERS or value <= limit


def _fewest_items(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is list and len(value) >= limit


def _most_items(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is list and len(value) <= limit


def _unlike(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    if not limit:
        return True
    if value.__class__ is not list or len({each.__class__ for each in value} - _PLAIN) > 0:
        return False
    return len({(each.__class__, each) for each in value}) == len(value)


def _items(limit: Any, value: Any, _schema: Schema, parts: Schema) -> bool:
    return value.__class__ is list and all(_holds(limit, each, parts) for each in value)


def _required(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is dict and all(name in value for name in limit)


def _fewest_fields(limit: Any, value: Any, _schema: Schema, _parts: Schema) -> bool:
    return value.__class__ is dict and len(value) >= limit


def _fields(limit: Any, value: Any, _schema: Schema, parts: Schema) -> bool:
    if value.__class__ is not dict:
        return False
    return all(_holds(limit[name], each, parts) for name, each in value.items() if name in limit)


def _other_fields(limit: Any, value: Any, schema: Schema, parts: Schema) -> bool:
    if value.__class__ is not dict:
        return False
    named = schema.get("properties", {})
    others = [each for name, each in value.items() if name not in named]
    return all(_holds(limit, each, parts) for each in others)


_LIMITS: Final[dict[str, Callable[[Any, Any, Schema, Schema], bool]]] = {
    **dict.fromkeys(("title", "description", "default", "examples", "$schema", "$defs", "x-say", "x-form"), _nothing),
    "type": _type,
    "$ref": _reference,
    "enum": _enum,
    "const": _const,
    "pattern": _pattern,
    "minLength": _least_length,
    "maxLength": _most_length,
    "minimum": _least,
    "maximum": _most,
    "minItems": _fewest_items,
    "maxItems": _most_items,
    "uniqueItems": _unlike,
    "items": _items,
    "required": _required,
    "minProperties": _fewest_fields,
    "properties": _fields,
    "additionalProperties": _other_fields,
}
