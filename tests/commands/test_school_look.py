"""The school's own look from its record or an option, and files that cannot be used said in a sentence."""

from pathlib import Path

import msgspec
import pytest

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.school_look import school_look
from lessonkit.records.school import Look, School
from lessonkit.writers.options import SchoolLook
from tests.document.printed import facts
from tests.writers.word.school_files import hostile, letterhead


def _school(folder: Path, look: Look | None) -> School:
    return msgspec.structs.replace(facts().school, path=(folder / "school.yaml").as_posix(), look=look)


def test_without_a_look_pages_are_ours(tmp_path: Path) -> None:
    """Neither an option nor the record asks for one."""
    assert school_look(None, _school(tmp_path, None)) is None


def test_the_record_names_the_file_from_where_it_lies(tmp_path: Path) -> None:
    """And the styles that take another look."""
    content = letterhead()
    (tmp_path / "look.docx").write_bytes(content)
    found = school_look(None, _school(tmp_path, Look(document="look.docx", styles={"heading 2": "Squad list"})))

    assert SchoolLook(content, (("heading 2", "Squad list"),)) == found


def test_an_option_goes_first(tmp_path: Path) -> None:
    """The file of the option is read from where the program runs."""
    path = tmp_path / "other.docx"
    path.write_bytes(letterhead())
    found = school_look(str(path), _school(tmp_path, Look(document="missing.docx")))

    assert SchoolLook(path.read_bytes()) == found


@pytest.mark.parametrize("name", ["macros", "remote picture", "bomb", "cut off"])
def test_a_file_that_cannot_be_used_is_a_sentence(name: str, tmp_path: Path) -> None:
    """It begins with the file's name and ends in a full stop."""
    content, why = hostile()[name]
    path = tmp_path / "look.docx"
    path.write_bytes(content)
    with pytest.raises(CannotRunError) as refused:
        school_look(str(path), _school(tmp_path, None))

    assert str(refused.value).startswith(f"{path.as_posix()} ")
    assert str(refused.value).endswith(".")
    assert why in str(refused.value)


def test_a_missing_file_is_a_sentence(tmp_path: Path) -> None:
    """What the disk says, and where."""
    with pytest.raises(CannotRunError, match="could not be read: No such file"):
        school_look(None, _school(tmp_path, Look(document="none.docx")))
