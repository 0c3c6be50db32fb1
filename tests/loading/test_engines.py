"""The two schema engines give the same faults, and those of the standard."""

import json
from pathlib import Path
from typing import Any

import pytest

from lessonkit.loading.engines import fast_engine, plain_engine
from lessonkit.loading.shape import schema_of
from lessonkit.records.library import KINDS
from tests.loading.cases import data
from tests.loading.mutants import STRANGE, how_many, mutants

SUITE = Path(__file__).parent.parent / "outside" / "json-schema-test-suite"
ENGINES = {"fast": fast_engine, "plain": plain_engine}
FILES = sorted(SUITE.glob("*.json"), key=lambda path: path.name)
STRANGER = (*STRANGE, "2026-02-30")
"""Values that slips put in, with a day that no calendar has."""
RECORDS = 8_000
"""Damaged records over which the engines must agree."""
UNICODE_CLASS = "p{"
KEYWORDS_THAT_NEED_NO_SUITE = {"$schema", "$defs", "$ref", "title", "description", "default", "examples"}


@pytest.mark.parametrize("engine", ENGINES)
@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_engine_follows_the_suite(file: Path, engine: str) -> None:
    """For each keyword of the record schemas, the engine's verdict is that of the JSON Schema Test Suite.

    Patterns of Unicode classes are left out, which Python's patterns do not have; no record schema uses one.
    """
    wrong = [
        f"{group['description']}: {test['description']}"
        for group in json.loads(file.read_text("utf-8"))
        for test in group["tests"]
        if UNICODE_CLASS not in str(group["schema"])
        if bool(ENGINES[engine](group["schema"])(test["data"])) == test["valid"]
    ]

    assert [] == wrong


def test_suite_covers_the_keywords_of_the_schemas() -> None:
    """There is a file of the suite for every keyword by which a record schema can refuse a value."""
    used = {keyword for kind in KINDS for keyword in _keywords(schema_of(kind))}
    refusing = {keyword for keyword in used if not keyword.startswith("x-")} - KEYWORDS_THAT_NEED_NO_SUITE

    assert refusing == {file.stem for file in FILES}
    assert not any(UNICODE_CLASS in str(schema_of(kind)) for kind in KINDS)


def _keywords(part: Any) -> set[str]:
    if not isinstance(part, dict):
        return set()
    found = set(part)
    for keyword in ("properties", "$defs"):
        for inner in part.get(keyword, {}).values():
            found |= _keywords(inner)
    return found | _keywords(part.get("items")) | _keywords(part.get("additionalProperties"))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_engines_agree_on_damaged_records(kind: str) -> None:
    """Over all damaged records both engines name the same places and keywords, each as often."""
    schema = schema_of(kind)
    fast, plain = fast_engine(schema), plain_engine(schema)
    damaged = mutants(data(kind), strange=STRANGER)
    compared = [(_sorted(fast(mutant)), _sorted(plain(mutant))) for mutant in damaged]

    assert 0 < sum(1 for found, _ in compared if found)
    assert [] == [pair for pair in compared if pair[0] != pair[1]]


def test_enough_records_are_damaged() -> None:
    """The engines are compared over eight thousand damaged records and more."""
    assert sum(how_many(data(kind), STRANGER) for kind in KINDS) >= RECORDS


def _sorted(faults: list[tuple[Any, str]]) -> list[tuple[str, str]]:
    return sorted((repr(path), keyword) for path, keyword in faults)


@pytest.mark.parametrize("text", ["6 m\n", "6\u00a0m", "\u0663 m", "6 m", "6 M", " 6 m"])
def test_engines_agree_on_the_edges_of_patterns(text: str) -> None:
    """A line end is not the end of a text, and digits are 0 to 9 (ECMA-262): ``6 m`` alone is a length."""
    schema = {"pattern": schema_of("activity")["$defs"]["Floor"]["properties"]["safety"]["pattern"]}
    found = {name: engine(schema)(text) for name, engine in ENGINES.items()}
    expected = [] if text == "6 m" else [((), "pattern")]

    assert {"fast": expected, "plain": expected} == found


def test_engines_agree_on_digits() -> None:
    """An Arabic three is no digit of a pattern (ECMA-262, 22.2.1), though Python takes it for one."""
    found = {name: engine({"pattern": r"^\d$"})("\u0663") for name, engine in ENGINES.items()}

    assert {"fast": [((), "pattern")], "plain": [((), "pattern")]} == found
