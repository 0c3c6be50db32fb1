"""What a check keeps for next time never makes it say anything else than a check from the start."""

import os
import shutil
import subprocess
import sys
import time
from pathlib import Path
from random import Random

import pytest

from lessonkit.cli import build_parser, main
from lessonkit.commands import front_door, kept_check, recall
from lessonkit.commands.kept_check import FOLDER, program
from lessonkit.commands.terminal import open_terminal
from tests.commands.hop import SKILL
from tests.rules.laying import BASE

FAULTS = (
    ("cues: [Soft knees]", "cues: [Keep both of your knees very soft and bent]"),
    ("effort: moderate", "effort: moderat"),
    ("S1.E24.3a", "S1E24.3a"),
    ("least: 5", "least: 5\tx"),
    ("grades: 2-5", "grades: 4-5"),
    ("id: ", "id: x-"),
    ("lessons: ", "lessons: 1"),
    ("skills: [", "skills: [nowhere, "),
)
"""Something right, and a fault in its stead."""
WORDS = (
    ("summary: A record", "summary: Some record"),
    ("cues: [Soft knees]", "cues: [Soft knees, Quick feet]"),
    ("harder: [Change hands.]", "# lessonkit: allow challenge-missing because we see to it\nharder: []"),
    ("easier: [", "easier: [Make it harder with a smaller ball., "),
    ("steps: 1. Do it.", "steps: 1. Whoever is caught is out of the game."),
    ("Some record", "# lessonkit: allow cue-too-long because it is a rhyme\n  Any record"),
    ("safety: [Follow your school's own rules.]", "safety: [Look out.]"),
)
"""Changes of words that other records' checks do not read."""
SETTINGS = (
    "kind: settings\nid: rules\ntitle: Rules\nrules:\n"
    "  caution-missing: {level: off, reason: We have a page for it.}\n"
    "  cue-too-long: {level: error, reason: Small children.}\n"
)


@pytest.fixture
def school(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Lay out a small curriculum for which everything is kept, and stand beside it."""
    monkeypatch.setattr(kept_check, "LEAST", 1)
    monkeypatch.chdir(tmp_path)
    shutil.copytree(BASE, tmp_path / "school")
    return Path("school")


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """Check and return the exit code with the whole report."""
    code = main(["check", "school", "--form", "json", *words])
    return code, capsys.readouterr().out


def change(school: Path, random: Random) -> None:
    """Edit, rename, touch, copy, delete or mend files; sometimes without a new date or size."""
    files = sorted(school.rglob("*.yaml"))
    path = random.choice(files)
    match random.randrange(9):
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
        case 6:
            settings = school / "lessonkit.yaml"
            settings.write_text(SETTINGS, "utf-8") if not settings.exists() else settings.unlink()
        case _:
            for _ in range(random.randrange(1, 4)):
                right, wrong = random.choice(FAULTS)
                path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")


def change_words(school: Path, random: Random) -> None:
    """Change words of an activity, or change them back."""
    right, wrong = random.choice(WORDS)
    if random.random() < 0.3:
        right, wrong = wrong, right
    for path in random.sample(sorted(school.glob("*.yaml")), 4):
        path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")


@pytest.mark.parametrize("seed", range(6))
def test_answers_are_those_of_a_check_from_the_start(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, seed: int
) -> None:
    """Over random changes, the first and the second check after each say what ``--no-cache`` says."""
    monkeypatch.setattr(kept_check, "YOUNG", 10_000_000)
    random = Random(seed)
    ways = []
    for turn in range(14):
        (change_words if turn % 2 else change)(school, random)
        fresh = said(capsys, "--no-cache")
        first = said(capsys)
        time.sleep(0.02)  # file systems count time in ticks of up to a hundredth of a second
        ways += [way(school)]

        assert fresh == first == said(capsys)
        assert fresh == said(capsys)
        assert said(capsys, "--no-cache", "--no-advice") == said(capsys, "--no-advice")
    assert "changed" not in ways


def started(*words: str, blocks: int | None = None) -> "subprocess.Popen[str]":
    """Start a check as a process of its own; ``blocks`` is the size of the largest file that it can write."""
    command = [sys.executable, "-m", "lessonkit", "check", "school", "--form", "json", *words]
    if blocks is not None:
        command = ["sh", "-c", f'ulimit -f {blocks}; exec "$@"', "sh", *command]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)


def finished(process: "subprocess.Popen[str]") -> tuple[int, str]:
    """Wait for a process and return its exit code with all that it printed."""
    with process:
        said, _ = process.communicate(timeout=60)
    return process.returncode, said


def put(school: Path, right: str, wrong: str) -> None:
    """Put other words into the activity."""
    path = school / "activity.yaml"
    path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")


def way(school: Path) -> str:
    """Tell whether the last answer is there to be said again."""
    now = recall.before(school, "school", time.time_ns())
    return "known" if now is not None and recall.recall(now) is not None else "changed"


@pytest.mark.parametrize("right,wrong", WORDS[:4])
def test_changed_words_are_checked_without_reading_the_rest(
    school: Path, capsys: pytest.CaptureFixture[str], right: str, wrong: str
) -> None:
    """What is found in the record is known anew; of what is elsewhere, what was found is told again."""
    said(capsys)
    put(school, right, wrong)

    assert "known" == way(school)
    assert said(capsys, "--no-cache") == said(capsys)


@pytest.mark.parametrize(
    "file,right,wrong",
    [
        ("plan.yaml", "minutes: 1", "minutes: 2"),
        ("unit.yaml", "practise: ", "practise: 1"),
    ],
)
def test_plans_and_units_are_checked_with_what_rests_on_them(
    school: Path, capsys: pytest.CaptureFixture[str], file: str, right: str, wrong: str
) -> None:
    """A plan changed by hand is audited again, and so are the plans of a changed unit; no other record is."""
    said(capsys)
    path = school / file
    path.write_text(path.read_text("utf-8").replace(right, wrong, 1), "utf-8")

    assert "known" == way(school)
    assert said(capsys, "--no-cache") == said(capsys)


@pytest.mark.parametrize(
    "right,wrong", [("grades: 2-5", "grades: 4-5"), ("title: ", "title: New "), ("id: ", "id: x-")]
)
def test_what_other_records_read_is_not_recalled(
    school: Path, capsys: pytest.CaptureFixture[str], right: str, wrong: str
) -> None:
    """A unit may need the grades, and a sentence elsewhere may name the title or the id."""
    said(capsys)
    put(school, right, wrong)

    assert "changed" == way(school)


def test_a_cache_that_was_damaged_or_deleted_does_no_harm(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Cut short, filled with something else, or away: the answer is the same."""
    said(capsys)
    put(school, *WORDS[1])
    fresh = said(capsys)
    for sort in ("answers", "news", "records", "whole", "dates"):
        (kept,) = (school / FOLDER).glob(f"*.{sort}")
        whole = kept.read_bytes()
        for damaged in (whole[:-9], whole.replace(b"stamps", b"Stamps").replace(b"marks", b"Marks"), b"", b"\x00\n{}"):
            kept.write_bytes(damaged)

            assert fresh == said(capsys)
        kept.unlink()

        assert fresh == said(capsys)
    shutil.rmtree(school / FOLDER)

    assert fresh == said(capsys)
    assert "*\n" == (school / FOLDER / ".gitignore").read_text("utf-8")


@pytest.mark.parametrize("sort", ["answers", "news", "records", "whole", "dates"])
def test_what_an_earlier_check_kept_does_no_harm(school: Path, capsys: pytest.CaptureFixture[str], sort: str) -> None:
    """A file that is whole, but of an earlier check of the same folder, as after a copy or a full disk."""
    said(capsys)
    put(school, *WORDS[1])
    said(capsys)
    (kept,) = (school / FOLDER).glob(f"*.{sort}")
    earlier = kept.read_bytes()
    put(school, "title: ", "title: New ")
    said(capsys)
    put(school, *WORDS[0])
    fresh = said(capsys, "--no-cache")
    said(capsys)
    kept.write_bytes(earlier)

    assert fresh == said(capsys)
    assert fresh == said(capsys)


def test_nothing_is_kept_where_nothing_can_be(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where a file has the name of the folder, as where it may not be written, every check is one from the start."""
    (school / FOLDER).write_text("mine", "utf-8")
    fresh = said(capsys, "--no-cache")

    assert fresh == said(capsys) == said(capsys)
    assert "mine" == (school / FOLDER).read_text("utf-8")


@pytest.mark.skipif(os.name != "posix", reason="this system has no limit of a file's size for a process")
def test_a_full_disk_and_checks_at_once_do_no_harm(school: Path) -> None:
    """Where only the beginning of a file can be written nothing is kept; of several checks at once each is right."""
    for number in range(100):
        path = school / f"hop-{number}.yaml"
        path.write_text(SKILL.replace("id: hop", f"id: hop-{number}"), "utf-8")
    fresh = finished(started("--no-cache"))

    assert fresh == finished(started(blocks=2))
    assert [] == [path.name for path in (school / FOLDER).iterdir() if path.name != ".gitignore"]
    assert [fresh, fresh] == [finished(each) for each in [started(), started()]]
    put(school, *WORDS[1])
    changed = finished(started("--no-cache"))

    assert [changed, changed] == [finished(each) for each in [started(), started()]]


def test_another_version_reads_nothing_of_it(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What one version kept is nothing to another, nor to the same one with another library."""
    said(capsys)

    assert "known" == way(school)
    monkeypatch.setattr(kept_check, "__version__", "0.0.0")

    assert "changed" == way(school)
    before = program()
    (school / "odd-1.0.dist-info").mkdir()
    monkeypatch.syspath_prepend(str(school))

    assert before != program()


def test_files_that_are_old_enough_are_not_read_again(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Dates and sizes are enough, and a change that keeps size and date of content still has a new date of place."""
    monkeypatch.setattr(kept_check, "YOUNG", 0)
    time.sleep(0.02)
    said(capsys)

    assert front_door.answer(["school", "--form", "json"]) is not None
    time.sleep(0.02)
    path = school / "activity.yaml"
    status = path.stat()
    path.write_bytes(path.read_bytes().replace(b"Soft", b"Hard"))
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))

    now = recall.before(Path("school"), "school", time.time_ns())

    assert now is not None
    assert ["school/activity.yaml"] == now.doubtful


def test_an_answer_is_kept_only_with_the_check_that_it_is_of(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Another program may have kept a later check before this one's answer is written."""
    said(capsys)
    time.sleep(0.02)
    terminal = open_terminal()
    question = front_door.question_of("json", False, terminal)
    kept_check.remember_answer("school", (program(), 1), question, "Nothing.", 0)

    assert "Nothing." not in said(capsys)[1]


@pytest.mark.parametrize("words", [[], ["school"], ["--form", "json", "school", "--no-advice"], ["--no-cache", "a"]])
def test_plain_words_need_no_reader_of_options(words: list[str]) -> None:
    """What the short way understands is what the reader of options understands."""
    short = front_door.plain_arguments(words)
    whole = vars(build_parser(("check",)).parse_args(["check", *words]))
    del whole["module"]

    assert short is not None
    assert whole == vars(short)


@pytest.mark.parametrize("words", [["--form", "pdf"], ["a", "b"], ["--fix"], ["--"], ["-h"], ["--form=json"]])
def test_other_words_go_the_usual_way(words: list[str]) -> None:
    """The reader of options says what is wrong with them, or does more."""
    assert front_door.plain_arguments(words) is None


def test_ctrl_c_while_looking_is_a_sentence(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also before anything is loaded, nobody sees where the program was."""
    said(capsys)

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(front_door, "look", stop)

    assert 2 == main(["check", "school"])
    assert "lessonkit: stopped; nothing was written after this point.\n" == capsys.readouterr().err


def test_small_curricula_keep_nothing(school: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The starter curriculum stays free of folders of the program."""
    monkeypatch.setattr(kept_check, "LEAST", 100)
    main(["check", "school"])

    assert not (school / FOLDER).exists()
