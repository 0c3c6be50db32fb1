"""The JUnit-like report is valid against the schema of a common build server, and counts rightly."""

from pathlib import Path

import pytest
from lxml import etree

from lessonkit.reports.junit import write_junit
from lessonkit.source.finding import Finding
from tests.reports.sample import FINDINGS, ONE_OF_EACH, PATHS

SCHEMA = etree.XMLSchema(etree.parse(Path(__file__).parents[1] / "outside/junit-xsd/junit-10.xsd"))


@pytest.mark.parametrize("findings", [FINDINGS, (), ONE_OF_EACH], ids=["three", "none", "each"])
@pytest.mark.parametrize("paths", [PATHS, ()], ids=["files", "no files"])
def test_the_report_is_valid(findings: tuple[Finding, ...], paths: tuple[str, ...]) -> None:
    """Source: junit-10.xsd, tests/outside/junit-xsd."""
    report = etree.fromstring(write_junit(findings, paths).encode("utf-8"))

    assert SCHEMA.validate(report), SCHEMA.error_log


def test_the_schema_refuses_what_is_no_report() -> None:
    """The check can fail: a suite must count its tests (source: the schema, required attributes of testsuite)."""
    assert not SCHEMA.validate(
        etree.fromstring('<testsuites><testsuite name="a" failures="0" errors="0"/></testsuites>')
    )


def test_every_file_is_a_suite_and_every_finding_a_case() -> None:
    """Errors and warnings fail, advice passes, a clean file has one case that passes: 4 cases, 2 failures."""
    root = etree.fromstring(write_junit(FINDINGS, PATHS).encode("utf-8"))

    assert ("4", "2", "0") == (root.get("tests"), root.get("failures"), root.get("errors"))
    assert [*PATHS] == [suite.get("name") for suite in root]
    assert ["2", "1", "1"] == [suite.get("tests") for suite in root]
    assert [2, 1, 1] == [len(suite.findall("testcase")) for suite in root]
    assert ["error", "warning"] == [failure.get("type") for failure in root.iter("failure")]


def test_words_survive_what_xml_does_not_allow() -> None:
    """Signs of XML are escaped; control characters and U+FFFE are replaced (XML 1.0, 2.2 and 2.4)."""
    root = etree.fromstring(write_junit(FINDINGS, ()).encode("utf-8"))
    told = [element.text for element in root.iter("failure", "system-out")]

    assert "curriculum/a.yaml:3:1: The code \u201cS1 & <E1>\u201d, 100% wrong: no outcome." == told[0]
    assert told[2] is not None and told[2].endswith("No activity works on \ufffd[31m\u00abSpin\u00bb\ufffd.")
