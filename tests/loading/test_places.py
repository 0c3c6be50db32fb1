"""Where the fields of a record stand in its file."""

import os
import time
from pathlib import Path

import pytest

from lessonkit.loading.places import locate
from tests.loading.cases import BASES, base

ACTIVITY = (BASES / "activity.yaml").as_posix()


def _marked(text: str, sign: str) -> tuple[int, int]:
    """Return the line and column, from 1, of a text's only occurrence in the activity."""
    whole = base("activity")
    assert 1 == whole.count(text)
    before = whole[: whole.index(text) + text.index(sign)]
    return before.count("\n") + 1, len(before) - before.rfind("\n")


@pytest.mark.parametrize(
    ("field", "on_key", "text", "sign"),
    [
        (("title",), False, "title: Sample Taps", "Sample"),
        (("title",), True, "title: Sample Taps", "title"),
        (("parts",), False, "parts: [skill, practice]", "["),
        (("parts", 1), False, "parts: [skill, practice]", "practice"),
        (("parts", 1), True, "parts: [skill, practice]", "practice"),
        (("minutes", "usual"), False, "usual: 7", "7"),
        (("minutes", "usual"), True, "usual: 7", "usual"),
        (("cues",), False, "cues:\n", "cues"),
        (("cues", 1), False, "- Tap to eye height", "Tap"),
        (("outcomes", "us-pe-2013", "S1.E24.2", 0), False, "S1.E24.2: [practised]", "practised"),
        (("outcomes", "us-pe-2013", "S1.E24.2"), True, "S1.E24.2: [practised]", "S1"),
        (("look_for", 0), False, "- outcome: S1.E24.2", "outcome"),
        (("steps",), False, "steps: |", "|"),
        (("versions", 0, "minutes", "most"), False, "usual: 6, most: 8", "8"),
        # what is not there has the place of the nearest thing above it
        (("minutes", "longest"), False, "minutes: {least: 5", "minutes"),
        (("cues", 2), False, "cues:\n", "cues"),
        (("cues", 7), False, "cues:\n", "cues"),
        (("look_for", 0, "note", 3), False, "- outcome: S1.E24.2", "outcome"),
        (("title", "deeper"), False, "title: Sample Taps", "title"),
        (("nothing",), False, "kind: activity", "kind"),
        ((), False, "kind: activity", "kind"),
    ],
)
def test_field_is_found(field: tuple[str | int, ...], on_key: bool, text: str, sign: str) -> None:
    """A field's place is its value, or its name on request or where the value starts below the name."""
    location = locate(ACTIVITY, field, on_key)

    assert _marked(text, sign) == (location.line, location.column)
    assert ACTIVITY == location.path


def test_place_ends_where_the_value_ends() -> None:
    """A value on one line is covered to its end, quotes and all."""
    location = locate(ACTIVITY, ("drawing", "marks", 0, "label"))

    assert location.end_column - location.column == len('"1"')
    assert location.end_line == location.line


def test_columns_count_characters(tmp_path: Path) -> None:
    """Characters outside the basic plane and combined ones count one each, tabs too."""
    path = tmp_path / "a.yaml"
    path.write_text('kind: skill\n"\U0001d11ee\u0301": {a: b}\n', "utf-8")

    # quote 1, clef 2, e 3, accent 4, quote 5, colon 6, brace 8, a 9, colon 10, b 12
    assert 12 == locate(path.as_posix(), ("\U0001d11ee\u0301", "a")).column


def test_changed_file_is_read_again(tmp_path: Path) -> None:
    """A place is that of the file as it is now, not as it was at the last question."""
    path = tmp_path / "a.yaml"
    path.write_text("title: x\n", "utf-8")
    first = locate(path.as_posix(), ("title",), on_key=True)
    path.write_text("# longer\ntitle: x\n", "utf-8")

    assert (1, 2) == (first.line, locate(path.as_posix(), ("title",), on_key=True).line)


@pytest.mark.parametrize("content", [None, b"a: [", b"\xff\xfe", b""], ids=["gone", "broken", "encoded", "empty"])
def test_file_that_cannot_be_read_has_a_start(tmp_path: Path, content: bytes | None) -> None:
    """Where the file is gone or broken since it was loaded, its first character is the place."""
    path = tmp_path / "a.yaml"
    if content is not None:
        path.write_bytes(content)

    assert f"{path.as_posix()}:1:1" == str(locate(path.as_posix(), ("title",)))


def test_a_file_changed_behind_its_date_is_read_again(tmp_path: Path) -> None:
    """A change that keeps size and date has a new date of change for the file system, which nobody can keep."""
    path = tmp_path / "a.yaml"
    path.write_text("kind: skill\nida: x\n", "utf-8")
    status = path.stat()

    assert 2 == locate(path.as_posix(), ("ida",)).line
    time.sleep(0.02)
    path.write_text("ida: x\nkind: skill\n", "utf-8")
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))

    assert 1 == locate(path.as_posix(), ("ida",)).line
