"""A check brings rules and audits together, and neither stumbles over what the other finds."""

import io
import shutil
from collections import Counter
from pathlib import Path

import pytest

from lessonkit.cli import main
from lessonkit.commands.checking import findings_of
from lessonkit.commands.refusing import refuse_errors
from lessonkit.commands.terminal import Terminal
from lessonkit.loading.folder import load_folder
from lessonkit.source.finding import Level

CURRICULUM = Path(__file__).resolve().parents[2] / "curriculum"


def test_plans_wait_where_activities_build_on_each_other_in_a_circle(tmp_path: Path) -> None:
    """There is no order to audit a plan by, so the circle is said once and nothing of the plan, and nothing breaks."""
    plan = "paddles-grade-3-grade-3-heron.yaml"
    shutil.copytree(CURRICULUM, tmp_path / "school", ignore=shutil.ignore_patterns("maps", "plans", ".*"))
    (tmp_path / "school/plans").mkdir()
    shutil.copy(CURRICULUM / "plans" / plan, tmp_path / "school/plans" / plan)
    for name, other in (("paddle-to-paddle", "ladder-of-taps"), ("ladder-of-taps", "paddle-to-paddle")):
        (path,) = (tmp_path / "school").rglob(f"activities/*/{name}.yaml")
        lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("builds_on:")]
        path.write_text("\n".join([*lines, f"builds_on: [{other}]", ""]), "utf-8")
    loaded = load_folder(tmp_path / "school", str(tmp_path / "school"))
    found = {finding.code.name for finding in findings_of(loaded)}

    assert "builds-on-in-circle" in found
    assert not {"plan-broken", "plan-outdated"} & found


@pytest.mark.parametrize("broken", ["units/paddles-grade-3.yaml", "skills/short-paddle.yaml"])
def test_plans_wait_for_a_file_that_cannot_be_read(tmp_path: Path, broken: str) -> None:
    """A plan rests on its unit and that unit's skills; while one of their files is broken, that is all that is said."""
    plan = "paddles-grade-3-grade-3-heron.yaml"
    shutil.copytree(CURRICULUM, tmp_path / "school", ignore=shutil.ignore_patterns("maps", "plans", "year*", ".*"))
    (tmp_path / "school/plans").mkdir()
    shutil.copy(CURRICULUM / "plans" / plan, tmp_path / "school/plans" / plan)
    (tmp_path / "school" / broken).write_text("kind: [", "utf-8")
    loaded = load_folder(tmp_path / "school", str(tmp_path / "school"))

    assert [("not-yaml", broken)] == [
        (finding.code.name, Path(finding.location.path).relative_to(tmp_path / "school").as_posix())
        for finding in findings_of(loaded)
        if finding.level is Level.ERROR
    ]


MADE = """made: {lessonkit: 0.1.0, solver: none, inputs: "0", lessons: "0", status: best-found, cost: 1, bound: 0}
"""


@pytest.mark.parametrize(("made", "told"), [("", {"plan-broken": 5}), (MADE, {"plan-broken": 1, "plan-outdated": 1})])
def test_one_change_of_a_record_is_no_flood_in_a_plan(tmp_path: Path, made: str, told: dict[str, int]) -> None:
    """A room of 1.4 m breaks five things, each said of a plan made by hand; of one made before the first is said."""
    school = tmp_path / "school"
    shutil.copytree(CURRICULUM.parent / "tests" / "cases" / "slips" / "curriculum", school)
    plan = next((school / "plans").iterdir())
    plan.write_text(plan.read_text("utf-8").replace("lessons:\n", f"{made}lessons:\n", 1), "utf-8")
    record = school / "school.yaml"
    record.write_text(record.read_text("utf-8").replace("width: 14 m", "width: 1.4 m"), "utf-8")
    found = [one for one in findings_of(load_folder(school, school.as_posix())) if one.code.name.startswith("plan-")]

    assert told == Counter(finding.code.name for finding in found)
    assert any("4 more things in this plan no longer hold" in finding.says for finding in found) == bool(made)


@pytest.mark.parametrize(
    ("aim", "own", "others"),
    [("S1.E24.3z", True, False), ("S1.E1.3", False, False)],
)
def test_only_errors_of_its_own_hold_up_the_planning_of_a_unit(
    tmp_path: Path, aim: str, own: bool, others: bool
) -> None:
    """A code that there is not must be mended before its unit is planned, but another unit need not wait for it.

    An aim that nothing serves is left to planning, which knows ways out; before an export it is an error.
    """
    school = tmp_path / "school"
    shutil.copytree(CURRICULUM.parent / "tests" / "cases" / "slips" / "curriculum", school)
    sound = (school / "units/paddles-grade-3.yaml").read_text("utf-8")
    head, _, rest = sound.partition("aims:\n")
    wrong = f"{head.replace('id: paddles-grade-3', 'id: wrong')}aims:\n  - {{code: {aim}, practise: 1}}\n{rest}"
    (school / "units/wrong.yaml").write_text(wrong, "utf-8")
    loaded = load_folder(school, str(school))
    terminal = Terminal(io.StringIO(), io.StringIO(), {})

    assert own is refuse_errors(loaded, terminal, ("plan",), {"wrong"})
    assert others is refuse_errors(loaded, terminal, ("plan",), {"paddles-grade-3"})
    assert refuse_errors(loaded, terminal, ("plan",))


def test_no_page_waits_for_the_map_of_the_year(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A map whose last lesson falls on another day is an error; no lesson shows it, so all still print."""
    school = tmp_path / "school"
    shutil.copytree(CURRICULUM.parent / "tests" / "cases" / "slips" / "curriculum", school)
    (school / "maps").mkdir()
    (school / "maps/year-map.yaml").write_text(MAP, "utf-8")
    checked = main(["check", str(school)])
    said = capsys.readouterr().out
    exported = main(["export", str(school), "--as", "html", "--to", str(tmp_path / "out")])

    assert 1 == checked
    assert "(year-broken)" in said
    assert 0 == exported
    assert [*tmp_path.rglob("lesson-01.html")]


UNRELATED = ("units/wrong.yaml", "kind: unit\nid: wrong\naims: [\n"), ("plans/wrong.yaml", "kind: plan\nid: wrong\n")
NEEDED = ("skills/short-paddle.yaml", "kind: [\n"), ("equipment.yaml", "kind: equipment\nid: equipment\n")


@pytest.mark.parametrize(
    ("wrong", "more", "code"),
    [(each, (), 0) for each in UNRELATED]
    + [(each, (), 1) for each in NEEDED]
    + [(UNRELATED[1], ("--sheets", "coverage"), 1)],
)
def test_only_errors_in_what_a_plan_rests_on_hold_up_its_pages(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], wrong: tuple[str, str], more: tuple[str, ...], code: int
) -> None:
    """Another unit or plan that cannot be read is a sentence, but where a sheet tells of all plans, or it is needed."""
    school = tmp_path / "school"
    shutil.copytree(CURRICULUM.parent / "tests" / "cases" / "slips" / "curriculum", school)
    (plan,) = (school / "plans").iterdir()
    (school / wrong[0]).write_text(wrong[1], "utf-8")
    words = ["export", str(school), "--plan", plan.stem, "--as", "calendar", "--to", str(tmp_path / "out"), *more]
    exported = main(words)
    said = " ".join(capsys.readouterr().err.split())

    assert code == exported
    assert (not code) is said.startswith("These pages do not rest on")
    assert (not code) is bool([*tmp_path.rglob("*.ics")])


def test_starts_are_repaired_while_another_record_has_errors(tmp_path: Path) -> None:
    """A unit's start follows the map though an activity cannot be read; only what a map rests on keeps it waiting."""
    school = tmp_path / "school"
    shutil.copytree(CURRICULUM.parent / "tests" / "cases" / "slips" / "curriculum", school)
    (school / "maps").mkdir()
    (school / "maps/year-map.yaml").write_text(MAP.replace("2027-03-10", "2027-03-11"), "utf-8")
    (school / "activities/popcorn-kitchen.yaml").write_text("kind: activity\n", "utf-8")
    code = main(["check", str(school), "--fix", "--write", "--no-cache"])
    unit = (school / "units/paddles-grade-3.yaml").read_text("utf-8")

    assert 1 == code
    assert "\nstart: 2027-03-08\n" in unit


MAP = """kind: year-map
id: year-map
title: The map
year: quillfeather-2026-27
school: quillfeather
units:
  - {unit: paddles-grade-3, week_of: 2027-03-08, last: 2027-03-10}
"""
"""Heron's second lesson of that week is on Thursday 11 March, by the school's record."""
