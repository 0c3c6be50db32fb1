"""An export folder: what nobody changed is replaced, what somebody changed is kept and told about."""

import io
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import docx
import pytest

from lessonkit.commands.exported import Folder
from lessonkit.document.agenda import Agenda
from lessonkit.document.model import Document, Paragraph, text
from lessonkit.writers import html
from lessonkit.writers.calendar import write as write_calendar
from lessonkit.writers.word.writer import write
from tests.document.printed import facts
from tests.writers.sample_lesson import lesson_document

OLD = replace(lesson_document(), blocks=(*lesson_document().blocks, Paragraph(text("Their words."))))
NEW = replace(OLD, blocks=(*OLD.blocks, Paragraph(text("A line that came with the next export."))))


def edited(content: bytes, change: Callable[[docx.document.Document], object]) -> bytes:
    """Change a Word file with python-docx and save it."""
    document = docx.Document(io.BytesIO(content))
    change(document)
    saved = io.BytesIO()
    document.save(saved)
    return saved.getvalue()


def _reword(document: docx.document.Document) -> None:
    document.paragraphs[-1].runs[0].text = "My own words."


def _put(path: Path, document: Document, *, force: bool = False) -> list[str]:
    folder = Folder(path, force=force)
    folder.put("lesson.docx", write(document))
    return folder.report()


def test_an_untouched_file_is_replaced(tmp_path: Path) -> None:
    """Nothing but the new file is there afterwards; no list of exports lies beside it."""
    _put(tmp_path, OLD)
    said = _put(tmp_path, NEW)

    assert [f"Wrote {(tmp_path / 'lesson.docx').as_posix()}"] == said
    assert {"lesson.docx": write(NEW)} == {path.name: path.read_bytes() for path in tmp_path.iterdir()}


def test_a_file_that_was_only_saved_again_is_replaced(tmp_path: Path) -> None:
    """python-docx saves other bytes with the same content."""
    path = tmp_path / "lesson.docx"
    path.write_bytes(edited(write(OLD), lambda _: None))
    _put(tmp_path, NEW)

    assert {"lesson.docx": write(NEW)} == {path.name: path.read_bytes() for path in tmp_path.iterdir()}


def test_an_edited_file_is_kept_and_told_about(tmp_path: Path) -> None:
    """Old words and new words stand in the report, under the heading where they are."""
    path = tmp_path / "lesson.docx"
    mine = edited(write(OLD), _reword)
    path.write_bytes(mine)
    said = _put(tmp_path, NEW)

    assert mine == path.read_bytes()
    assert write(NEW) == (tmp_path / "lesson.new.docx").read_bytes()
    assert "which was changed since it was exported; the new one is" in said[0]
    assert "is now \u201cMy own words.\u201d" in said[1]
    assert 2 == len(said)


def test_the_new_file_beside_is_not_lost_either(tmp_path: Path) -> None:
    """Somebody may have gone on in the new file; the next one then takes another name."""
    mine = edited(write(OLD), _reword)
    (tmp_path / "lesson.docx").write_bytes(mine)
    (tmp_path / "lesson.new.docx").write_bytes(mine)
    _put(tmp_path, NEW)

    assert mine == (tmp_path / "lesson.new.docx").read_bytes()
    assert write(NEW) == (tmp_path / "lesson.new-2.docx").read_bytes()


def test_force_keeps_a_backup_of_every_turn(tmp_path: Path) -> None:
    """An edited file is replaced when asked for, never without a copy, and no backup replaces another."""
    mine = edited(write(OLD), _reword)
    for _ in range(2):
        (tmp_path / "lesson.docx").write_bytes(mine)
        _put(tmp_path, NEW, force=True)

    assert write(NEW) == (tmp_path / "lesson.docx").read_bytes()
    assert [mine, mine] == [(tmp_path / f"lesson.backup{end}.docx").read_bytes() for end in ("", "-2")]


def test_edits_that_the_new_file_has_already_are_no_edits(tmp_path: Path) -> None:
    """Once an edit stands in the records the exported page says the same, so nothing need be kept."""
    changed = replace(OLD, blocks=(*OLD.blocks[:-1], Paragraph(text("My own words."))))
    path = tmp_path / "lesson.docx"
    path.write_bytes(edited(write(OLD), _reword))
    _put(tmp_path, NEW)

    assert (tmp_path / "lesson.new.docx").exists()

    said = _put(tmp_path, changed)

    assert write(changed) == path.read_bytes()
    assert [path] == list(tmp_path.iterdir()), "the new file beside it is not needed any more"
    assert 2 == len(said)


@pytest.mark.parametrize("content", [b"", b"not a Word file", write(OLD)[:-400]], ids=["empty", "text", "cut off"])
def test_what_cannot_be_read_is_kept(content: bytes, tmp_path: Path) -> None:
    """A damaged or foreign file under the name of an export is never written over."""
    (tmp_path / "lesson.docx").write_bytes(content)
    _put(tmp_path, NEW)

    assert content == (tmp_path / "lesson.docx").read_bytes()
    assert write(NEW) == (tmp_path / "lesson.new.docx").read_bytes()


def test_another_authors_file_is_kept(tmp_path: Path) -> None:
    """A Word file that was never exported stays, and the report says why."""
    saved = io.BytesIO()
    docx.Document().save(saved)
    (tmp_path / "lesson.docx").write_bytes(saved.getvalue())
    said = _put(tmp_path, NEW)

    assert saved.getvalue() == (tmp_path / "lesson.docx").read_bytes()
    assert "which does not bear the mark of an export" in said[0]


def _calendar() -> bytes:
    from lessonkit.document.agenda import agenda

    found: Agenda = agenda(facts())
    return write_calendar(found)


@pytest.mark.parametrize(
    ("name", "content"), [("lesson.html", html.write(OLD)), ("lessons.ics", _calendar())], ids=["page", "calendar"]
)
def test_pages_and_calendars_keep_their_edits(name: str, content: bytes, tmp_path: Path) -> None:
    """A letter more or less breaks the seal of a text file; untouched it is replaced."""
    path = tmp_path / name
    path.write_bytes(content)
    Folder(tmp_path).put(name, content)

    assert [path] == list(tmp_path.iterdir())

    mine = content.replace(b"a", b"b", 1)
    path.write_bytes(mine)
    Folder(tmp_path).put(name, content)

    assert mine == path.read_bytes()
    assert content == path.with_name(f"{path.stem}.new{path.suffix}").read_bytes()


@pytest.mark.parametrize("mark", [".~lock.lesson.docx#", "~$lesson.docx", "~$sson.docx"])
def test_a_file_that_is_open_elsewhere_is_kept(mark: str, tmp_path: Path) -> None:
    """Word and LibreOffice leave a mark beside it (names as the programs choose them, from memory)."""
    _put(tmp_path, OLD)
    (tmp_path / mark).touch()

    assert ["Wrote"] == [line.split()[0] for line in _put(tmp_path, OLD)], "the same file once more"

    (said,) = _put(tmp_path, NEW)

    assert "which is open in another program or was when that stopped; the new one is" in said
    assert write(OLD) == (tmp_path / "lesson.docx").read_bytes()
    assert write(NEW) == (tmp_path / "lesson.new.docx").read_bytes()

    (tmp_path / mark).unlink()
    _put(tmp_path, NEW)

    assert {"lesson.docx": write(NEW)} == {path.name: path.read_bytes() for path in tmp_path.iterdir()}


def test_a_name_that_cannot_be_written_is_told_and_the_others_are_written(tmp_path: Path) -> None:
    """A folder stands where a file should; the rest of the export goes on."""
    (tmp_path / "lesson.docx").mkdir()
    folder = Folder(tmp_path)
    folder.put("lesson.docx", write(NEW))
    folder.put("other.docx", write(NEW))

    assert folder.failed
    assert f"{(tmp_path / 'lesson.docx').as_posix()} could not be written: a folder has its name." == folder.report()[0]
    assert write(NEW) == (tmp_path / "other.docx").read_bytes()
