"""Every rule does what its page says: the failing snippet fails and the passing one passes."""

import dataclasses
import textwrap
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from lessonkit.loading.build import build_record
from lessonkit.loading.folder import load_folder
from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.records.activity import Activity
from lessonkit.records.library import AnyRecord, Library
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import Context, Fault, page
from lessonkit.rules.run import explain

ROOT = Path(__file__).parents[2]
BASE = ROOT / "tests/cases/rules/library.yaml"


def read(text: str) -> dict[str, Any]:
    """Read YAML as records are read."""
    value = Reader("snippet").value(compose(text, "snippet"))
    assert isinstance(value, dict)
    return value


@cache
def shipped() -> Library:
    """Load the starter curriculum."""
    return load_folder(ROOT / "curriculum", "curriculum").library


def snippet(module: ModuleType, title: str) -> dict[str, Any]:
    """Return the indented lines of a page under ``Fails`` or ``Passes``."""
    _, _, rest = page(module).partition(f"\n{title}")
    lines = rest.partition(":\n")[2].splitlines()
    body = []
    for line in lines:
        if line and not line.startswith("    "):
            break
        body.append(line)
    return read(textwrap.dedent("\n".join(body)))


def faults(module: ModuleType, fields: Mapping[str, Any]) -> list[Fault]:
    """Lay a snippet over the record that no rule minds and let the rule look at it."""
    kind = "activity" if Activity in module.RULE.kinds and "aims" not in fields and "start" not in fields else "unit"
    data = {**read(BASE.read_text("utf-8"))[kind], **fields}
    if kind == "unit" and "start" in fields and "lessons" not in fields:
        del data["lessons"]
    record: AnyRecord = build_record(kind, data, BASE.as_posix())
    library = dataclasses.replace(shipped(), activities=_activities(record))
    return list(module.check(record, Context(library)))


def _activities(record: AnyRecord) -> dict[str, Activity]:
    """Return the shipped activities and the record; a unit finds only the activity that no rule minds."""
    if isinstance(record, Activity):
        return {**shipped().activities, record.id: record}
    only = build_record("activity", read(BASE.read_text("utf-8"))["activity"], BASE.as_posix())
    assert isinstance(only, Activity)
    return {only.id: only}


@pytest.mark.parametrize("module", RULES, ids=lambda module: module.RULE.code.name)
def test_the_failing_snippet_fails(module: ModuleType) -> None:
    """Source: the rule's own page."""
    assert faults(module, snippet(module, "Fails"))


@pytest.mark.parametrize("module", RULES, ids=lambda module: module.RULE.code.name)
def test_the_passing_snippet_passes(module: ModuleType) -> None:
    """Source: the rule's own page."""
    assert [] == faults(module, snippet(module, "Passes"))


def test_names_and_numbers_of_rules_are_their_own() -> None:
    """No two rules share a number or a name; a module is named for the fault it finds."""
    numbers = [module.RULE.code.number for module in RULES]
    names = [module.RULE.code.name for module in RULES]

    assert sorted(set(numbers)) == numbers
    assert len(set(names)) == len(names)
    assert [name.replace("-", "_") for name in names] == [module.__name__.rpartition(".")[2] for module in RULES]


def test_a_page_is_found_by_name_and_by_number() -> None:
    """``check --explain`` takes either."""
    assert explain("cue-too-long") == explain("LK251") is not None
    assert explain("no-such-rule") is None
