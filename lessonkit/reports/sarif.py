"""Findings as a SARIF log (OASIS, version 2.1.0 with errata 01), which code-hosting sites and editors show."""

from collections.abc import Mapping, Sequence
from typing import Any, Final
from urllib.parse import quote

from lessonkit.reports.json import dump
from lessonkit.source.finding import Code, Finding, Level, in_reading_order
from lessonkit.source.location import Location

_SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LEVELS: Final = {Level.ERROR: "error", Level.WARNING: "warning", Level.ADVICE: "note"}


def write_sarif(findings: Sequence[Finding], version: str, pages: Mapping[str, str] | None = None) -> str:
    """Return a SARIF log with one run, ended by a new line.

    ``version`` is the program's own; ``pages`` gives the page that explains a code, by its number, where there is one.
    """
    ordered = in_reading_order(findings)
    codes = sorted({finding.code for finding in ordered}, key=lambda code: code.number)
    driver = {"name": "lessonkit", "version": version, "rules": [_rule(code, pages or {}) for code in codes]}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding, codes.index(finding.code)) for finding in ordered],
    }
    return dump({"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]})


def _rule(code: Code, pages: Mapping[str, str]) -> dict[str, Any]:
    rule: dict[str, Any] = {
        "id": code.number,
        "name": code.name,
        "defaultConfiguration": {"level": _LEVELS[code.level]},
    }
    if code.number in pages:
        page = pages[code.number]
        rule["shortDescription"] = {"text": page.partition("\n\n")[0].replace("\n", " ")}
        rule["help"] = {"text": page}
    return rule


def _result(finding: Finding, rule: int) -> dict[str, Any]:
    result: dict[str, Any] = {
        "ruleId": finding.code.number,
        "ruleIndex": rule,
        "level": _LEVELS[finding.level],
        "message": {"text": finding.says if finding.hint is None else f"{finding.says} {finding.hint}"},
        "locations": [_place(finding.location)],
    }
    if finding.related:
        result["relatedLocations"] = [
            {"id": number, **_place(related.location), "message": {"text": related.says}}
            for number, related in enumerate(finding.related, 1)
        ]
    return result


def _place(place: Location) -> dict[str, Any]:
    region = {
        "startLine": place.line,
        "startColumn": place.column,
        "endLine": place.end_line,
        "endColumn": place.end_column,
    }
    uri = quote(place.path.encode("utf-8", "surrogateescape"))
    return {"physicalLocation": {"artifactLocation": {"uri": uri}, "region": region}}
