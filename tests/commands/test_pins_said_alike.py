"""What a check says of pins, planning says of the same request, in the same words and without a search."""

import shutil
from pathlib import Path

import pytest

from lessonkit.loading.folder import load_folder
from lessonkit.planning.precheck import precheck
from lessonkit.planning.setup import set_up
from lessonkit.rules import pin_impossible, pins_collide
from lessonkit.rules.run import run_rules
from tests.rules.laying import BASE, laid
from tests.rules.test_cases import cases

CASES = {
    case["fact"]: case["lay"]
    for module in (pin_impossible, pins_collide)
    for case in cases(module)
    if case["finds"] and "nowhere" not in case["lay"]
}


@pytest.mark.parametrize("fact", CASES)
def test_planning_refuses_in_the_same_words(fact: str, tmp_path: Path) -> None:
    """Each sentence of the rules about pins is one of those for which planning refuses (source: tests/cases/rules)."""
    shutil.copytree(BASE, tmp_path, dirs_exist_ok=True)
    (tmp_path / "unit.yaml").write_text(laid(CASES[fact], "unit"), "utf-8")
    loaded = load_folder(tmp_path, tmp_path.as_posix())
    unit = loaded.library.units["paddles"]
    said = {finding.says for finding in run_rules(loaded, (pin_impossible, pins_collide))}
    one = loaded.library.schools[unit.school].school_class(unit.classes[0])
    refused = {each.says for each in precheck(set_up(loaded.library, unit, one))}

    assert said
    assert said <= refused
