"""Findings as JSON for other programs: a list of plain values, with counts by level."""

import json
from collections.abc import Sequence
from typing import Any, Final

from lessonkit.source.finding import Finding, Level, in_reading_order
from lessonkit.source.location import Location

FORMAT: Final = "lessonkit-findings"
VERSION: Final = 1
"""Raised when a field changes its meaning or goes away; new fields do not raise it."""


def write_json(findings: Sequence[Finding], files: int) -> str:
    """Return a JSON object, ended by a new line. ``files`` is how many were checked.

    Lines and columns count from 1; an end column is the first one behind. Absent values are null.
    """
    report = {
        "format": FORMAT,
        "version": VERSION,
        "files": files,
        "counts": {level.value: sum(finding.level is level for finding in findings) for level in Level},
        "findings": [_finding(finding) for finding in in_reading_order(findings)],
    }
    return dump(report)


def dump(value: dict[str, Any]) -> str:
    """Return JSON with its letters as they are, indented and ended by a new line.

    Half a letter, as in a file name that is not Unicode, is written as an escape, so that the text can be stored.
    """
    text = json.dumps(value, ensure_ascii=False, indent=2)
    return text.encode("utf-8", "backslashreplace").decode("utf-8") + "\n"


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code.number,
        "name": finding.code.name,
        "level": finding.level.value,
        "says": finding.says,
        "hint": finding.hint,
        **_place(finding.location),
        "record": finding.record,
        "field": list(finding.field),
        "related": [{"says": related.says, **_place(related.location)} for related in finding.related],
    }


def _place(place: Location) -> dict[str, Any]:
    return {
        "path": place.path,
        "line": place.line,
        "column": place.column,
        "end_line": place.end_line,
        "end_column": place.end_column,
    }
