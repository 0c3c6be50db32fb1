"""Findings as a JUnit-like test report, which build servers show: a suite for every file, a case for every finding."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from xml.etree import ElementTree as ET

from lessonkit.reports.shown_line import harmless
from lessonkit.source.finding import Finding, Level, in_reading_order


def write_junit(findings: Sequence[Finding], paths: Iterable[str]) -> str:
    """Return the report as XML, ended by a new line. ``paths`` are all files that were checked.

    Errors are failures, and so are warnings; advice is told with a case that passes. A file without findings has one
    case that passes.
    """
    by_path = {
        path: list(group) for path, group in groupby(in_reading_order(findings), key=lambda each: each.location.path)
    }
    suites = [_suite(path, by_path.get(path, [])) for path in sorted({*paths, *by_path})]
    root = ET.Element("testsuites", {"name": "lessonkit check", **_total(suites)})
    root.extend(suites)
    ET.indent(root)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{ET.tostring(root, encoding="unicode")}\n'


def _total(suites: Sequence[ET.Element]) -> dict[str, str]:
    return {name: str(sum(int(suite.attrib[name]) for suite in suites)) for name in ("tests", "failures", "errors")}


def _suite(path: str, findings: Sequence[Finding]) -> ET.Element:
    failed = sum(finding.level is not Level.ADVICE for finding in findings)
    counts = {"tests": str(max(1, len(findings))), "failures": str(failed), "errors": "0"}
    suite = ET.Element("testsuite", {"name": _text(path), **counts})
    for finding in findings:
        suite.append(_case(finding))
    if not findings:
        suite.append(ET.Element("testcase", {"name": "nothing to mend", "classname": _text(path)}))
    return suite


def _case(finding: Finding) -> ET.Element:
    place = finding.location
    name = f"{finding.code.name} at {place.line}:{place.column}"
    case = ET.Element("testcase", {"name": name, "classname": _text(place.path)})
    words = [f"{place}: {finding.says}"]
    words += [finding.hint] if finding.hint else []
    words += [f"{related.location}: {related.says}" for related in finding.related]
    told = ET.SubElement(case, "system-out" if finding.level is Level.ADVICE else "failure")
    if finding.level is not Level.ADVICE:
        told.attrib |= {"type": finding.level.value, "message": _text(finding.says)}
    told.text = "\n".join(_text(line) for line in words)
    return case


def _text(words: str) -> str:
    """Leave out what XML 1.0 does not allow in a document (section 2.2, Char)."""
    return "".join("\ufffd" if char in "\ufffe\uffff" else char for char in harmless(words))
