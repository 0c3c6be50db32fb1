"""Faults of a record's shape in a teacher's words: fields and lists, what is wrong, what is accepted."""

from collections.abc import Callable, Iterator
from typing import Any, Final

from lessonkit.loading import codes
from lessonkit.loading.shape import ShapeFault
from lessonkit.source.closest import closest
from lessonkit.source.finding import Code
from lessonkit.source.location import FieldPath

Said = tuple[Code, FieldPath, bool, str, str | None]
"""Code, field path, whether the place is the field's name rather than its value, sentence, hint."""

_TYPES: Final = {
    "object": "fields of its own",
    "array": "a list",
    "string": "a text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
}
_PATTERNS: Final = (
    ("(cm|in)", "a length with its unit, such as 6 m, 60 cm, 20 ft or 5 ft 6 in"),
    ("[Kk]", "a grade band such as K-2, 3-5 or 3"),
    ("[a-z0-9]", "an id in small letters, digits and hyphens, such as ladder-of-taps"),
    ("[0-9]{4}-", "a date as year-month-day, such as 2027-01-05"),
    ("([01]?[0-9]|2", "a time of day such as 10:15"),
    ("[A-Z]{2}", "a country code of two capital letters, such as US"),
)


def say_faults(faults: tuple[ShapeFault, ...]) -> Iterator[Said]:
    """Say each fault once: an unknown field that must have meant a missing one is one fault, not two."""
    wrong_type = {fault.path for fault in faults if fault.keyword in ("type", "const")}
    explained: set[FieldPath] = set()
    for fault in faults:
        if fault.keyword == "additionalProperties":
            for said, meant in _unknown(fault):
                explained.add((*fault.path, meant))
                yield said
    for fault in faults:
        if fault.keyword == "additionalProperties" or (fault.keyword != "type" and fault.path in wrong_type):
            continue
        if fault.keyword == "required":
            yield from _missing(fault, explained)
        elif fault.keyword == "type":
            yield _wrong_type(fault)
        else:
            yield _limit(fault)


def _unknown(fault: ShapeFault) -> Iterator[tuple[Said, str]]:
    known = fault.schema.get("properties", {})
    missing = [name for name in fault.schema.get("required", ()) if name not in fault.value]
    free = [name for name in known if name not in fault.value]
    for name in fault.value:
        if name in known:
            continue
        meant = closest(name, missing) or closest(name, free) or ""
        hint = (
            f"Did you mean {meant!r}?" if meant else f"Fields that may stand here: {', '.join(sorted(free)) or 'none'}."
        )
        yield (codes.UNKNOWN_FIELD, (*fault.path, name), True, f"There is no field {name!r} here.", hint), meant


def _missing(fault: ShapeFault, explained: set[FieldPath]) -> Iterator[Said]:
    for name in fault.schema["required"]:
        if name in fault.value or (*fault.path, name) in explained:
            continue
        about = fault.schema.get("properties", {}).get(name, {}).get("description")
        yield codes.MISSING_FIELD, fault.path, True, f"{_whose(fault.path)} needs a field {name!r}.", about


def _whose(path: FieldPath) -> str:
    if not path:
        return "This record"
    if isinstance(path[-1], int):
        return f"Item {path[-1] + 1} of {_name(path[:-1])!r}"
    return f"The field {path[-1]!r}"


def _name(path: FieldPath) -> str:
    return next((str(step) for step in reversed(path) if isinstance(step, str)), "this record")


def _wrong_type(fault: ShapeFault) -> Said:
    wanted = fault.schema["type"]
    words = " or ".join(_TYPES[name] for name in ([wanted] if isinstance(wanted, str) else wanted))
    if isinstance(wanted, list) and "pattern" in fault.schema:
        words = _pattern(fault.schema["pattern"])
    if "enum" in fault.schema:
        words = _choices(fault.schema["enum"])
    whose = _whose(fault.path)
    about = fault.schema.get("description")
    if fault.value is None:
        return codes.WRONG_VALUE, fault.path, True, f"{whose} is empty; write {words}, or take the line away.", about
    hint = "Put the text in quotes." if wanted == "string" and not isinstance(fault.value, dict | list) else about
    return codes.WRONG_VALUE, fault.path, False, f"{whose} is {quote(fault.value)}; it must be {words}.", hint


def quote(value: Any) -> str:
    """Show a value as its author wrote it, cut short where it is long."""
    match value:
        case bool():
            return "true" if value else "false"
        case None:
            return "empty"
        case int() | float():
            return str(value)
        case list():
            return f"a list of {len(value)}" if value else "an empty list"
        case dict():
            return "a set of fields"
        case _:
            shown = str(value).strip()
            return repr(shown if len(shown) <= 40 else shown[:37] + "...")


def _limit(fault: ShapeFault) -> Said:
    words = _LIMITS[fault.keyword](fault, fault.schema.get(fault.keyword))
    code = codes.WRONG_COUNT if fault.keyword in ("minItems", "maxItems", "minProperties") else codes.WRONG_VALUE
    hint = fault.schema.get("description")
    if fault.keyword == "enum" and isinstance(fault.value, str):
        meant = closest(fault.value, [str(choice) for choice in fault.schema["enum"]])
        hint = f"Did you mean {meant!r}?" if meant else hint
    return code, fault.path, False, words, hint


def _choices(choices: list[Any]) -> str:
    words = list(dict.fromkeys(str(choice) for choice in choices))
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _pattern(pattern: str) -> str:
    return next((words for piece, words in _PATTERNS if piece in pattern), "written differently")


def _must(fault: ShapeFault, what: str) -> str:
    return f"{_whose(fault.path)} is {quote(fault.value)}; it must be {what}."


_LIMITS: Final[dict[str, Callable[[ShapeFault, Any], str]]] = {
    "enum": lambda fault, limit: _must(fault, _choices(limit)),
    "const": lambda fault, limit: _must(fault, str(limit)),
    "pattern": lambda fault, limit: _must(fault, _pattern(limit)),
    "minimum": lambda fault, limit: _must(fault, f"{limit} or more"),
    "maximum": lambda fault, limit: _must(fault, f"{limit} or less"),
    "minLength": lambda fault, _: f"{_whose(fault.path)} is an empty text; write something, or take the line away.",
    "maxLength": lambda fault, limit: (
        f"{_whose(fault.path)} has {len(fault.value)} characters; {limit} at most find room on a page."
    ),
    "minItems": lambda fault, limit: (
        f"{_whose(fault.path)} has {len(fault.value)} in its list; it needs at least {limit}."
    ),
    "maxItems": lambda fault, limit: (
        f"{_whose(fault.path)} has {len(fault.value)} in its list; it may have {limit} at most."
    ),
    "minProperties": lambda fault, _: f"{_whose(fault.path)} has no fields; it needs at least one.",
    "uniqueItems": lambda fault, _: f"{_whose(fault.path)} says the same thing twice; keep one of them.",
}
