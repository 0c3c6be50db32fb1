"""Changes made in a lesson plan in Word come back into the records, and nothing else does."""

import copy
import io
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import docx
import pytest
from docx.table import Table
from docx.text.paragraph import Paragraph

from lessonkit.cli import main
from lessonkit.commands.spans import split_by_fields, to_markdown
from lessonkit.commands.steps import with_changes
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.pull_list import pull_list
from lessonkit.writers.word.writer import safe_pages, write
from tests.document.printed import CASES, ROOT, facts
from tests.writers.word.school_files import repacked

PLAN = "curriculum/plans/three-lessons.yaml"
LESSON = facts().lessons[1]
FIRST = LESSON.slots[0].activity
"""The first activity of lesson 2 of the fixed plan: its records are the source of every expected value below."""


@pytest.fixture
def school(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Lay the curriculum with the fixed plan, and a lesson exported from it, into an empty folder; go there."""
    shutil.copytree(ROOT / "curriculum", tmp_path / "curriculum")
    shutil.copy(CASES / "three-lessons.yaml", tmp_path / PLAN)
    (tmp_path / "lesson.docx").write_bytes(write(lesson_document(facts(), 2, safe_pages)))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _path(activity: str) -> Path:
    return next(Path("curriculum/activities").rglob(f"{activity}.yaml"))


def _edit(change: Callable[[Table], object]) -> None:
    document = docx.Document("lesson.docx")
    change(next(table for table in document.tables if table.cell(0, 0).text == "Minutes"))
    document.save("lesson.docx")


def _say(paragraph: Paragraph, old: str, new: str) -> None:
    run = next(run for run in paragraph.runs if old in run.text)
    run.text = run.text.replace(old, new, 1)


def _line(table: Table, words: str) -> Paragraph:
    return next(line for row in table.rows for cell in row.cells for line in cell.paragraphs if words in line.text)


def _run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    capsys.readouterr()
    code = main(["revise", "lesson.docx", *words])
    said = capsys.readouterr()
    return code, said.out + said.err


def _revised(capsys: pytest.CaptureFixture[str], path: Path, old: str, new: str) -> str:
    """Check that nothing is written unasked, then that exactly the old words become the new ones; return what is said.

    The rest of the file stays byte for byte.
    """
    before = path.read_text("utf-8")
    code, said = _run(capsys)

    assert (1, before) == (code, path.read_text("utf-8"))
    assert f"{path.as_posix()}:" in said
    assert "Nothing is written yet" in said

    assert 0 == _run(capsys, "--write")[0]
    assert before.replace(old, new, 1) == path.read_text("utf-8")
    assert before != path.read_text("utf-8")
    return said


def test_a_cue_is_reworded(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Only the cue's own words change in the record."""
    cue = FIRST.cues[0]
    _edit(lambda table: _say(_line(table, cue), cue, "Look over your shoulder"))
    said = _revised(capsys, _path(FIRST.id), f"- {cue}\n", "- Look over your shoulder\n")

    assert f"cue 1: \u201c{cue}\u201d becomes \u201cLook over your shoulder\u201d." in said


def test_a_path_of_windows_is_understood(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Backslashes work on every system, as they do for folders of records."""
    (school / "pages").mkdir()
    shutil.move("lesson.docx", "pages/lesson.docx")
    code = main(["revise", "pages\\lesson.docx"])

    assert (0, "Nothing was changed in pages/lesson.docx since it was exported.") == (
        code,
        capsys.readouterr().out.strip(),
    )


def test_a_cue_is_added(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A cue behind the last one, parted from it as the others are."""
    cue = FIRST.cues[-1]
    _edit(lambda table: _say(_line(table, cue), cue, f"{cue} \u00b7 And breathe"))
    said = _revised(capsys, _path(FIRST.id), f"  - {cue}\n", f"  - {cue}\n  - And breathe\n")

    assert "a cue is added: \u201cAnd breathe\u201d." in said


def test_minutes_are_changed(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What the clock says less the set-up are the minutes of the plan."""
    slot = LESSON.slots[0]
    clock = f"{slot.starts}\u2013{slot.ends}"
    _edit(lambda table: _say(_line(table, clock), clock, f"{slot.starts}\u2013{slot.ends + 2}"))
    before = Path(PLAN).read_text("utf-8")
    code, said = _run(capsys, "--write")
    row = next(line for line in before.split("- lesson: 2")[1].splitlines() if f"activity: {FIRST.id}" in line)
    changed = row.replace(f"minutes: {slot.slot.minutes}", f"minutes: {slot.slot.minutes + 2}")

    assert 0 == code
    assert f"minutes of {FIRST.id!r}: {slot.slot.minutes} becomes {slot.slot.minutes + 2}." in said
    assert before.replace(row, changed) == Path(PLAN).read_text("utf-8")


def test_a_row_is_taken_out(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The activity leaves the lesson, and its line the plan."""

    def change(table: Table) -> None:
        table._tbl.remove(table.rows[2]._tr)

    _edit(change)
    gone = LESSON.slots[1].activity.id
    before = Path(PLAN).read_text("utf-8").splitlines(keepends=True)
    code, said = _run(capsys, "--write")
    after = Path(PLAN).read_text("utf-8").splitlines(keepends=True)

    assert 0 == code
    assert f"the activity {gone!r} is taken out of the lesson." in said
    assert f"{PLAN}:" in said and "(plan-broken)" in said
    assert [gone] == [
        line.split("activity: ")[1].split(",")[0] for line in before if before.count(line) > after.count(line)
    ]
    assert len(before) - 1 == len(after)


def test_a_row_that_was_taken_out_takes_no_other_along(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The page is revised twice: another activity stands at the old place by then, and keeps its minutes."""
    slot = LESSON.slots[2]
    clock = f"{slot.starts}\u2013{slot.ends}"

    def change(table: Table) -> None:
        _say(_line(table, clock), clock, f"{slot.starts}\u2013{slot.ends + 1}")
        table._tbl.remove(table.rows[2]._tr)

    _edit(change)
    _run(capsys, "--write")
    once = Path(PLAN).read_text("utf-8")
    code, said = _run(capsys, "--write")

    assert (0, once) == (code, Path(PLAN).read_text("utf-8"))
    assert "2 changes stand in the records already." in said


def test_a_step_is_added_and_the_others_count_on(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A new line among the steps becomes a step of the record."""
    path = _path(FIRST.id)
    lines = [line for line in FIRST.steps.splitlines() if line.startswith(("1. ", "2. "))]

    def change(table: Table) -> None:
        step = _line(table, lines[0][3:].partition("*")[0][:30])
        added = copy.deepcopy(step._p)
        for mark in added.xpath("w:bookmarkStart|w:bookmarkEnd|w:r[position() > 1]"):
            added.remove(mark)
        Paragraph(added, step._parent).runs[0].text = "Count to three, twice."
        step._p.addnext(added)

    _edit(change)
    assert 0 == _run(capsys, "--write")[0]
    steps = path.read_text("utf-8").split("steps: |\n")[1]

    assert [f"  {lines[0]}", "  2. Count to three, twice.", f"  3. {lines[1][3:]}"] == steps.splitlines()[:3]


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_what_libreoffice_saved_comes_back_too(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The hidden bookmarks live through LibreOffice."""
    cue = FIRST.cues[0]
    _edit(lambda table: _say(_line(table, cue), cue, "Look over your shoulder"))
    (school / "saved").mkdir()
    profile = f"-env:UserInstallation={(school / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", "docx:MS Word 2007 XML", "--outdir", "saved"]
    subprocess.run([*command, "lesson.docx"], capture_output=True, check=True, timeout=120)
    shutil.copy("saved/lesson.docx", "lesson.docx")
    _revised(capsys, _path(FIRST.id), f"- {cue}\n", "- Look over your shoulder\n")


def test_an_edit_of_words_that_the_record_lost_is_left(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Both the record and the page were changed: the page's change is told and nothing is written."""
    cue = FIRST.cues[0]
    path = _path(FIRST.id)
    path.write_text(path.read_text("utf-8").replace(f"- {cue}", "- My newer cue"), "utf-8")
    _edit(lambda table: _say(_line(table, cue), cue, "Look over your shoulder"))
    before = path.read_bytes()
    code, said = _run(capsys, "--write")

    assert (0, before) == (code, path.read_bytes())
    assert "it has changed since this page was printed" in said


def test_what_is_worked_out_stays_on_the_page(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A new row, a new look and words that stand in no record are told in sentences; no record changes."""

    def change(table: Table) -> None:
        table.cell(0, 1).paragraphs[0].runs[0].text = "What we do"
        table.cell(1, 1).paragraphs[0].runs[0].bold = False
        table.rows[-1]._tr.addnext(copy.deepcopy(table.rows[-1]._tr))

    _edit(change)
    code, said = _run(capsys)

    assert 0 == code
    assert "+++" not in said
    assert "these words are worked out for the page" in said
    assert "a new row needs an activity of its own" in said
    assert "1 change of look" in said


def test_an_unchanged_lesson_asks_for_nothing(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nor does one that was only saved again."""
    _edit(lambda table: None)

    assert (0, "Nothing was changed in lesson.docx since it was exported.\n") == _run(capsys)


def test_other_files_are_refused_in_a_sentence(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A list that is worked out, somebody's own file, a damaged one, and none."""
    listed = docx.Document(io.BytesIO(write(pull_list(facts(), (), safe_pages))))
    listed.paragraphs[1].runs[0].text = "My title"
    listed.save("lesson.docx")
    code, said = _run(capsys)

    assert (2, True) == (code, "is worked out from many records, and nothing on it can be" in " ".join(said.split()))

    docx.Document().save("lesson.docx")
    code, said = _run(capsys)

    assert (2, True) == (code, "does not bear the mark of an export" in said)

    Path("lesson.docx").write_bytes(b"PK\x03\x04 and then nothing")
    code, said = _run(capsys)

    assert (2, True) == (code, "is cut off or damaged" in " ".join(said.split()))

    Path("lesson.docx").unlink()

    assert 2 == _run(capsys)[0]


def test_a_page_that_lost_its_mark_is_compared_with_the_export(
    school: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A program that keeps neither foreign parts nor hidden bookmarks: the words find their fields."""
    shutil.copy("lesson.docx", "as-exported.docx")
    cue = FIRST.cues[0]
    _edit(lambda table: _say(_line(table, cue), cue, "Look over your shoulder"))
    document = docx.Document("lesson.docx")
    for mark in document.element.body.xpath(".//w:bookmarkStart | .//w:bookmarkEnd"):
        mark.getparent().remove(mark)
    document.save("lesson.docx")
    content = Path("lesson.docx").read_bytes()
    Path("lesson.docx").write_bytes(repacked(content, lambda parts: parts.pop("customXml/item1.xml")))
    code, said = _run(capsys)

    assert (2, True) == (code, "with --exported" in " ".join(said.split()))

    code, said = _run(capsys, "--exported", "as-exported.docx")

    assert f"cue 1: \u201c{cue}\u201d becomes \u201cLook over your shoulder\u201d." in said
    assert "is not brought back" not in said.casefold()


@pytest.mark.parametrize(
    ("old", "new", "values", "parts"),
    [
        ("Stop: Two claps.", "Stop: Three claps.", ["Two claps."], ["Three claps."]),
        ("Stop: Two claps.", "Halt: Two claps.", ["Two claps."], None),
        ("A b. C d.", "A b. C e.", ["A b.", "C d."], ["A b.", "C e."]),
        ("A b. C d.", "A b. X y. C d.", ["A b.", "C d."], ["A b. X y.", "C d."]),
        ("A b. C d.", "C d.", ["A b.", "C d."], ["", "C d."]),
        (
            "Eyes up: \u201cWatch.\u201d",
            "Eyes down: \u201cWatch it.\u201d",
            ["Eyes up.", "Watch."],
            ["Eyes down", "Watch it."],
        ),
        ("A b.", "Z.", ["Other."], None),
        ("Twelve m. C d.", "Twelve m. C e.", ["Ten m.", "C d."], ["", "C e."]),
    ],
)
def test_words_are_parted_among_their_fields(old: str, new: str, values: list[str], parts: list[str] | None) -> None:
    """What stands between the fields must stand there still; else nobody can tell what belongs where."""
    found = split_by_fields(old, new, values)

    assert parts == (None if found is None else [now for _, now in found])


@pytest.mark.parametrize(
    ("written", "new", "expected"),
    [
        ("On *begin*, tap.", "On begin, tap twice.", "On *begin*, tap twice."),
        ("On *begin*, tap.", "On start, tap.", "On *start*, tap."),
        ("Plain.", "Five * four_ _x_.", "Five \\* four\\_ \\_x\\_."),
        ("Plain.", "Two 3 m lanes.", "Two 3 m lanes."),
    ],
)
def test_words_become_markdown_again(written: str, new: str, expected: str) -> None:
    """Stress around the change stays; signs that Markdown would take for marks are escaped (CommonMark 0.31, 2.4)."""
    assert expected == to_markdown(written, new)


STEPS = "1. One.\n2. Two **strong**:\n   - a\n   - b\n3. Three.\n"


@pytest.mark.parametrize(
    ("reworded", "gone", "come", "expected"),
    [
        ({0: "Uno."}, (), {}, "1. Uno.\n2. Two **strong**:\n   - a\n   - b\n3. Three.\n"),
        ({1: "Due strong:"}, (), {}, "1. One.\n2. Due **strong**:\n   - a\n   - b\n3. Three.\n"),
        ({}, (0,), {}, "1. Two **strong**:\n   - a\n   - b\n2. Three.\n"),
        ({}, (3,), {}, "1. One.\n2. Two **strong**:\n   - a\n3. Three.\n"),
        ({}, (), {2: ["x"]}, "1. One.\n2. Two **strong**:\n   - a\n   - x\n   - b\n3. Three.\n"),
        ({}, (), {-1: ["Zero."]}, "1. Zero.\n2. One.\n3. Two **strong**:\n   - a\n   - b\n4. Three.\n"),
        ({}, (), {4: ["Four.", "Five."]}, STEPS.rstrip("\n") + "\n4. Four.\n5. Five.\n"),
    ],
)
def test_steps_are_reworded_added_and_taken_out(
    reworded: dict[int, str], gone: tuple[int, ...], come: dict[int, list[str]], expected: str
) -> None:
    """Marks and indents of the other lines stay; numbers count on."""
    assert expected == with_changes(STEPS, reworded, gone, come)


def test_a_title_is_reworded(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The stop behind it belongs to the page, not to the title."""
    old, new = FIRST.title, "Windows Awake"
    _edit(lambda table: _say(_line(table, old), old, new))

    _revised(capsys, _path(FIRST.id), f"title: {old}", f"title: {new}")
