"""Every rule says the right words at the right place, and nothing where nothing is wrong."""

from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.rules.registry import RULES
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location
from tests.rules.laying import BASE, found_in, kind_of

CASES = BASE.parent


def cases(module: ModuleType) -> list[dict[str, Any]]:
    """Read the cases of a rule."""
    path = CASES / f"{module.RULE.code.name}.yaml"
    value = Reader(path.name).value(compose(path.read_text("utf-8"), path.name))
    assert isinstance(value, list)
    return value


EVERY_CASE = [(module, case) for module in RULES for case in cases(module)]


def _shown(finding: Finding, module: ModuleType) -> dict[str, Any]:
    """Write a finding as the cases do; the level only where it is not the rule's own."""
    shown: dict[str, Any] = {"at": _stretch(finding.location), "says": finding.says}
    if finding.level is not module.RULE.code.level:
        shown["level"] = finding.level.value
    if finding.hint is not None:
        shown["hint"] = finding.hint
    for related in finding.related:
        place = related.location
        shown["related"] = f"{Path(place.path).name}:{place.line}:{place.column} {related.says}"
    return shown


def _stretch(place: Location) -> str:
    end = f"{place.end_line}:{place.end_column}" if place.end_line != place.line else str(place.end_column)
    return f"{place.line}:{place.column}-{end}"


@pytest.mark.parametrize(
    ("module", "case"), EVERY_CASE, ids=[f"{m.RULE.code.name}: {c['fact']}" for m, c in EVERY_CASE]
)
def test_a_rule_finds_what_its_cases_say(module: ModuleType, case: dict[str, Any], tmp_path: Path) -> None:
    """The fact is the case's own; places were read off the lines above them (source: tests/cases/rules)."""
    kind = case.get("of", kind_of(module))
    found = found_in(case["lay"], kind, module, tmp_path, case.get("without", ()))

    assert case["finds"] == [_shown(finding, module) for finding in found]


def test_every_rule_has_a_case_that_finds_something() -> None:
    """Words and place of each rule are checked at least once."""
    checked = {module.RULE.code.name for module, case in EVERY_CASE if case["finds"]}

    assert checked == {module.RULE.code.name for module in RULES}
