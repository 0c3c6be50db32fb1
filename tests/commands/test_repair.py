"""Repairs: shown first, exact to the byte, and only where one thing can be meant."""

import shutil
from pathlib import Path

import pytest

from lessonkit.cli import main
from tests.rules.laying import BASE

WORN = (
    b"# my own layout  \r\nkind:   activity\r\n"
    b"id: worn\r\ntitle: 'Worn'   # a remark\r\n"
    b"summary: It has been through many hands.\r\ngrades: 5-2\r\nparts: [ practice ]\r\n"
    b'outcomes:\r\n  us-pe-2013:\r\n    "s1.e24.3A": [ practised ]   # tidy\r\n'
    b"minutes: {least: 5, usual: 6, most: 10, setup: 1}\r\norganization: {form: individuals}\r\n"
    b"floor: {length: 2 metres, width: '2 m', safety: 1 m}\r\neffort: moderate\r\nsteps: 1. Do it.\r\n"
    b"cues: [Soft knees]\r\neasier: [Use a balloon.]\r\nharder: [Change hands.]\r\n"
    b"inclusion: {space: [More room.], task: [Fewer taps.], equipment: [A bell ball.], people: [A partner calls.]}\r\n"
    b"safety: [Follow your school's own rules.]\r\n"
)
SLIPS = ((b"grades: 5-2", b"grades: 2-5"), (b"organization", b"organisation"), (b"2 metres", b"2 m"))
CODE = (b'"s1.e24.3A"', b'"S1.E24.3a"')


@pytest.fixture
def worn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Put a record with four slips, odd layout and Windows line ends into a curriculum."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(BASE, "school")
    Path("school/plan.yaml").unlink()
    path = Path("school/worn.yaml")
    path.write_bytes(WORN)
    return path


def fix(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Run the check with ``--fix``; return the exit code, the output and what was said beside it."""
    code = main(["check", "school/worn.yaml", "--fix", *words])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_repairs_are_shown_first(worn: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without ``--write`` there is a diff, and the file stays as it is."""
    code, out, err = fix(capsys)

    assert 1 == code
    assert WORN == worn.read_bytes()
    assert out.startswith("--- a/school/worn.yaml\n+++ b/school/worn.yaml\n@@ ")
    assert ["-grades: 5-2", "+grades: 2-5"] == [line for line in out.splitlines() if "grades" in line]
    assert "Repairs: 3 in 1 of the files." in err
    assert "lessonkit check --fix --write school/worn.yaml" in " ".join(err.split())


def test_repairs_are_exact_to_the_byte(worn: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Only the slips change, and the code, which is seen once the record can be read: one run is enough."""
    expected = WORN
    for wrong, right in (*SLIPS, CODE):
        expected = expected.replace(wrong, right)
    code, _, err = fix(capsys, "--write")

    assert expected == worn.read_bytes()
    assert "Mended: 4 in 1 of the files." in err
    assert 0 == code


def test_a_mark_in_front_of_the_text_stays(worn: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A byte order mark is no character of the first line."""
    line = b"organization: {form: individuals}\r\n"
    worn.write_bytes(b"\xef\xbb\xbf" + line + WORN.replace(line, b""))
    fix(capsys, "--write")

    assert worn.read_bytes().startswith(b"\xef\xbb\xbforganisation: {form: individuals}\r\n# my own")


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        (b"effort: moderate", b"effort: moderat"),
        (b"parts: [ practice ]", b"parts: [ game ]\r\nwords: []\r\nword: []"),
        (b"safety: 1 m", b"safety: 1/5"),
        (b"organization", b"organisation: {form: pairs}\r\norganization"),
        (b'    "s1.e24.3A"', b'    S1.E24.3a: [practised]\r\n    "s1.e24.3A"'),
    ],
    ids=["another choice", "a field near to another", "two readings", "a field that is there", "a code that is there"],
)
def test_what_could_mean_two_things_is_left(
    worn: Path, capsys: pytest.CaptureFixture[str], right: bytes, wrong: bytes
) -> None:
    """What is no sure repair stays as its author wrote it, whatever else is mended."""
    worn.write_bytes(WORN.replace(right, wrong))
    for _ in range(3):
        fix(capsys, "--write")

    assert wrong in worn.read_bytes()


def test_write_alone_is_a_sentence(worn: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """``--write`` without ``--fix`` does nothing and says why."""
    assert 2 == main(["check", "school", "--write"])
    assert "--write goes with --fix" in capsys.readouterr().err
    assert WORN == worn.read_bytes()
