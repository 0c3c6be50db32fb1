"""Findings as annotation lines of a GitHub workflow: each shows up beside the line that it is about.

Form and escapes are those of the page "Workflow commands for GitHub Actions" in GitHub's documentation.
"""

from collections.abc import Sequence
from typing import Final

from lessonkit.source.finding import Finding, Level, in_reading_order

_COMMANDS: Final = {Level.ERROR: "error", Level.WARNING: "warning", Level.ADVICE: "notice"}
_IN_TEXT: Final = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A"})
_IN_PROPERTY: Final = str.maketrans({"%": "%25", "\r": "%0D", "\n": "%0A", ":": "%3A", ",": "%2C"})


def write_github(findings: Sequence[Finding]) -> str:
    """Return one line for each finding, every line ended; nothing where there is nothing to say."""
    return "".join(f"{_line(finding)}\n" for finding in in_reading_order(findings))


def _line(finding: Finding) -> str:
    place = finding.location
    properties = {"file": place.path, "line": str(place.line), "endLine": str(place.end_line)}
    if place.end_line == place.line:  # Columns are refused where the lines differ.
        properties |= {"col": str(place.column), "endColumn": str(place.end_column)}
    properties["title"] = f"{finding.code.name} ({finding.code.number})"
    written = ",".join(f"{name}={value.translate(_IN_PROPERTY)}" for name, value in properties.items())
    words = finding.says if finding.hint is None else f"{finding.says}\n{finding.hint}"
    return f"::{_COMMANDS[finding.level]} {written}::{words.translate(_IN_TEXT)}"
