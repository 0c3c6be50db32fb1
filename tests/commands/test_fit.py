"""Does it fit, asked without a curriculum."""

import argparse
import io
from pathlib import Path

import pytest

from lessonkit.commands import fit
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

GYM = ("--room", "22 m by 14 m")


def ask(*words: str) -> tuple[int, str]:
    """Run the command and return its code and what it said."""
    parser = argparse.ArgumentParser()
    fit.add_arguments(parser)
    out = io.StringIO()
    return fit.run(parser.parse_args(words), Terminal(out, out, {"COLUMNS": "80"})), out.getvalue()


def test_what_fits_is_listed_for_a_tape_measure() -> None:
    """Twelve lanes of 6 by 2 m, 1 m apart: three columns with spaces of (22 - 18) / 4 = 1 m."""
    code, said = ask("12", "6 m by 2 m", *GYM, "--apart", "1 m")
    lines = said.splitlines()

    assert 0 == code
    assert "All 12 areas of 6 m by 2 m fit the room, 1 m apart; there is room for 13." == lines[0]
    assert 12 == len(lines) - 4
    assert ["1", "1 m", "10.8 m", "6 m by 2 m"] == [word.strip() for word in lines[4].split("  ") if word.strip()]


def test_what_does_not_fit_ends_in_code_one() -> None:
    """The largest number that fits, and what to do with the others."""
    code, said = ask("30", "2 m x 2 m", *GYM, "--apart", "1 m")

    assert 1 == code
    assert "Only 28 of 30 areas of 2 m by 2 m fit the room, 1 m apart. Work in 2 waves of 15 and 15 groups" in " ".join(
        said.split()
    )


def test_feet_are_answered_in_feet() -> None:
    """A room written in feet is answered in feet; 74 by 42 ft is an elementary court (EQ-010)."""
    code, said = ask("6", "36 x 14 ft", "--room", "74 ft by 42 ft")

    assert 0 == code
    assert "All 6 areas of 36 ft by 14 ft fit the room; there is room for 6." in said
    assert "ft" in said.splitlines()[4]


def test_walls_and_children() -> None:
    """Spaces at a wall touch it: those at the left wall begin 0 cm from the left."""
    code, said = ask("3", "2 m by 4 m", *GYM, "--wall", "left", "--children", "25")

    assert 0 == code
    assert 3 == said.count("0 cm")
    assert "Each of 25 children has 12.3 square meters" in said


@pytest.mark.parametrize(("ending", "begins"), [("svg", b"<svg"), ("docx", b"PK"), ("png", b"\x89PNG")])
def test_a_drawing_on_request(tmp_path: Path, ending: str, begins: bytes) -> None:
    """The plan is written in the form its name asks for, and never over another file."""
    if ending == "png":
        pytest.importorskip("resvg_py")
    target = tmp_path / f"plan.{ending}"
    code, said = ask("4", "5 m by 4 m", *GYM, "--draw", str(target))

    assert 0 == code
    assert f"Wrote {target.as_posix()}" in " ".join(said.split())
    assert target.read_bytes().startswith(begins)
    with pytest.raises(CannotRunError, match="is already there"):
        ask("4", "5 m by 4 m", *GYM, "--draw", str(target))


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("4", "5 m", *GYM), "'5 m' is not a size such as '6\u00a0m by 2\u00a0m'."),
        (("4", "5 m by 4 q", *GYM), "'4 q' is not a length such as 6 m, 60 cm, 20 ft or 5 ft 6 in."),
        (("4", "5 m by 0 m", *GYM), "a space and a room need a length and a width above zero."),
        (("0", "5 m by 4 m", *GYM), "at least one group and one child are needed."),
        (("4", "5 m by 4 m", *GYM, "--children", "0"), "at least one group and one child are needed."),
        (
            ("4", "5 m by 4 m", *GYM, "--draw", "plan.gif"),
            "a drawing can be a file that ends in .svg, .docx or .png, not plan.gif.",
        ),
        (
            ("4", "5 m by 4 m", *GYM, "--draw", "plan.png", "--look", "school.docx"),
            "--look is the look of a Word page; add --draw and a file that ends in .docx.",
        ),
    ],
)
def test_what_cannot_be_asked_is_a_sentence(words: tuple[str, ...], says: str) -> None:
    """No traceback for a slip of the pen."""
    with pytest.raises(CannotRunError) as caught:
        ask(*words)

    assert says == str(caught.value)
