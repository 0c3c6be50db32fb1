"""The commands do what a teacher expects of them, and say so in sentences."""

import io
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from lessonkit.cli import COMMANDS, main
from tests.reports.sample import EVERY_CODE

ROOT = Path(__file__).parents[2]
HEAVY = ("ortools", "docx", "lxml", "jsonschema", "jsonschema_rs", "yaml", "markdown_it", "holidays", "msgspec")


@pytest.fixture
def school(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Path:
    """Copy the starter curriculum as a teacher would, and keep one unit of it."""
    folder = tmp_path / "my-school"
    assert 0 == main(["new", "curriculum", str(folder)])
    kept = ("closing", "fitness", "moving", "short-paddle", "paddles-grade-3")
    others = [path for path in folder.glob("activities/*/*") if path.parent.name not in kept]
    for path in (*others, *(path for path in folder.glob("units/*") if path.stem not in kept), folder / "year.yaml"):
        path.unlink()
    capsys.readouterr()
    return folder


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """Run the program and return its exit code and all it said."""
    code = main(words)
    said = capsys.readouterr()
    return code, said.out + said.err


def test_the_starter_curriculum_is_clean(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A copy of the shipped curriculum has nothing to mend."""
    code, said = run(capsys, "check", str(school))

    assert 0 == code
    assert said.strip().endswith("files checked: nothing to mend.")


def test_a_fault_is_said_at_its_line(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A misspelt code is found at its line, with the right spelling in the hint."""
    path = school / "activities/short-paddle/ladder-of-taps.yaml"
    lines = path.read_text("utf-8").splitlines(keepends=True)
    number = next(place for place, line in enumerate(lines, 1) if "S1.E24.3b" in line)
    lines[number - 1] = lines[number - 1].replace("S1.E24.3b", "S1E24.3b")
    path.write_text("".join(lines), "utf-8")
    code, said = run(capsys, "check", str(school))

    assert 1 == code
    assert f"ladder-of-taps.yaml:{number}:5: error (outcome-code-wrong)" in said
    assert "Write S1.E24.3b." in said


def test_a_folder_without_records_says_how_to_start(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing to check is not the same as nothing to mend."""
    code, said = run(capsys, "check", str(tmp_path))

    said = " ".join(said.split())

    assert 2 == code
    assert "holds no records yet" in said and "lessonkit new curriculum" in said


def test_a_missing_folder_is_a_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    """No traceback for a folder that is not there."""
    code, said = run(capsys, "check", "no-such-folder")

    assert (2, "lessonkit: there is no folder or file 'no-such-folder' here.\n") == (code, said)


def test_a_windows_path_is_understood(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Backslashes work on every system."""
    monkeypatch.chdir(school.parent)
    code, said = run(capsys, "check", "my-school\\units")

    assert (0, "1 file checked: nothing to mend.\n") == (code, said)


def test_one_file_is_checked_against_the_whole_curriculum(
    school: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A single file, or a folder from inside the curriculum, knows the other records but reports only its own."""
    monkeypatch.chdir(school / "activities")

    assert (0, "1 file checked: nothing to mend.\n") == run(capsys, "check", "short-paddle/wall-talk.yaml")
    assert 0 == run(capsys, "check", "moving")[0]


def test_a_broken_record_is_one_fault(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Records that name a broken one are not faulty for it."""
    path = school / "activities/short-paddle/ladder-of-taps.yaml"
    path.write_text(path.read_text("utf-8").replace("least: 5", "least: five"), "utf-8")
    code, said = run(capsys, "check", str(school))

    assert 1 == code
    assert "1 error in 1 of " in said


@pytest.mark.parametrize("kind", ["activity", "equipment", "outcomes", "plan", "school", "settings", "skill", "unit"])
def test_a_skeleton_loads_without_a_fault_of_shape(kind: str, school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What ``new`` writes is a record that waits for the author's words; it never touches one that is there."""
    assert 0 == run(capsys, "new", kind, "my-first-try", "--in", str(school))[0]
    _, said = run(capsys, "check", str(school))
    again, refused = run(capsys, "new", kind, "my-first-try", "--in", str(school))

    assert "my-first-try.yaml" not in said or "plan-broken" in said or "(placeholder-left)" in said
    assert ("(placeholder-left)" in said) == (kind in ("activity", "outcomes", "skill", "unit"))
    assert 2 == again
    assert "is there already" in refused


def test_an_odd_id_gets_a_better_one(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Capital letters and blanks are turned into an id that works."""
    code, said = run(capsys, "new", "activity", "My Game!", "--in", str(school))

    assert 2 == code
    assert "try 'my-game'" in said


def test_a_class_is_shown_with_its_school(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A class has no record of its own, but its id is no unknown word either."""
    code, said = run(capsys, "show", "grade-3-heron", "--in", str(school))

    assert 2 == code
    assert "is a class" in said
    assert f"lessonkit show quillfeather --in {school}" in " ".join(said.split())


def test_an_id_taken_in_a_folder_below_is_refused(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Activities lie in folders of their own, so the id may be taken though no file of that name is beside it."""
    code, said = run(capsys, "new", "activity", "ladder-of-taps", "--in", str(school))

    assert 2 == code
    assert "is taken already, in " in " ".join(said.split())
    assert not (school / "activities/ladder-of-taps.yaml").exists()


def test_a_code_is_shown_with_the_activities_that_serve_it(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """``show`` takes outcome codes as well as ids."""
    code, said = run(capsys, "show", "s1.e24.3b", "--in", str(school))

    assert 0 == code
    assert said.startswith("S1.E24.3b, grade 3:")
    assert "ladder-of-taps" in said


def test_an_unknown_name_gets_a_suggestion(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A near miss is named."""
    code, said = run(capsys, "show", "ladder-of-tabs", "--in", str(school))

    assert 2 == code
    assert "Did you mean 'ladder-of-taps'?" in " ".join(said.split())


def short_unit(school: Path) -> Path:
    """Cut the flagship unit down so that its plan is found in a moment."""
    path = school / "units/paddles-grade-3.yaml"
    text = path.read_text("utf-8")
    head, _, _ = text.partition("aims:")
    head = head.replace("lessons: 8", "lessons: 2")
    path.write_text(
        head
        + "aims:\n  - {code: S1.E24.3b, practise: 1}\n"
        + "shapes:\n  - title: Short\n    parts: [{part: warm-up}, {part: skill}, {part: practice}, {part: closing}]\n",
        "utf-8",
    )
    return path


def _reworded(document: bytes, old: bytes, new: bytes) -> bytes:
    """Change words in the text of a Word file, as any program would."""
    changed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(document)) as before, zipfile.ZipFile(changed, "w") as after:
        for name in before.namelist():
            content = before.read(name)
            after.writestr(name, content.replace(old, new, 1) if name == "word/document.xml" else content)
    return changed.getvalue()


def test_a_unit_is_planned_kept_and_exported(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Plan, edit, plan again, export, edit, export again: nothing is lost."""
    short_unit(school)
    code, said = run(capsys, "sequence", str(school), "--class", "grade-3-heron")
    plan = next((school / "plans").glob("*.yaml"))

    assert 0 == code
    assert "Proven: no plan meets your wishes better" in said
    assert 0 == run(capsys, "check", str(school))[0]

    edited = plan.read_text("utf-8").replace("pinned: true", "") + "# my own remark\n"
    edited = edited.replace("minutes: 35", "minutes: 36", 1)
    plan.write_text(edited, "utf-8")
    code, said = run(capsys, "check", str(school))

    assert 1 == code
    assert "plan-broken" in said

    code, said = run(capsys, "sequence", str(school), "--class", "grade-3-heron")

    assert 1 == code
    assert "was edited by hand and stays as it is" in " ".join(said.split())
    assert edited == plan.read_text("utf-8")

    code, said = run(capsys, "sequence", str(school), "--class", "grade-3-heron", "--over")

    assert 0 == code
    assert edited == plan.with_suffix(".yaml.old").read_text("utf-8")

    out = school.parent / "binder"
    code, said = run(capsys, "export", str(school), "--to", str(out))
    lesson = next(out.rglob("lesson-01.docx"))

    assert 0 == code
    assert {"lesson-01.docx", "lesson-02.docx", "binder.docx"} == {path.name for path in out.rglob("*.docx")}

    first = lesson.read_bytes()
    run(capsys, "export", str(school), "--to", str(out))

    assert first == lesson.read_bytes()

    edited_page = _reworded(first, b"Minute by minute", b"From minute to minute")
    lesson.write_bytes(edited_page)
    code, said = run(capsys, "export", str(school), "--to", str(out))

    assert edited_page == lesson.read_bytes()
    assert first == lesson.with_name("lesson-01.new.docx").read_bytes()
    assert "which was changed since it was exported" in said


def test_an_impossible_unit_says_what_stands_in_the_way(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An aim practised in more lessons than there are ends in a sentence at its line, and code 1.

    Where the second class cannot be planned for the same reasons, they are not said again.
    """
    path = short_unit(school)
    path.write_text(path.read_text("utf-8").replace("practise: 1", "practise: 3"), "utf-8")
    code, said = run(capsys, "sequence", str(school), "--unit", "paddles-grade-3")

    assert 1 == code
    assert "cannot be planned for Grade 3 Heron as it is asked for:" in " ".join(said.split())
    assert "Nor can it be planned for Grade 3 Kestrel, for the same reasons." in " ".join(said.split())
    assert 1 == said.count("to be practiced in 3 lessons")
    assert "paddles-grade-3.yaml:" in said
    assert "Traceback" not in said
    assert not (school / "plans").exists()


@pytest.mark.parametrize("command", COMMANDS)
def test_help_fits_the_window(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Help of every command has examples and no line over 80 characters."""
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    said = capsys.readouterr().out

    assert 0 == ended.value.code
    assert "Examples:" in said
    assert [] == [line for line in said.splitlines() if len(line) > 80]


def test_a_wrong_option_is_a_sentence_and_code_2(capsys: pytest.CaptureFixture[str]) -> None:
    """The option reader's own words do not reach a teacher."""
    with pytest.raises(SystemExit) as ended:
        main(["check", "--frm"])

    assert 2 == ended.value.code
    assert "'--frm' is not understood here. Did you mean '--form'?" in capsys.readouterr().err


def test_help_loads_no_heavy_library() -> None:
    """``--help`` and ``--version`` stay quick: none of the heavy doors is opened."""
    program = (
        "import sys; from lessonkit.cli import build_parser; build_parser(); "
        f"print([name for name in {HEAVY!r} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert "[]" == done.stdout.strip()


def test_output_that_cannot_show_more_than_ascii(school: Path) -> None:
    """A terminal without UTF-8 gets plain letters, and no crash."""
    done = subprocess.run(
        [sys.executable, "-m", "lessonkit", "show", "ladder-of-taps", "--in", str(school)],
        capture_output=True,
        env={"PYTHONIOENCODING": "ascii", "PATH": str(Path(sys.executable).parent)},
        check=False,
    )

    assert 0 == done.returncode
    assert done.stdout.isascii()


def test_a_stray_file_does_not_stop_the_rest(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A broken file is one finding; every other record is still checked."""
    (school / "activities" / "broken.yaml").write_bytes(b"\xff\xfek\x00i\x00")
    (school / "notes.txt").write_text("not a record", "utf-8")
    shutil.copy(school / "school.yaml", school / "school-copy.yaml")
    code, said = run(capsys, "check", str(school))

    assert 1 == code
    assert "broken.yaml:1:1: error (wrong-encoding)" in said
    assert "school.yaml" in said and "same-id" in said
    assert "notes.txt" not in said


@pytest.mark.parametrize(("form", "start"), [("json", "{"), ("sarif", "{"), ("junit", "<?xml"), ("github", "")])
def test_findings_are_written_for_other_programs(
    form: str, start: str, school: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each form starts as its readers expect, whatever was found (the forms themselves are tested with the reports)."""
    assert run(capsys, "check", str(school), "--form", form)[1].startswith(start)


@pytest.mark.parametrize("name", ["duplicate-field", "cue-too-long", "LK251"])
def test_a_finding_has_a_page(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """``--explain`` knows the findings of loading and of the rules, by name and by number."""
    code, said = run(capsys, "check", "--explain", name)

    assert 0 == code
    assert len(said.splitlines()) > 5


def test_every_finding_has_a_page(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """``--explain`` knows each kind of finding by its name, whichever part makes it, in lines as long as the window."""
    monkeypatch.setenv("COLUMNS", "80")
    pages = {code.name: run(capsys, "check", "--explain", code.name) for code in EVERY_CODE}
    prose = [line for _, said in pages.values() for line in said.splitlines() if not line.startswith(" ")]

    assert {0} == {code for code, _ in pages.values()}
    assert 80 >= max(map(len, prose))
    assert [] == [name for name, (_, said) in pages.items() if not said.startswith(f"{name} (LK")]


def test_an_export_that_the_disk_refuses_is_a_sentence(
    school: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """A file where a folder should be ends in a sentence and code 2, not in a traceback."""
    short_unit(school)
    run(capsys, "sequence", str(school), "--class", "grade-3-heron")
    (tmp_path / "taken").write_text("a file", "utf-8")
    code, said = run(capsys, "export", str(school), "--to", str(tmp_path / "taken"))

    assert 2 == code
    assert "the disk refuses" in said
    assert "a file" == (tmp_path / "taken").read_text("utf-8")
