"""The SARIF log is valid against the standard's own schema, and says what the findings say."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft4Validator

from lessonkit.reports.sarif import write_sarif
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import page
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location
from tests.reports.sample import CUE, FINDINGS, ONE_OF_EACH

SCHEMA = json.loads((Path(__file__).parents[1] / "outside/sarif-2.1.0/sarif-schema-2.1.0.json").read_text("utf-8"))
PAGES = {module.RULE.code.number: page(module) for module in RULES}


def log(findings: tuple[Finding, ...] = FINDINGS) -> dict[str, Any]:
    """Read a log back."""
    value = json.loads(write_sarif(findings, "0.1.0", PAGES))
    assert isinstance(value, dict)
    return value


@pytest.mark.parametrize("findings", [FINDINGS, FINDINGS[:1], (), ONE_OF_EACH], ids=["all", "one", "none", "each"])
def test_the_log_is_valid(findings: tuple[Finding, ...]) -> None:
    """Source: SARIF 2.1.0 with errata 01, tests/outside/sarif-2.1.0."""
    assert [] == [error.message for error in Draft4Validator(SCHEMA).iter_errors(log(findings))]


def test_the_schema_refuses_what_is_no_log() -> None:
    """The check can fail: a column 0 is not a place (source: the schema, minimum of startColumn)."""
    broken = log()
    broken["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"]["startColumn"] = 0

    assert not Draft4Validator(SCHEMA).is_valid(broken)


def test_results_name_their_rule_and_level() -> None:
    """Levels are error, warning and note; ruleIndex is a place in the list of rules (SARIF 2.1.0, 3.27.6, 3.27.10)."""
    run = log()["runs"][0]
    rules = run["tool"]["driver"]["rules"]

    assert ["error", "warning", "note"] == [result["level"] for result in run["results"]]
    for result in run["results"]:
        assert result["ruleId"] == rules[result["ruleIndex"]]["id"]
    assert ["LK211", "LK251", "LK263"] == [rule["id"] for rule in rules]
    assert "A cue has more than seven words." == rules[1]["shortDescription"]["text"]


def test_hints_and_second_places_are_told() -> None:
    """A hint follows the sentence; second places are numbered from 1 (source: tests/reports/sample.py)."""
    error, warning, _ = log()["runs"][0]["results"]

    assert "The code \u201cS1 & <E1>\u201d, 100% wrong:\nno outcome." == error["message"]["text"]
    assert "This cue has 17 words; children hear 7 at most. Keep the words that help." == warning["message"]["text"]
    assert [(1, "first written here")] == [(r["id"], r["message"]["text"]) for r in warning["relatedLocations"]]


def test_places_are_uris_and_count_as_the_standard_does() -> None:
    """Blanks and percent signs are escaped (RFC 3986, 2.1); the end column is the one behind (SARIF 2.1.0, 3.30.8)."""
    places = [result["locations"][0]["physicalLocation"] for result in log()["runs"][0]["results"]]

    assert {"startLine": 7, "startColumn": 5, "endLine": 7, "endColumn": 9} == places[1]["region"]
    assert "curriculum/skills/p%C3%A4ddle%20100%25.yaml" == places[2]["artifactLocation"]["uri"]
    assert "unicodeCodePoints" == log()["runs"][0]["columnKind"]


def test_a_file_name_that_is_not_unicode_keeps_its_bytes() -> None:
    """The byte FF of such a name is %FF (RFC 3986, 2.1; PEP 383 for how it reaches the program)."""
    finding = Finding(CUE, CUE.level, "Too long.", Location("b\udcff.yaml", 1, 1, 1, 2))
    place = log((finding,))["runs"][0]["results"][0]["locations"][0]["physicalLocation"]

    assert "b%FF.yaml" == place["artifactLocation"]["uri"]
