"""``lessonkit partners`` gives everybody somebody new every round, and answers odd wishes in a sentence."""

import re
from itertools import combinations
from pathlib import Path

import docx
import pytest

from lessonkit.cli import main

Rounds = list[list[list[str]]]


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, Rounds]:
    """Run the command; return its exit code, all it said on one line, and the groups of every round."""
    code = main(["partners", *words])
    said = capsys.readouterr()
    text = (said.out + said.err).replace("\u00a0v\u00a0", ", ").replace("\u00a0", "_")
    rounds: Rounds = []
    for line in text.partition("-----")[2].splitlines():
        if re.match(r"\d+ ", line):
            rounds.append([])
        if rounds:
            rounds[-1].extend(group.split("+") for group in re.findall(r"[^ ,]+(?:\+[^ ,]+)+", line))
    return code, " ".join(text.replace("_", " ").split()), rounds


def pairs(rounds: Rounds) -> list[frozenset[str]]:
    """Return every two who are together, round after round."""
    return [frozenset(pair) for groups in rounds for group in groups for pair in combinations(group, 2)]


def test_twenty_four_children_have_six_different_partners(capsys: pytest.CaptureFixture[str]) -> None:
    """Six rounds of twelve pairs, no pair twice; 23 rounds are possible (n - 1 partners for n children)."""
    code, said, rounds = run(capsys, "24", "--rounds", "6")

    assert 0 == code
    assert [12] * 6 == [len(groups) for groups in rounds]
    assert 72 == len(set(pairs(rounds)))
    assert "Nobody has the same partner twice; that is possible for 23 rounds." in said


def test_an_odd_class_has_a_three_or_one_who_rests(capsys: pytest.CaptureFixture[str]) -> None:
    """25 children are 11 pairs and one three (common practice, no source), or 12 pairs and one who rests."""
    three = run(capsys, "25", "--rounds", "4")
    rest = run(capsys, "25", "--rounds", "4", "--odd", "rest")

    assert [[2] * 11 + [3]] * 4 == [sorted(len(group) for group in groups) for groups in three[2]]
    assert 4 * 14 == len(set(pairs(three[2])))
    assert [12] * 4 == [len(groups) for groups in rest[2]]
    assert "Resting" in rest[1] and "With teacher" in run(capsys, "5", "--odd", "teacher")[1]


def test_groups_differ_by_one_child_and_are_new(capsys: pytest.CaptureFixture[str]) -> None:
    """25 children in fours are four fours and three threes (25 = 4 x 4 + 3 x 3), five rounds without a repeat."""
    code, said, rounds = run(capsys, "25", "--of", "4", "--rounds", "5")

    assert 0 == code
    assert "Four groups of four and three groups of three." in said
    assert 5 * (4 * 6 + 3 * 3) == len(set(pairs(rounds)))


def test_eight_play_two_against_two_with_new_partners(capsys: pytest.CaptureFixture[str]) -> None:
    """In seven rounds each of the 28 pairs plays together once (published table for eight, counted)."""
    code, said, rounds = run(capsys, "8", "--against", "--rounds", "7")

    assert 0 == code
    assert 28 == len(set(pairs(rounds))) == len(pairs(rounds))
    assert "nobody plays against anybody more than twice" in said


def test_names_come_from_a_file_and_go_nowhere(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Initials are shown in place of numbers, with a caution, and no file is written."""
    monkeypatch.chdir(tmp_path)
    Path("list.txt").write_text("A. B.\n\nC.\nD. E. F.\nG.\n", "utf-8")
    code, said, rounds = run(capsys, "--names", "list.txt", "--rounds", "3")

    assert 0 == code
    assert {"A._B.", "C.", "D._E._F.", "G."} == {name for groups in rounds for group in groups for name in group}
    assert "share them only as your school's rules on records allow" in said
    assert ["list.txt"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("A.\nB.\nA.\n", "holds 'A.' more than once"),
        ("\n \n", "holds no names; write one a line."),
        ("A.\n", "one child alone has no partner."),
        ("\n".join(map(str, range(81))), "holds 81 names; more than 80 are too many for one class."),
        (None, "could not be read"),
        (b"\xff\xfe\x00", "is not a plain text file (UTF-8) with one name a line."),
    ],
)
def test_a_list_that_cannot_be_used_is_explained(
    content: str | bytes | None, says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Names missing, doubled, too many or unreadable end in a sentence and code 2."""
    path = tmp_path / "list.txt"
    if content is not None:
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    code, said, rounds = run(capsys, "--names", str(path))

    assert (2, []) == (code, rounds)
    assert says in said and said.endswith(".")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "say how many children there are"),
        (("0",), "the number of children must be a whole number from 2 to 80."),
        (("1",), "the number of children must be a whole number from 2 to 80."),
        (("1000",), "the number of children must be a whole number from 2 to 80."),
        (("many",), "the number of children must be a whole number from 2 to 80."),
        (("24", "--rounds", "0"), "the number of rounds must be a whole number from 1 to 40."),
        (("24", "--of", "1"), "the number of children in a group must be a whole number from 2 to 12."),
        (("24", "--of", "3", "--odd", "rest"), "--odd is for pairs"),
        (("24", "--of", "3", "--against"), "--against is for pairs"),
        (("3", "--against"), "two against two needs four children at least."),
        (("24", "--names", "list.txt"), "give a number of children or --names, not both."),
    ],
)
def test_odd_wishes_end_in_a_sentence(words: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is guessed: the sentence says what is accepted, and the code is 2."""
    code, said, rounds = run(capsys, *words)

    assert (2, []) == (code, rounds)
    assert says in said and said.startswith("lessonkit: ")


@pytest.mark.parametrize("words", [("2",), ("80", "--rounds", "3"), ("79", "--of", "12", "--rounds", "1")])
def test_tables_stay_within_80_columns(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """However many children there are, no line is longer than a terminal is wide."""
    main(["partners", *words])

    assert all(len(line) <= 80 for line in capsys.readouterr().out.splitlines())


def test_a_page_for_the_wall_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The Word file holds the table that the terminal shows."""
    code, said, _ = run(capsys, "4", "--rounds", "3", "--word", f"{tmp_path}/pairs")
    rows = docx.Document(str(tmp_path / "pairs.docx")).tables[0].rows

    assert 0 == code and "pairs.docx" in said
    assert [["Round", "Together"], ["1", "1+4, 2+3"]] == [[cell.text for cell in row.cells] for row in rows][:2]
