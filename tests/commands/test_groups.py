"""``lessonkit groups`` divides any class in a sentence and lists who is where."""

import zipfile
from pathlib import Path

import docx
import pytest

from lessonkit.cli import main
from tests.writers.word.school_files import hostile, letterhead


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, dict[str, list[str]]]:
    """Run the command; return its exit code, all it said on one line, and the groups of its table."""
    code = main(["groups", *words])
    said = capsys.readouterr()
    text = (said.out + said.err).replace("\u00a0", " ")
    groups: dict[str, list[str]] = {}
    table = text.split("---\n")[-1] if "---\n" in text else ""
    for line in table.splitlines():
        name, _, who = (line[:11].strip(), line[11:17], line.split("  ")[-1])
        label = name.split()[0] if name else list(groups)[-1]
        groups.setdefault(label, []).extend(child for child in who.strip().split(", ") if child)
    return code, " ".join(text.split()), groups


@pytest.mark.parametrize(
    ("words", "says"),
    [
        # 25 children in pairs are 11 pairs and one three: common practice, no source. The others counted by hand.
        (["25"], "11 pairs and one group of three."),
        (["25", "--of", "4", "--over", "smaller"], "Four fours and three groups of three."),
        (["25", "--side", "3", "--over", "change-in"], "Four games of 3 against 3, and one child changing in"),
        (["31", "--groups", "6"], "One group of six and five groups of five."),
        (["31", "--of", "5"], "One group of six and five groups of five."),
        (["31", "--of", "5", "--over", "smaller"], "Three groups of five and four groups of four."),
        (["7", "--over", "teacher"], "Three pairs, and the teacher joins one child."),
        (["1"], "The teacher joins one child."),
        (["2"], "One pair."),
        (["64", "--of", "4"], "16 fours."),
        # Nearer to three than one group of five; one child and a teacher are two, not four.
        (["5", "--of", "3"], "One three and one pair."),
        (["9", "--of", "5"], "One group of five and one group of four."),
        (["25", "--of", "4", "--over", "teacher"], "Five fours and one group of five: the teacher and one child left"),
    ],
)
def test_any_class_is_divided_in_a_sentence(capsys: pytest.CaptureFixture[str], words: list[str], says: str) -> None:
    """The first sentence says the groups."""
    code, said, _ = run(capsys, *words)

    assert 0 == code
    assert said.startswith(says)


def test_a_line_counts_off(capsys: pytest.CaptureFixture[str]) -> None:
    """Seven count off to three groups: 1, 4 and 7 together; the teacher makes up a pair (by hand)."""
    _, _, counted = run(capsys, "7", "--groups", "3")
    _, _, joined = run(capsys, "7", "--over", "teacher", "--deal", "neighbours")

    assert {"1": ["1", "4", "7"], "2": ["2", "5"], "3": ["3", "6"]} == counted
    assert ["7", "the teacher"] == joined["4"]


def test_the_same_mix_is_the_same_again(capsys: pytest.CaptureFixture[str]) -> None:
    """A mix by number comes back, another number gives another, and nobody is lost."""
    first, again, other = (run(capsys, "25", "--of", "3", "--mix", mix)[2] for mix in ("2", "2", "3"))

    assert first == again != other
    assert {str(child) for child in range(1, 26)} == {child for group in other.values() for child in group}


def test_a_list_of_initials_is_used_and_said_to_stay(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Initials come from a file of the teacher's own; a page to print has the same groups."""
    names = tmp_path / "list.txt"
    names.write_text("AB\nCD\nEF\nGH\nIJ\n", "utf-8")
    page = tmp_path / "groups.docx"
    code, said, groups = run(capsys, "--names", str(names), "--over", "change-in", "--word", str(page))
    cells = [
        [cell.text.replace("\u00a0", " ") for cell in row.cells] for row in docx.Document(str(page)).tables[0].rows
    ]

    assert 0 == code
    assert ("Wrote", [f"Wrote {page}"]) == groups.popitem()
    assert {"1": ["AB", "EF"], "2": ["CD", "GH"], "changing": ["IJ"]} == {
        name: who for name, who in groups.items() if name != "Wrote"
    }
    assert "your school's rules on records" in said
    assert ["1", "2", "AB, EF"] == cells[1]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "say how many children there are"),
        (["0"], "the number of children must be a whole number from 1 to 120"),
        (["many"], "the number of children must be a whole number from 1 to 120"),
        (["25", "--names", "list.txt"], "give a number of children or --names, not both"),
        (["--names", "nowhere.txt"], "nowhere.txt could not be read"),
        (["25", "--groups", "26"], "the number of groups must be a whole number from 1 to 25"),
        (["25", "--groups", "5", "--over", "larger"], "leave out --over"),
        (["25", "--of", "6", "--over", "teacher"], "are for groups of two to four and for games"),
        (["25", "--side", "0"], "the number of children on a side must be a whole number from 1 to 12"),
    ],
)
def test_odd_wishes_end_in_a_sentence(capsys: pytest.CaptureFixture[str], words: list[str], says: str) -> None:
    """What cannot be done is said in one sentence, with code 2."""
    code, said, _ = run(capsys, *words)

    assert 2 == code
    assert (says in said and said.endswith(".")) or "groups 25" in said


def test_the_same_class_has_the_same_page_on_any_day(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Same input, same bytes: a page carries no date, in its properties either (Open Packaging: dates are optional)."""
    pages = [tmp_path / "one.docx", tmp_path / "two.docx"]
    for page in pages:
        run(capsys, "25", "--word", str(page))

    assert pages[0].read_bytes() == pages[1].read_bytes()
    with zipfile.ZipFile(pages[0]) as package:
        assert b"dcterms:created" not in package.read("docProps/core.xml")


def test_a_page_can_have_the_look_of_the_school(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The letterhead's header and its green headings (1D6F5C) stand on the page."""
    look, page = tmp_path / "letterhead.docx", tmp_path / "groups.docx"
    look.write_bytes(letterhead())
    code, _, _ = run(capsys, "25", "--word", str(page), "--look", str(look))
    found = docx.Document(str(page))

    assert 0 == code
    assert " Quillfeather School" == found.sections[0].header.paragraphs[0].text
    assert "1D6F5C" == str(found.styles["Heading 1"].font.color.rgb)


def test_a_look_that_cannot_be_used_is_refused(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A file with macros, and a look without a Word page to take it; no page is written."""
    look, page = tmp_path / "macros.docx", tmp_path / "groups.docx"
    look.write_bytes(hostile()["macros"][0])
    unsafe, said, _ = run(capsys, "25", "--word", str(page), "--look", str(look))
    alone, says, _ = run(capsys, "25", "--html", f"{tmp_path}/groups.html", "--look", str(look))

    assert (2, 2) == (unsafe, alone)
    assert "macros" in said
    assert says.endswith("--look is the look of a Word page; add --word FILE.")
    assert [look] == list(tmp_path.iterdir())
