"""The schemas say the same as the record types, in words that a teacher understands."""

import datetime
import re
import types
import typing
from collections.abc import Iterator
from typing import Any

import msgspec
import pytest

from lessonkit.loading.engines import fast_engine
from lessonkit.loading.shape import resolved, schema_of
from lessonkit.records.library import KINDS
from lessonkit.records.measures import GRADES, LENGTH_PATTERN, GradeBand, Length, read_band, read_length
from tests.loading.cases import data

JARGON = re.compile(r"\b(property|properties|array|object|string|integer|boolean|regex|null|None|enum|const|schema)\b")
SORTS = {str: "string", int: "integer", bool: "boolean", float: "number"}


def _parts(kind: str) -> Iterator[tuple[str, type[msgspec.Struct], dict[str, Any]]]:
    """Give each record type of a kind with the part of the schema that stands for it."""
    schema = schema_of(kind)
    todo: list[tuple[str, Any, dict[str, Any]]] = [(kind, KINDS[kind], schema)]
    seen = set()
    while todo:
        name, struct, part = todo.pop()
        if name in seen:
            continue
        seen.add(name)
        yield name, struct, part
        for field in _fields(struct):
            for inner in _structs(field.type):
                todo.append((inner.__name__, inner, schema["$defs"][inner.__name__]))


def _fields(struct: Any) -> list[msgspec.structs.FieldInfo]:
    return [field for field in msgspec.structs.fields(struct) if field.name != "path"]


def _structs(annotation: Any) -> Iterator[Any]:
    if isinstance(annotation, type) and issubclass(annotation, msgspec.Struct):
        yield annotation
    for inner in typing.get_args(annotation):
        yield from _structs(inner)


PARTS = [
    pytest.param(kind, struct, part, id=f"{kind}-{name}")
    for kind in sorted(KINDS)
    for name, struct, part in _parts(kind)
]


@pytest.mark.parametrize(("kind", "struct", "part"), PARTS)
def test_schema_has_the_fields_of_the_type(kind: str, struct: Any, part: dict[str, Any]) -> None:
    """Names, which of them are needed, defaults, sorts and choices are those of the type; nothing else may stand."""
    fields = _fields(struct)
    defaults = {name: inner["default"] for name, inner in part["properties"].items() if "default" in inner}

    assert [field.encode_name for field in fields] == list(part["properties"])
    assert [field.encode_name for field in fields if field.required] == part["required"]
    assert part["additionalProperties"] is False
    assert defaults == {field.encode_name: field.default for field in fields if _is_worth_saying(field.default)}
    for field in fields:
        _assert_same(field.type, part["properties"][field.encode_name], schema_of(kind))


def _is_worth_saying(default: Any) -> bool:
    return isinstance(default, str | int | bool) and default != ""


def _assert_same(annotation: Any, part: dict[str, Any], schema: dict[str, Any]) -> None:
    origin, inner = typing.get_origin(annotation), typing.get_args(annotation)
    part = resolved(schema, part)
    if "const" in part:
        assert schema is not None and annotation is str
    elif origin in (typing.Union, types.UnionType):
        (wanted,) = (one for one in inner if one is not type(None))
        _assert_same(wanted, part, schema)
    elif origin is typing.Literal:
        assert list(inner) == list(dict.fromkeys(str(choice) for choice in part["enum"]))
    elif origin is tuple:
        assert part["type"] == "array"
        _assert_same(inner[0], part["items"], schema)
        assert (len(inner) == part.get("minItems") == part.get("maxItems")) or inner[1] is Ellipsis
    elif origin is dict:
        assert part["type"] == "object"
        _assert_same_table(inner, part, schema)
    elif annotation is Length:
        assert part["pattern"].removeprefix("^(?=.*[1-9])").lstrip("^") == LENGTH_PATTERN.lstrip("^")
    elif annotation is GradeBand:
        assert (part["type"], part["x-form"]) == (["string", "integer"], "grades")
    else:
        assert part["type"] == SORTS.get(annotation, "object")


def _assert_same_table(inner: tuple[Any, ...], part: dict[str, Any], schema: dict[str, Any]) -> None:
    if typing.get_origin(inner[0]) is typing.Literal:
        assert list(typing.get_args(inner[0])) == list(part["properties"])
        for value in part["properties"].values():
            _assert_same(inner[1], value, schema)
    else:
        _assert_same(inner[1], part["additionalProperties"], schema)


@pytest.mark.parametrize(("kind", "struct", "part"), PARTS)
def test_every_field_is_explained(kind: str, struct: Any, part: dict[str, Any]) -> None:
    """Each field has a title and a sentence in a teacher's words; each pattern says what it accepts."""
    for name, inner in part["properties"].items():
        whole = resolved(schema_of(kind), inner)
        said = [whole["title"], whole["description"], whole.get("x-say", ""), whole.get("items", {}).get("x-say", "")]

        assert all(said[:2]), name
        assert [] == JARGON.findall(" ".join(said)), name
    assert part["title"] and part["description"].endswith(".") and struct.__doc__


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_limit_is_sayable(kind: str) -> None:
    """A pattern stands with the words for it, the schemas have no branches, and each names its kind."""
    schema = schema_of(kind)
    nodes = list(_nodes(schema))

    assert kind == schema["properties"]["kind"]["const"]
    assert [] == [node for node in nodes if "pattern" in node and not ("x-say" in node and "x-form" in node)]
    assert [] == [node for node in nodes if {"allOf", "anyOf", "oneOf", "if", "not", "$dynamicRef"} & set(node)]


def _nodes(part: Any) -> Iterator[dict[str, Any]]:
    """Give a part of a schema and every part inside it."""
    if isinstance(part, dict):
        yield part
        for keyword in ("properties", "$defs"):
            for inner in part.get(keyword, {}).values():
                yield from _nodes(inner)
        yield from _nodes(part.get("items"))
        yield from _nodes(part.get("additionalProperties"))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_samples_fill_every_field(kind: str) -> None:
    """The record of the kind that the tests change has every field of the kind and is in order."""
    schema = schema_of(kind)
    fields = {name: set(part["properties"]) for name, _, part in _parts(kind)}
    found: dict[str, set[str]] = {}
    _gather(data(kind), schema, schema, kind, found)
    missing = {name: names - found.get(name, set()) for name, names in fields.items()}
    replaced = {
        "Version": {"organisation", "equipment", "floor", "cues", "easier", "harder", "look_for", "measured", "drawing"}
    }

    assert [] == fast_engine(schema)(data(kind))
    assert {name: names for name, names in missing.items() if names} == (replaced if kind == "activity" else {})


def _gather(value: Any, part: dict[str, Any], schema: dict[str, Any], kind: str, found: dict[str, set[str]]) -> None:
    name = part.get("$ref", kind).removeprefix("#/$defs/")
    whole = resolved(schema, part)
    if isinstance(value, dict) and "properties" in whole:
        found.setdefault(name, set()).update(value)
        for key, inner in value.items():
            _gather(inner, whole["properties"][key], schema, kind, found)
    elif isinstance(value, dict):
        for key, inner in value.items():
            _gather(inner, whole.get("properties", {}).get(key, whole["additionalProperties"]), schema, kind, found)
    if isinstance(value, list):
        for inner in value:
            _gather(inner, whole["items"], schema, kind, found)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_examples_and_defaults_are_accepted(kind: str) -> None:
    """What the schemas show as an example, or say is taken where nothing is written, passes its own limits."""
    schema = schema_of(kind)
    shown = [
        ({**node, "$defs": schema.get("$defs", {})}, value)
        for node in _nodes(schema)
        for value in [*node.get("examples", ()), *([node["default"]] if "default" in node else ())]
    ]

    assert [] == [value for part, value in shown if fast_engine(part)(value)]


def test_day_pattern_knows_the_calendar() -> None:
    """Of all days written with day 1 to 31 from 2000 to 2099, the pattern takes those of the Gregorian calendar."""
    pattern = re.compile(schema_of("unit")["properties"]["start"]["pattern"])
    written = [f"{y}-{m:02}-{d:02}" for y in range(2000, 2100) for m in range(1, 13) for d in range(1, 32)]

    assert [day for day in written if _is_day(day)] == [day for day in written if pattern.search(day)]


def _is_day(text: str) -> bool:
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True


def test_grade_pattern_takes_what_can_be_read() -> None:
    """The pattern of grade bands takes exactly the bands that the records can be made of."""
    pattern = re.compile(schema_of("activity")["properties"]["grades"]["pattern"])
    signs = [*GRADES, "k", "6", "0"]
    written = [*signs, *(f"{first}-{last}" for first in signs for last in signs)]

    assert [band for band in written if _reads(read_band, band)] == [band for band in written if pattern.search(band)]


@pytest.mark.parametrize("text", ["6 m", "6m", "60 cm", "20 ft", "5 ft 6 in", "1.25 m", "0 m", "1 m 20 cm"])
def test_lengths_that_pass_can_be_read(text: str) -> None:
    """What the pattern of lengths takes, the records can be made of."""
    pattern = schema_of("activity")["$defs"]["Floor"]["properties"]["safety"]["pattern"]

    assert re.search(pattern, text)
    assert _reads(read_length, text)


def _reads(read: typing.Callable[[str], Any], text: str) -> bool:
    try:
        read(text)
    except ValueError:
        return False
    return True
