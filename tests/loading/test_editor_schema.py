"""The schemas for editors: made from the strict ones, no stricter, and with the codes explained."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from lessonkit.loading.editor_schema import editor_schemas
from lessonkit.loading.engines import fast_engine
from lessonkit.loading.folder import shipped_frameworks
from lessonkit.loading.shape import schema_of
from lessonkit.records.library import KINDS
from lessonkit.source.shipped import shipped_folder
from tests.loading.cases import data
from tests.loading.mutants import mutants

ROOT = shipped_folder("schema").parent


def test_committed_schemas_are_those_made() -> None:
    """The files under schema/editor are what the module makes of the strict schemas and the frameworks."""
    folder = shipped_folder("schema") / "editor"
    committed = {path.name: path.read_text("utf-8") for path in sorted(folder.iterdir())}

    assert editor_schemas() == committed


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_editor_schema_gives_the_same_verdicts(kind: str) -> None:
    """What the strict schema takes or refuses, the editor's takes or refuses too."""
    strict = fast_engine(schema_of(kind))
    editor = fast_engine(json.loads(editor_schemas()[f"{kind}.schema.json"]))
    verdicts = [(bool(strict(mutant)), bool(editor(mutant))) for mutant in mutants(data(kind))]

    assert [] == [pair for pair in verdicts if pair[0] != pair[1]]


def test_codes_are_explained_where_they_are_typed() -> None:
    """Each active code of grades K to 5 has its grade, topic and meaning as a field of its framework, and no other."""
    schema = json.loads(editor_schemas()["activity.schema.json"])
    explained = schema["properties"]["outcomes"]["properties"]
    codes = {framework.id: set(explained[framework.id]["properties"]) for framework in shipped_frameworks()}
    code = explained["us-pe-2013"]["properties"]["S1.E1.3"]

    assert {"us-pe-2013", "us-pe-2024"} == set(explained)
    # the elementary rows of the 2013 chart are those with an E; lists by grade: 35, 37, 42, 48, 55 and 58 active cells
    assert 35 + 37 + 42 + 48 + 55 + 58 == len(codes["us-pe-2013"])
    assert all(re.fullmatch(r"S[1-5]\.E\d+\.[K1-5][a-c]?", name) for name in codes["us-pe-2013"])
    assert "Grade 3, hop, gallop, run, slide, skip, leap: Show a fully mature leap." == code["description"]


@pytest.mark.parametrize(("kind", "part"), [("activity", "LookFor"), ("unit", "Aim"), ("plan", "Slot")])
def test_single_codes_are_offered(kind: str, part: str) -> None:
    """Where a code stands by itself, every code is offered with its meaning, and other texts are let pass."""
    schema = json.loads(editor_schemas()[f"{kind}.schema.json"])
    offered = schema["$defs"]["AnyOutcomeCode"]["anyOf"]

    assert "#/$defs/AnyOutcomeCode" in json.dumps(schema["$defs"][part])
    assert all({"const", "title", "description"} == set(choice) for choice in offered[:-1])
    assert "string" == offered[-1]["type"]


def test_every_pattern_speaks() -> None:
    """Editors show a sentence, never a pattern, where a value is written in another way."""
    for text in editor_schemas().values():
        for node in _nodes(json.loads(text)):
            if isinstance(node.get("pattern"), str):
                assert re.fullmatch(r"Write an? .+\.", node["patternErrorMessage"])
            assert not any(keyword.startswith("x-") for keyword in node)


def _nodes(value: Any) -> list[dict[str, Any]]:
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    return [*([value] if isinstance(value, dict) else []), *(node for one in inner for node in _nodes(one))]


def test_settings_lead_each_folder_to_its_schema() -> None:
    """The shared editor settings map every shipped record to the editor schema of its own kind, once."""
    settings = json.loads((ROOT / ".vscode" / "settings.json").read_text("utf-8"))
    records = sorted((ROOT / "curriculum").rglob("*.yaml"))
    wrong = []
    for record in records:
        name = record.relative_to(ROOT)
        found = [schema for schema, globs in settings["yaml.schemas"].items() if any(name.match(g) for g in globs)]
        kind = re.search(r"(?m)^kind: ([\w-]+)$", record.read_text("utf-8"))
        if not kind or found != [f"./schema/editor/{kind.group(1)}.schema.json"]:
            wrong.append(name.as_posix())

    assert [] == wrong
    assert 10 == sum(1 for schema in settings["yaml.schemas"] if Path(ROOT / schema).is_file())
