"""Every rule does what its page says: the failing snippet fails and the passing one passes."""

from pathlib import Path
from types import ModuleType

import pytest

from lessonkit.loading.folder import load_folder
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import page
from lessonkit.rules.run import explain, run_rules
from tests.rules.laying import BASE, found_in, kind_of, snippet

EVERY_RULE = pytest.mark.parametrize("module", RULES, ids=lambda module: module.RULE.code.name)


@EVERY_RULE
def test_the_failing_snippet_fails(module: ModuleType, tmp_path: Path) -> None:
    """Source: the rule's own page."""
    assert found_in(snippet(module, "Fails"), kind_of(module), module, tmp_path)


@EVERY_RULE
def test_the_passing_snippet_passes(module: ModuleType, tmp_path: Path) -> None:
    """Source: the rule's own page."""
    assert [] == found_in(snippet(module, "Passes"), kind_of(module), module, tmp_path)


@EVERY_RULE
def test_a_page_says_what_and_why(module: ModuleType) -> None:
    """A page has a sentence on what the rule finds, and one on why it matters, before its snippets."""
    paragraphs = page(module).partition("\nFails")[0].strip().split("\n\n")

    assert len(paragraphs) >= 2
    assert all(paragraph.endswith(".") or paragraph.endswith(").") for paragraph in paragraphs)


def test_no_rule_minds_the_usual_curriculum() -> None:
    """What a snippet changes is the only thing a rule can mind."""
    loaded = load_folder(BASE, BASE.as_posix())

    assert () == (*loaded.findings, *run_rules(loaded))


def test_names_and_numbers_of_rules_are_their_own() -> None:
    """No two rules share a number or a name; a module is named for the fault it finds."""
    numbers = [module.RULE.code.number for module in RULES]
    names = [module.RULE.code.name for module in RULES]

    assert sorted(set(numbers)) == numbers
    assert len(set(names)) == len(names)
    assert [name.replace("-", "_") for name in names] == [module.__name__.rpartition(".")[2] for module in RULES]


def test_every_rule_on_the_shelf_is_run() -> None:
    """A module that declares a rule is in the registry."""
    shelf = Path(explain.__code__.co_filename).parent
    declared = {path.stem for path in shelf.glob("*.py") if "\nRULE = Rule(" in path.read_text("utf-8")}

    assert declared == {module.__name__.rpartition(".")[2] for module in RULES}


def test_a_page_is_found_by_name_and_by_number() -> None:
    """``check --explain`` takes either; the page is headed by name, number and level."""
    shown = explain("cue-too-long") or ""

    assert shown == explain("lk251")
    assert shown.startswith("cue-too-long (LK251, warning)\n\nA cue has more than seven words.\n")
    assert explain("no-such-rule") is None
