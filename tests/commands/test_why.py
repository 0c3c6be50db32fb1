"""The command that explains a plan: reasons, prices, swaps and other plans."""

import shutil
from pathlib import Path

import pytest
import yaml

from lessonkit.cli import main

from .test_replan import PLAN, planned

__all__ = ["planned"]


@pytest.fixture
def school(planned: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """Return a curriculum with one plan that a test may change."""
    capsys.readouterr()
    return shutil.copytree(planned, tmp_path / "school")


def _run(capsys: pytest.CaptureFixture[str], school: Path, *words: str) -> tuple[int, str]:
    code = main(["why", "--in", str(school), *words])
    said = capsys.readouterr()
    return code, " ".join((said.out + said.err).split())


def _used(school: Path) -> str:
    return (school / "plans" / f"{PLAN}.yaml").read_text("utf-8")


def test_every_lesson_has_its_reasons(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All lessons, what was given up and what was left out are explained; one lesson alone on request."""
    code, said = _run(capsys, school)

    assert 0 == code
    assert all(f"Lesson {number} " in said for number in range(1, 9))
    assert "What was given up" in said and "Left out" in said
    assert "Could be used, but the others serve the wishes better: " in said
    assert "are for other grades, skills or parts of a lesson." in said
    alone = _run(capsys, school, "--lesson", "2")[1]
    assert "Lesson 2 " in alone and "Lesson 3 " not in alone and "Left out" not in alone


def test_swaps_come_with_the_cheapest_first(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What else could be the closing of lesson 1 is listed with its costs in rising order."""
    lesson = yaml.safe_load(_used(school))["lessons"][0]["activities"]
    said = _run(capsys, school, "--swap", "1", str(len(lesson)))[1]

    own = said.partition("If the rest")[0].replace("costs the same", "costs 0 more")
    costs = [int(piece.split()[0]) * (-1 if " less" in piece[:12] else 1) for piece in own.split(" costs ")[1:]]
    assert costs and costs == sorted(costs)
    assert "in lesson 1, the cheapest first:" in said


def test_the_price_of_what_was_left_out(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An activity for another grade says so; one that could be used has a price."""
    left_out = next(
        path.stem for path in sorted((school / "activities/short-paddle").iterdir()) if path.stem not in _used(school)
    )

    code, said = _run(capsys, school, "--activity", left_out)

    assert 0 == code
    assert "serve the wishes better" in said or "for grade" in said or "cannot" in said or "trains none" in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--lesson", "9"), "--lesson 9: the plan has lessons 1 to 8."),
        (("--swap", "1", "9"), "--swap 1 9: the plan has no such place."),
        (("--activity", "wall-tlk"), "Did you mean 'wall-talk'?"),
        (("--take", "2"), "--take goes with --others"),
        (("no-such-plan",), "there is no plan 'no-such-plan'."),
    ],
)
def test_what_is_not_there_is_said(
    school: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], says: str
) -> None:
    """A lesson, place, activity or plan that is not there ends in a sentence."""
    code, said = _run(capsys, school, *words)

    assert 2 == code
    assert says in said
