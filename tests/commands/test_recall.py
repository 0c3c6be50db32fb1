"""What a check keeps for next time never makes it say anything else than a check from the start."""

import os
import shutil
import time
from pathlib import Path
from random import Random

import pytest

from lessonkit.cli import main
from lessonkit.commands import recall
from lessonkit.commands.recall import FOLDER, Checked, before, keep
from lessonkit.loading.record_files import mark_of
from tests.rules.laying import BASE

FAULTS = (
    ("cues: [Soft knees]", "cues: [Keep both of your knees very soft and bent]"),
    ("effort: moderate", "effort: moderat"),
    ("S1.E24.3a", "S1E24.3a"),
    ("least: 5", "least: 5\tx"),
    ("grades: 2-5", "grades: 4-5"),
    ("id: ", "id: x-"),
)


@pytest.fixture
def school(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Lay out a small curriculum for which everything is kept, and stand beside it."""
    monkeypatch.setattr(recall, "LEAST", 1)
    monkeypatch.chdir(tmp_path)
    shutil.copytree(BASE, tmp_path / "school")
    return Path("school")


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """Check and return the exit code with the whole report."""
    code = main(["check", "school", "--form", "json", *words])
    return code, capsys.readouterr().out


def change(school: Path, random: Random) -> None:
    """Edit, rename, touch, copy, delete or mend one file; sometimes without a new date or size."""
    files = sorted(school.rglob("*.yaml"))
    path = random.choice(files)
    match random.randrange(7):
        case 0:
            path.rename(path.with_name(f"{path.stem}{random.randrange(3)}.yaml"))
        case 1:
            path.touch()
        case 2 if len(files) > 3:
            path.unlink()
        case 3:
            shutil.copy2(path, path.with_name(f"copy{random.randrange(4)}.yaml"))
        case 4:
            shutil.copytree(BASE, school, dirs_exist_ok=True)
        case 5:
            status = path.stat()
            path.write_text(path.read_text("utf-8").replace("3", "4", 1), "utf-8")
            os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))
        case _:
            right, wrong = random.choice(FAULTS)
            path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")


@pytest.mark.parametrize("seed", range(4))
def test_answers_are_those_of_a_check_from_the_start(
    school: Path, capsys: pytest.CaptureFixture[str], seed: int
) -> None:
    """Over random changes, the first and the second check after each say what ``--no-cache`` says."""
    random = Random(seed)
    recalled = 0
    for _ in range(12):
        change(school, random)
        fresh = said(capsys, "--no-cache")
        first = said(capsys)
        now = before(school, "school", time.time_ns())
        recalled += now is not None and recall.recall(now) is not None

        assert fresh == first == said(capsys)
    assert recalled > 6


def test_a_cache_that_was_damaged_or_deleted_does_no_harm(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Cut short, filled with something else, or away: the answer is the same."""
    fresh = said(capsys)
    (kept,) = (school / FOLDER).glob("*.json")
    whole = kept.read_bytes()
    for damaged in (whole[:-9], whole.replace(b'"findings"', b'"Findings"'), b"", b"\x00\n{}"):
        kept.write_bytes(damaged)

        assert fresh == said(capsys)
    shutil.rmtree(school / FOLDER)

    assert fresh == said(capsys)
    assert "*\n" == (school / FOLDER / ".gitignore").read_text("utf-8")


def test_another_version_reads_nothing_of_it(school: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What one version kept is nothing to another."""
    now = before(school, "school", time.time_ns())
    assert now is not None
    marks = [mark_of(Path(path).read_bytes()) for path, _ in now.files.values()]
    keep(now, marks, Checked(tuple(now.files), ()))

    assert Checked(tuple(now.files), ()) == recall.recall(now)
    monkeypatch.setattr(recall, "__version__", "0.0.0")

    assert recall.recall(now) is None


def test_files_that_are_old_enough_are_not_read_again(school: Path) -> None:
    """Dates and sizes are enough, and a change that keeps size and date of content still has a new date of place."""
    later = time.time_ns() + 3 * recall.YOUNG
    now = before(school, "school", later)
    assert now is not None
    keep(now, ["not what any file holds"] * len(now.files), Checked(tuple(now.files), ()))

    assert recall.recall(now) is not None
    time.sleep(0.02)  # file systems count time in ticks of up to a hundredth of a second
    path = school / "activity.yaml"
    status = path.stat()
    path.write_bytes(path.read_bytes().replace(b"Soft", b"Hard"))
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))
    then = before(school, "school", later)

    assert then is not None
    assert recall.recall(then) is None


def test_small_curricula_keep_nothing(school: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The starter curriculum stays free of folders of the program."""
    monkeypatch.setattr(recall, "LEAST", 100)
    main(["check", "school"])

    assert not (school / FOLDER).exists()
