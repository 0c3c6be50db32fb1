"""Words that a command cannot understand are answered in a teacher's words, with what was probably meant."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from lessonkit.cli import main

SCHOOL = Path(__file__).parents[1] / "cases/loading/base"


@pytest.mark.parametrize(
    ("words", "says", "help_of"),
    [
        ("sequense", "there is no command 'sequense'. Did you mean 'sequence'?", "lessonkit"),
        ("new actvity tag-day", "KIND cannot be 'actvity'. Did you mean 'activity'?", "lessonkit new"),
        ("sequence --grade 7", "--grade cannot be '7'. There are: K, 1, 2, 3, 4, 5.", "lessonkit sequence"),
        ("sequence --uint x", "'--uint' is not understood here. Did you mean '--unit'?", "lessonkit sequence"),
        ("groups 23 --off 4", "'--off 4' is not understood here. Did you mean '--of'?", "lessonkit groups"),
        ("groups 23 --o 4", "--o could mean --of or --over.", "lessonkit groups"),
        ("check --form jsn", "--form cannot be 'jsn'. Did you mean 'json'?", "lessonkit check"),
        ("fit many 5m --room 9m", "groups needs a whole number, not 'many'.", "lessonkit fit"),
        ("sequence --seconds soon", "--seconds needs a number above 0, not 'soon'.", "lessonkit sequence"),
        ("year --seconds nan", "--seconds needs a number above 0, not 'nan'.", "lessonkit year"),
        ("sequence --unit", "--unit needs one value after it.", "lessonkit sequence"),
        ("why --swap 3", "--swap needs 2 values after it.", "lessonkit why"),
        ("new unit", "something is missing: NAME.", "lessonkit new"),
    ],
)
def test_odd_words(words: str, says: str, help_of: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A sentence of at most 80 columns a line, the command whose help says more, and exit code 2."""
    with pytest.raises(SystemExit) as ended:
        main(words.split())
    said = capsys.readouterr().err.splitlines()

    assert 2 == ended.value.code
    assert f"lessonkit: {says}" == " ".join(said[:-1])
    assert f"Try: {help_of} --help" == said[-1]
    assert all(len(line) <= 80 for line in said)


@pytest.mark.parametrize("command", ["sequence", "export", "year", "show --in", "find --in", "why --in", "replan --in"])
def test_a_file_is_no_folder(command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A command that works on a whole curriculum does not take one of its files for all of it."""
    file = tmp_path / "school.yaml"
    file.write_bytes(next(SCHOOL.glob("school*.yaml")).read_bytes())
    code = main([*command.split(), str(file)])
    said = " ".join(capsys.readouterr().err.split())

    assert 2 == code
    assert said.endswith(f"is one file; name the folder of the curriculum: {tmp_path.as_posix()}")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("show nowhere", "nothing here is called 'nowhere'."),
        ("replan {folder}", "is a folder; to work in it, write: --in {folder}"),
        ("replan no-plan", "there is no plan 'no-plan' yet; make the plans with: lessonkit sequence --in"),
        ("find --skill shrt-paddle", "there is no skill 'shrt-paddle'. Did you mean 'short-paddle'?"),
    ],
)
def test_odd_names(words: str, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A name that nothing has is answered with what was meant, in the folder that was named."""
    assert 0 == main(["new", "skill", "short-paddle", "--in", str(tmp_path)])
    shown = tmp_path.as_posix()
    code = main([word.format(folder=shown) for word in words.split()] + ["--in", shown])
    said = " ".join(capsys.readouterr().err.split())

    assert 2 == code
    assert says.format(folder=shown).replace("sequence --in", f"sequence {shown}") in said


def test_backslashes_are_shown_as_written(capsys: pytest.CaptureFixture[str]) -> None:
    """A path of Windows is repeated as its author wrote it."""
    code = main(["check", r"C:\no\school"])

    assert (2, "lessonkit: there is no folder or file 'C:\\no\\school' here.\n") == (code, capsys.readouterr().err)


def test_a_copy_that_cannot_be_whole_is_not_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where the starter curriculum cannot be written, a sentence says why, and nothing is left of it."""
    (tmp_path / "notes").write_text("a file, no folder", "utf-8")
    code = main(["new", "curriculum", str(tmp_path / "notes/school")])
    said = " ".join(capsys.readouterr().err.split())

    assert 2 == code
    assert said.endswith("(Not a directory); nothing of it was kept.")
    assert ["notes"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.skipif(sys.platform == "win32", reason="closes its output with a shell that Windows has not")
@pytest.mark.parametrize(("words", "code"), [("--version", 0), ("check {0}", 1), ("show --in {0}", 0)])
def test_output_that_is_closed_is_no_fault(words: str, code: int, tmp_path: Path) -> None:
    """A program whose output nobody can read works on in silence; it still answers with its exit code."""
    assert 0 == main(["new", "skill", "short-paddle", "--in", str(tmp_path)])
    command = f"{sys.executable} -m lessonkit {words.format(tmp_path)}"
    for _ in range(2):
        done = subprocess.run(["sh", "-c", f"{command} >&-"], capture_output=True, check=False)

        assert (code, b"") == (done.returncode, done.stderr)


@pytest.mark.parametrize(
    ("words", "file"),
    [
        ("show popcorn-kitchen", "activities/popcorn-kitchen.yaml"),
        ("show quillfeather", "school.yaml"),
        ("find --class grade-3-heron", "school.yaml"),
        ("why", "plans/paddles-grade-3-grade-3-heron.yaml"),
        ("why paddles-grade-3-grade-3-heron", "plans/paddles-grade-3-grade-3-heron.yaml"),
    ],
)
def test_a_record_that_cannot_be_read_is_there(
    words: str, file: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is not said to be missing: the way to see what is wrong with it is said."""
    folder = tmp_path / "school"
    shutil.copytree(Path(__file__).parents[1] / "cases" / "slips" / "curriculum", folder)
    with (folder / file).open("a", encoding="utf-8") as record:
        record.write("x: [\n")
    code = main([*words.split(), "--in", str(folder)])
    said = " ".join(capsys.readouterr().err.split())
    path = (folder / file).as_posix()

    assert (2, f"lessonkit: {path} cannot be read; to see why: lessonkit check {path}") == (code, said)
