"""The pieces that sentences about fields are made of."""

from collections.abc import Iterable, Sequence
from typing import Any, Final

from lessonkit.loading.shape import Schema, resolved
from lessonkit.source.location import FieldPath

_SORTS: Final = {
    "object": "fields of its own",
    "array": "a list",
    "string": "a text",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
}
_SEVERAL: Final = {"id": " of ids", "date": " of days", "time": " of times", "length": " of lengths"}
_LONGEST: Final = 40
"""Characters of a value that a sentence shows."""


def listed(words: Sequence[str], last: str) -> str:
    """Join words with commas and, before the final one, the word ``last``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def whose(path: FieldPath) -> str:
    """Name a value at the start of a sentence."""
    if not path:
        return "This record"
    if isinstance(path[-1], int):
        name = next((repr(step) for step in reversed(path) if isinstance(step, str)), "this record")
        return f"Item {path[-1] + 1} of {name}"
    return f"The field {path[-1]!r}"


def quoted(text: str) -> str:
    """Show a text in quotes on one line, cut short where it is long."""
    text = " ".join(text.split())
    return repr(text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "...")


def shown(value: Any, written: str | None) -> str:
    """Show a value inside a sentence, as its author wrote it where that is known."""
    if isinstance(value, bool) and written is None:
        return repr("true" if value else "false")
    if isinstance(value, list):
        return f"a list of {len(value)}" if value else "an empty list"
    if isinstance(value, dict):
        return "a set of fields"
    return quoted(str(value) if written is None else written)


def choices(values: Iterable[Any]) -> str:
    """List the values that may be chosen; ``3`` and ``"3"`` are one choice."""
    return listed(list(dict.fromkeys(str(value) for value in values)), "or")


def accepted(schema: Schema, part: Schema) -> str:
    """Say what a part of a schema accepts."""
    if "enum" in part:
        return choices(part["enum"])
    if "x-say" in part or "const" in part:
        return str(part.get("x-say") or part["const"])
    sort = part.get("type", "")
    if sort in ("integer", "number"):
        return _SORTS[sort] + _span(part)
    if sort == "array":
        return "a list" + _of_what(schema, part)
    if sort == "object" and part.get("properties"):
        return "fields of its own: " + listed(_main_fields(part), "and")
    return _SORTS.get(str(sort), "something else")


def _span(part: Schema) -> str:
    least, most = part.get("minimum"), part.get("maximum")
    if least is not None and most is not None:
        return f" from {least} to {most}"
    return f" of {least} or more" if least is not None else ""


def _of_what(schema: Schema, part: Schema) -> str:
    item = resolved(schema, part.get("items", {}))
    if "enum" in item:
        return f" of {choices(item['enum'])}"
    if "x-form" in item:
        return _SEVERAL.get(item["x-form"], "")
    return {"string": " of texts", "object": " of fields, each with a dash"}.get(str(item.get("type")), "")


def _main_fields(part: Schema) -> list[str]:
    return list(part.get("required") or part["properties"])
