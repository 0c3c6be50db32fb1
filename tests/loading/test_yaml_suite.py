"""The YAML Test Suite: what is accepted has the suite's value, and what is an error is refused."""

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.nodes import PARSER, PURE_PARSER, Parser, compose
from lessonkit.loading.text import read_text
from lessonkit.loading.values import Reader
from tests.loading.cases import CASES

SUITE: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent.parent / "outside" / "yaml-test-suite" / "cases.json").read_text("utf-8")
)
READERS = {"fast": PARSER, "plain": PURE_PARSER}


def _outcome(case: dict[str, Any], parser: Parser) -> str:
    """Return ``as the suite says``, or in which way not."""
    try:
        reader = Reader(case["id"])
        value = reader.value(compose(read_text(case["yaml"].encode(), case["id"]), case["id"], parser))
    except FileFaultError as fault:
        return "as the suite says" if case["error"] else fault.finding.code.name
    if case["error"]:
        return "accepted"
    documents = _documents(case["json"] or "")
    return "as the suite says" if documents in ([], [value]) and not reader.findings else "other_value"


def _documents(text: str) -> list[Any]:
    found = []
    decoder = json.JSONDecoder()
    text = text.strip()
    while text:
        value, end = decoder.raw_decode(text)
        found.append(value)
        text = text[end:].strip()
    return found


def _exceptions(reader: str) -> dict[str, str]:
    told = yaml.safe_load((CASES / "yaml-suite.yaml").read_text("utf-8"))
    return {
        name: entry.get("code", way)
        for way, entries in told.items()
        for entry in entries
        if entry.get("reader", reader) == reader
        for name in entry["ids"]
    }


@pytest.mark.parametrize("reader", READERS)
def test_suite_is_followed_but_for_named_exceptions(reader: str) -> None:
    """Of the suite's 402 cases, loading departs from exactly those that are named with a reason."""
    outcomes = {case["id"]: _outcome(case, READERS[reader]) for case in SUITE}
    departures = {name: outcome for name, outcome in outcomes.items() if outcome != "as the suite says"}

    assert 402 == len(outcomes)
    assert _exceptions(reader) == departures
