"""Faults of a record's shape in a teacher's words: which value is wrong, and what is accepted.

One fault in a file is one sentence here: an unknown field that must have meant a missing one is said once, and a value
of the wrong sort is not also said to be too long.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any, Final

from lessonkit.loading import codes
from lessonkit.loading.astray import find_astray
from lessonkit.loading.dashes import NO_DASH, way_to_dash
from lessonkit.loading.phrases import accepted, listed, quoted, shown, whose
from lessonkit.loading.shape import Schema, ShapeFault, resolved, schema_at, value_at
from lessonkit.loading.suggest import suggestion, whole_number
from lessonkit.loading.unknown import Unknown, unknown_fields
from lessonkit.source.closest import closest
from lessonkit.source.finding import Code
from lessonkit.source.location import FieldPath

_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
_UNSEEN: Final = frozenset("\u00a0\u00ad\u200b\u200c\u200d\u2060\ufeff")
"""What comes with words from web pages and word processors, and cannot be seen."""
_TRUTHS: Final = {"yes": "true", "on": "true", "no": "false", "off": "false"}
_FIRST: Final = ("type", "const", "enum", "minLength", "pattern")
"""Of several faults of one value, the one to say."""

Written = Callable[[FieldPath], str | None]
"""Gives a value as its author wrote it, None for lists and sets of fields."""
Below = Callable[[FieldPath], bool]
"""Tells whether a value begins on a line below its field's name."""


@dataclass(frozen=True, slots=True)
class Said:
    """A fault in words; ``on_key`` tells whether its place is the field's name rather than its value.

    Of a value that begins on a line below the field's name the place is that name, unless ``on_line`` is set.
    """

    code: Code
    path: FieldPath
    says: str
    hint: str | None = None
    on_key: bool = False
    repair: str | None = None
    on_line: bool = False


@dataclass(slots=True)
class _Sayer:
    """What the sentences of one record share.

    ``sorts`` are the values of the wrong sort; ``explained`` are fields that need no sentence of their own any more.
    """

    schema: Schema
    written: Written
    below: Below
    sorts: frozenset[FieldPath]
    explained: set[FieldPath] = field(default_factory=set)

    def shown(self, fault: ShapeFault) -> str:
        return shown(fault.value, self.written(fault.path))


def say_faults(
    schema: Schema, record: Any, faults: tuple[ShapeFault, ...], written: Written, below: Below = lambda _: False
) -> tuple[Said, ...]:
    """Say each fault of a record once; ``schema`` is the schema of its kind."""
    sayer = _Sayer(schema, written, below, frozenset(fault.path for fault in faults if fault.keyword == "type"))
    astray = find_astray(schema, record, faults)
    sayer.explained.update(one.explains for one in astray)
    left = [fault for fault in faults if not any(one.is_about(fault.path) for one in astray)]
    extra = [fault for fault in left if fault.keyword == "additionalProperties"]
    unknown = [found for fault in extra for found in unknown_fields(schema, fault)]
    unknown = [found for found in unknown if not any(one.is_about(found.path) for one in astray)]
    sayer.explained.update((*found.path[:-1], found.meant) for found in unknown if found.meant)
    whole = (_of_the_point(schema, record, fault) for fault in left if fault.keyword != "additionalProperties")
    rest = _one_a_value(whole)
    said = [sentence for fault in rest for sentence in _say(sayer, fault)]
    moved = [Said(codes.UNKNOWN_FIELD, one.path, one.says, one.hint, on_key=True) for one in astray]
    return (*moved, *(_say_unknown(found) for found in unknown if found.path not in sayer.explained), *said)


def _one_a_value(faults: Iterable[ShapeFault]) -> list[ShapeFault]:
    """Choose one fault for each value, empty values first, since they may explain others."""
    chosen: dict[FieldPath, ShapeFault] = {}
    for fault in faults:
        earlier = chosen.get(fault.path)
        if earlier is None or _rank(fault) < _rank(earlier):
            chosen[fault.path] = fault
    return sorted(chosen.values(), key=lambda fault: fault.value is not None)


def _of_the_point(schema: Schema, record: Any, fault: ShapeFault) -> ShapeFault:
    """Take a coordinate that is not a number for a fault of the whole point."""
    around = schema_at(schema, fault.path[:-1])
    if fault.keyword != "type" or around.get("type") != "array" or "x-say" not in around:
        return fault
    return ShapeFault(fault.path[:-1], "type", around, value_at(record, fault.path[:-1]))


def _rank(fault: ShapeFault) -> int:
    return _FIRST.index(fault.keyword) if fault.keyword in _FIRST else len(_FIRST)


def _say_unknown(found: Unknown) -> Said:
    says, repair = f"There is no field {str(found.path[-1])!r} here.", found.meant if found.sure else None
    return Said(codes.UNKNOWN_FIELD, found.path, says, found.hint, True, repair)


def _say(sayer: _Sayer, fault: ShapeFault) -> Iterator[Said]:
    if fault.keyword == "required":
        yield from _missing(sayer, fault)
    elif fault.path in sayer.explained:
        return
    elif fault.value is None:
        yield _empty(sayer, fault)
    else:
        yield _SAYINGS[fault.keyword](sayer, fault)


def _missing(sayer: _Sayer, fault: ShapeFault) -> Iterator[Said]:
    names = [
        name
        for name in fault.schema["required"]
        if name not in fault.value and (*fault.path, name) not in sayer.explained
    ]
    if names:
        about = fault.schema["properties"][names[0]].get("description") if len(names) == 1 else None
        fields = "the field" if len(names) == 1 else "the fields"
        says = f"{whose(fault.path)} needs {fields} {listed([repr(name) for name in names], 'and')}."
        yield Said(codes.MISSING_FIELD, fault.path, says, about, on_key=True)


def _empty(sayer: _Sayer, fault: ShapeFault) -> Said:
    """Say that a value is missing; the lines below it may have lost their indent."""
    around = fault.path[:-1]
    lost = [name for name in fault.schema.get("properties", {}) if name in fault.beside]
    if not lost and isinstance(fault.schema.get("additionalProperties"), dict):
        lost = sorted(name for name in fault.beside if (*around, name) in sayer.sorts - {fault.path})
    if lost:
        sayer.explained.update((*around, name) for name in lost)
        hint = f"Indent the lines of {listed([repr(name) for name in lost], 'and')} below it."
        return Said(codes.WRONG_VALUE, fault.path, f"{whose(fault.path)} has nothing under it.", hint, on_key=True)
    way_out = "" if fault.needed else ", or take the line away"
    says = f"{whose(fault.path)} is empty; write {accepted(sayer.schema, fault.schema)}{way_out}."
    return Said(codes.WRONG_VALUE, fault.path, says, fault.schema.get("description"), on_key=True)


def _wrong(sayer: _Sayer, fault: ShapeFault, hint: str | None = None) -> Said:
    says = f"{whose(fault.path)} is {sayer.shown(fault)}; it must be {accepted(sayer.schema, fault.schema)}."
    if isinstance(fault.value, str) and not _UNSEEN.isdisjoint(fault.value):
        hint = "A space or sign that cannot be told from others stands in it; type it again."
    return Said(codes.WRONG_VALUE, fault.path, says, hint or fault.schema.get("description"))


def _sort(sayer: _Sayer, fault: ShapeFault) -> Said:
    value = fault.value
    if fault.schema.get("type") == "array" and isinstance(value, str) and sayer.below(fault.path):
        hint = way_to_dash(value, "Begin every line of the list with a dash and a space.")
        return Said(codes.WRONG_VALUE, fault.path, NO_DASH, hint, on_line=True)
    return _wrong(sayer, fault, _way_to_sort(sayer, fault))


def _way_to_sort(sayer: _Sayer, fault: ShapeFault) -> str | None:
    wanted, value = fault.schema.get("type"), fault.value
    if wanted == "string" and isinstance(value, dict):
        return "If a colon belongs to the text, put the whole text in quotes."
    if wanted == "string" and isinstance(value, int | float):
        return _way_to_text(fault.schema, sayer.written(fault.path) or "")
    if wanted == "integer" and isinstance(value, str):
        return _write(whole_number(value))
    if wanted == "boolean" and isinstance(value, str):
        return _write(_TRUTHS.get(value.lower()))
    return _way_to_list(sayer, fault) if wanted == "array" else None


def _way_to_list(sayer: _Sayer, fault: ShapeFault) -> str | None:
    value = fault.value
    if isinstance(value, dict):
        return "Begin each item of the list with a dash."
    if isinstance(value, str) and value.startswith("- "):
        return "Take the | or > behind the field's name away; the lines below it are a list by their dashes."
    item = resolved(sayer.schema, fault.schema.get("items", {}))
    listable = isinstance(value, str | int | float) and item.get("type") == "string"
    return f"Write it as a list: [{sayer.written(fault.path)}]." if listable else None


def _way_to_text(part: Schema, written: str) -> str | None:
    """Say how a number becomes the text it should be: in quotes, or in the form of a date, a time, a length."""
    pattern = part.get("pattern", "")
    if "enum" in part and written not in part["enum"]:
        return None
    if re.search(pattern, written):
        return f'Put it in quotes: "{written}".'
    return _guess(suggestion(part.get("x-form", ""), written, pattern))


def _write(meant: str | None) -> str | None:
    return f"Write {meant}." if meant else None


def _guess(meant: str | None) -> str | None:
    return f"Did you mean {meant!r}?" if meant else None


def _choice(sayer: _Sayer, fault: ShapeFault) -> Said:
    meant = closest(str(fault.value), [str(choice) for choice in fault.schema["enum"]])
    return _wrong(sayer, fault, _guess(meant))


def _form(sayer: _Sayer, fault: ShapeFault) -> Said:
    form = fault.schema.get("x-form", "")
    meant = suggestion(form, fault.value, fault.schema["pattern"])
    unreal = "There is no such day in the calendar." if form == "date" and _DAY.fullmatch(fault.value) else None
    said = _wrong(sayer, fault, _guess(meant) or unreal)
    return said if form == "id" else replace(said, repair=meant)


def _no_text(sayer: _Sayer, fault: ShapeFault) -> Said:
    way_out = "" if fault.needed else ", or take the line away"
    says = f"{whose(fault.path)} is an empty text; write something{way_out}."
    return Said(codes.WRONG_VALUE, fault.path, says, fault.schema.get("description"))


def _too_long(sayer: _Sayer, fault: ShapeFault) -> Said:
    says = (
        f"{whose(fault.path)} begins {quoted(fault.value)} and has {len(fault.value)} characters; "
        f"it may have {fault.schema['maxLength']} at most."
    )
    return Said(codes.WRONG_VALUE, fault.path, says, fault.schema.get("description"))


def _too_few(sayer: _Sayer, fault: ShapeFault) -> Said:
    least = fault.schema["minItems"]
    if fault.schema.get("maxItems") == least:
        return _wrong_count(sayer, fault)
    needs = "at least one item" if least == 1 else f"at least {least} items"
    says = f"{whose(fault.path)} is {sayer.shown(fault)}; it needs {needs}."
    return Said(codes.WRONG_COUNT, fault.path, says, fault.schema.get("description"))


def _too_many(sayer: _Sayer, fault: ShapeFault) -> Said:
    if fault.schema.get("minItems") == fault.schema["maxItems"]:
        return _wrong_count(sayer, fault)
    says = f"{whose(fault.path)} is {sayer.shown(fault)}; it may have {fault.schema['maxItems']} items at most."
    return Said(codes.WRONG_COUNT, fault.path, says, fault.schema.get("description"))


def _wrong_count(sayer: _Sayer, fault: ShapeFault) -> Said:
    says = f"{whose(fault.path)} is {sayer.shown(fault)}; it must be {accepted(sayer.schema, fault.schema)}."
    return Said(codes.WRONG_COUNT, fault.path, says, fault.schema.get("description"))


def _no_fields(sayer: _Sayer, fault: ShapeFault) -> Said:
    says = f"{whose(fault.path)} has no fields; it needs at least one."
    return Said(codes.WRONG_COUNT, fault.path, says, fault.schema.get("description"))


def _repeated(sayer: _Sayer, fault: ShapeFault) -> Said:
    items: list[Any] = fault.value
    place = next(number for number, item in enumerate(items) if item in items[:number])
    path = (*fault.path, place)
    says = f"{whose(path)} says {shown(items[place], sayer.written(path))} a second time; keep one of them."
    return Said(codes.WRONG_VALUE, path, says)


_SAYINGS: Final[dict[str, Callable[[_Sayer, ShapeFault], Said]]] = {
    "type": _sort,
    "enum": _choice,
    "const": _wrong,
    "pattern": _form,
    "minimum": _wrong,
    "maximum": _wrong,
    "minLength": _no_text,
    "maxLength": _too_long,
    "minItems": _too_few,
    "maxItems": _too_many,
    "minProperties": _no_fields,
    "uniqueItems": _repeated,
}
"""Every keyword that the schemas use, with what it makes of a fault."""
