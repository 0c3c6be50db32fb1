"""The JSON report holds every value of a finding, in a form that any program reads."""

import json

from lessonkit.reports.json import write_json
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location
from tests.reports.sample import CUE, FINDINGS, PATHS


def test_every_value_of_a_finding_is_there() -> None:
    """The values are those of the finding itself (source: tests/reports/sample.py)."""
    report = json.loads(write_json(FINDINGS, 3))

    assert {"error": 1, "warning": 1, "advice": 1} == report["counts"]
    assert ("lessonkit-findings", 1, 3) == (report["format"], report["version"], report["files"])
    assert {
        "code": "LK251",
        "name": "cue-too-long",
        "level": "warning",
        "says": "This cue has 17 words; children hear 7 at most.",
        "hint": "Keep the words that help.",
        "path": PATHS[0],
        "line": 7,
        "column": 5,
        "end_line": 7,
        "end_column": 9,
        "record": "a",
        "field": ["cues", 1],
        "related": [
            {
                "says": "first written here",
                "path": PATHS[0],
                "line": 2,
                "column": 1,
                "end_line": 2,
                "end_column": 3,
            }
        ],
    } == report["findings"][1]


def test_the_same_findings_give_the_same_bytes() -> None:
    """The order in which findings come does not matter."""
    assert write_json(FINDINGS, 3) == write_json(FINDINGS[::-1], 3)


def test_a_file_name_that_is_not_unicode_can_be_stored() -> None:
    """Such a name reaches the program as half letters (PEP 383); the report must still be UTF-8."""
    finding = Finding(CUE, CUE.level, "Too long.", Location("b\udcff.yaml", 1, 1, 1, 2))
    written = write_json([finding], 1).encode("utf-8")

    assert "b\udcff.yaml" == json.loads(written)["findings"][0]["path"]
