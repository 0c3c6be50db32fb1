"""The schemas that editors read: the strict ones, with every outcome code of the shipped frameworks explained.

They say nothing stricter. Run ``python -m lessonkit.loading.editor_schema`` after a change of a schema or a framework.
"""

import json
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any, Final

from lessonkit.loading.folder import shipped_frameworks
from lessonkit.loading.shape import Schema, schema_of
from lessonkit.records.framework import Framework, Outcome
from lessonkit.records.library import KINDS
from lessonkit.records.measures import GRADES
from lessonkit.source.safe_file import write_whole
from lessonkit.source.shipped import shipped_folder

FOLDER: Final = "editor"
_ANY_CODE: Final = "AnyOutcomeCode"
_SINGLE_CODES: Final = {
    "activity": (("LookFor", "outcome"),),
    "plan": (("Slot", "assess"),),
    "unit": (("Aim", "code"),),
}
"""Where one outcome code stands by itself: part of the schema and field, which may be a list of codes."""
_MAPS: Final = ("properties", "$defs")
_INNER: Final = ("items", "additionalProperties")


def editor_schemas() -> dict[str, str]:
    """Return the text of each editor schema by its file name."""
    frameworks = shipped_frameworks()
    return {f"{kind}.schema.json": _text(_editor_schema(kind, frameworks)) for kind in sorted(KINDS)}


def main() -> None:
    """Write the editor schemas beside the strict ones."""
    folder = shipped_folder("schema") / FOLDER
    for name, text in editor_schemas().items():
        write_whole(Path(folder / name), text.encode())


def _text(schema: Schema) -> str:
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def _editor_schema(kind: str, frameworks: Iterable[Framework]) -> Schema:
    schema = _for_editors(schema_of(kind))
    if kind == "activity":
        _explain_served_codes(schema, frameworks)
    for part, field in _SINGLE_CODES.get(kind, ()):
        _explain_single_codes(schema, part, field, frameworks)
    return schema


def _for_editors(part: Schema) -> Schema:
    """Turn our own words beside a pattern into those that editors show when it is not met."""
    made: Schema = {}
    for keyword, value in part.items():
        if keyword in _MAPS:
            made[keyword] = {name: _for_editors(inner) for name, inner in value.items()}
        elif keyword in _INNER and isinstance(value, dict):
            made[keyword] = _for_editors(value)
        elif not keyword.startswith("x-"):
            made[keyword] = value
    if "pattern" in part:
        made["patternErrorMessage"] = f"Write {part['x-say']}."
    return made


def _explain_served_codes(schema: Schema, frameworks: Iterable[Framework]) -> None:
    """Give the codes of each shipped framework a field of their own under ``outcomes``; other codes stay possible."""
    outcomes = schema["properties"]["outcomes"]
    ways = outcomes["additionalProperties"]["additionalProperties"]
    schema["$defs"]["Ways"] = ways
    outcomes["properties"] = {
        framework.id: {
            "title": framework.title,
            "description": "Each code with a list of how the activity serves it: introduced, practised, assessed.",
            **outcomes["additionalProperties"],
            "properties": {
                outcome.code: {"title": outcome.code, "description": _explained(outcome), "$ref": "#/$defs/Ways"}
                for outcome in _taught(framework)
            },
        }
        for framework in frameworks
    }


def _explain_single_codes(schema: Schema, part: str, field: str, frameworks: Iterable[Framework]) -> None:
    """Offer every code of the shipped frameworks where one code stands by itself; other texts stay possible."""
    place: dict[str, Any] = schema["$defs"][part]["properties"]
    whole = place[field]
    text = whole["items"] if whole["type"] == "array" else whole
    limits = {keyword: value for keyword, value in text.items() if keyword not in ("title", "description")}
    schema["$defs"][_ANY_CODE] = {"anyOf": [*_choices(frameworks), limits]}
    if whole["type"] == "array":
        whole["items"] = {"$ref": f"#/$defs/{_ANY_CODE}"}
    else:
        said = {keyword: value for keyword, value in whole.items() if keyword in ("title", "description")}
        place[field] = {**said, "$ref": f"#/$defs/{_ANY_CODE}"}


def _choices(frameworks: Iterable[Framework]) -> list[Mapping[str, str]]:
    return [
        {"const": outcome.code, "title": outcome.code, "description": _explained(outcome)}
        for framework in frameworks
        for outcome in _taught(framework)
    ]


def _taught(framework: Framework) -> list[Outcome]:
    """Return the outcomes of a framework that ask something of children in grades K to 5."""
    return [outcome for outcome in framework.outcomes if outcome.status == "active" and _is_elementary(outcome.grade)]


def _is_elementary(grade: str) -> bool:
    return grade.removeprefix("Pre").partition("-")[0] in GRADES


def _explained(outcome: Outcome) -> str:
    says = f": {outcome.says}" if outcome.says else ""
    return f"Grade {outcome.grade}, {outcome.topic}{says}."


if __name__ == "__main__":
    main()
