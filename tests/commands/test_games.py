"""``lessonkit games`` plans who plays whom, where and when, and answers odd wishes in a sentence."""

import re
from pathlib import Path

import docx
import pytest

from lessonkit.cli import main


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    """Run the command and return its exit code and all it said, ends of lines as spaces."""
    code = main(["games", *words])
    said = capsys.readouterr()
    return code, " ".join((said.out + said.err).replace("\u00a0", " ").split())


def test_six_teams_meet_on_three_courts(capsys: pytest.CaptureFixture[str]) -> None:
    """The rounds are those of the Berger table for six, on any court (FIDE Handbook C.05, annex 1)."""
    code = main(["games", "--teams", "6"])
    lines = capsys.readouterr().out.replace("\u00a0", " ").splitlines()
    rounds = [set(re.findall(r"\d v \d", line)) for line in lines if " v " in line]

    assert 0 == code
    assert [
        {"1 v 6", "2 v 5", "3 v 4"},
        {"6 v 4", "5 v 3", "1 v 2"},
        {"2 v 6", "3 v 1", "4 v 5"},
        {"6 v 5", "1 v 4", "2 v 3"},
        {"3 v 6", "4 v 2", "5 v 1"},
    ] == rounds


def test_a_class_makes_up_teams(capsys: pytest.CaptureFixture[str]) -> None:
    """25 children in teams of three are eight teams, one of them of four (25 = 7 x 3 + 4)."""
    code, said = run(capsys, "--children", "25", "--side", "3", "--game", "3:30")

    assert 0 == code
    assert "One team of four and seven teams of three, three against three." in said
    assert "In a team of four: three of four play, one child changes in after each spell: each child plays 75%" in said
    assert "Seven rounds of 3 min 30 s and 1 min to change: 30 min 30 s in all." in said


def test_minutes_cut_a_plan_short_and_say_so(capsys: pytest.CaptureFixture[str]) -> None:
    """Half an hour holds (30 + 1) / (4 + 1) rounds: six of the eleven that 21 games on two courts take."""
    code, said = run(capsys, "--teams", "7", "--courts", "2", "--minutes", "30")

    assert 0 == code
    assert "Six rounds of 4 min and 1 min to change: 29 min in all." in said
    assert "it takes 11 rounds; with games of 1 min 45 s all 11 fit." in said


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "say how many teams there are"),
        (("--teams", "6", "--squad", "5"), "--squad and --spell need --children and --side."),
        (("--children", "12", "--side", "3", "--spell", "2"), "--spell is for teams of more children than play"),
        (("--children", "16", "--side", "3", "--spell", "9"), "a spell of 9 min does not fit into a game of 4 min."),
        (("--teams", "6", "--most-wins", "2"), "--most-wins is for --challenge stay-on."),
        (("--teams", "6", "--challenge", "stay-on"), "add --courts 2, for instance."),
        (("--teams", "3", "--courts", "2", "--challenge", "stay-on"), "3 teams fill one court; give --courts 1"),
        (("--teams", "0"), "--teams 0: the number of teams must be a whole number from 2 to 40."),
        (("--teams", "1"), "--teams 1: the number of teams must be a whole number from 2 to 40."),
        (("--teams", "-3"), "--teams -3: the number of teams must be a whole number from 2 to 40."),
        (("--teams", "1000"), "--teams 1000: the number of teams must be a whole number from 2 to 40."),
        (("--teams", "six"), "--teams six: the number of teams must be a whole number from 2 to 40."),
        (("--teams", "6", "--courts", "0"), "--courts 0: the number of courts must be a whole number from 1 to 40."),
        (("--teams", "6", "--game", "long"), "--game: 'long' is not a time such as 90 s, 1:30 or 2 min."),
        (("--teams", "6", "--minutes", "3"), "a game of 4 min does not fit into 3 min."),
        (("--teams", "6", "--minutes", "900", "--game", "1 s", "--change", "0"), "more than can be planned."),
        (("--teams", "6", "--children", "24"), "--teams and --children cannot be used together"),
        (("--children", "24"), "say how many children a team has on the court"),
        (("--children", "5", "--side", "3"), "the number of children must be a whole number from 6 to 122."),
    ],
)
def test_odd_wishes_end_in_a_sentence(words: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is guessed: the sentence says what is accepted, and the code is 2."""
    code, said = run(capsys, *words)

    assert 2 == code
    assert says in said
    assert said.startswith("lessonkit: ") and said.endswith((".", "--teams 6", "--side 3"))


@pytest.mark.parametrize("teams", ["2", "7", "13", "40"])
def test_tables_stay_within_80_columns(teams: str, capsys: pytest.CaptureFixture[str]) -> None:
    """However many teams there are, no line is longer than a terminal is wide."""
    main(["games", "--teams", teams, "--minutes", "20"])

    assert all(len(line) <= 80 for line in capsys.readouterr().out.splitlines())


def test_a_page_for_the_wall_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The Word file and the web page hold the table that the terminal shows."""
    code, said = run(capsys, "--teams", "4", "--word", f"{tmp_path}/games", "--html", f"{tmp_path}/games.html")
    table = docx.Document(str(tmp_path / "games.docx")).tables[0]
    cells = [[cell.text.replace("\u00a0", " ") for cell in row.cells] for row in table.rows]
    page = re.sub(r"<[^>]+>", " ", (tmp_path / "games.html").read_text("utf-8"))

    assert 0 == code
    assert "games.docx" in said and "games.html" in said
    assert ["Round", "Starts", "Court 1", "Court 2"] == cells[0]
    assert ["1", "0:00", "1 v 4", "2 v 3"] == cells[1]
    assert "1 0:00 1 v 4 2 v 3" in " ".join(page.split())


def test_a_page_that_was_changed_is_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What somebody wrote into the page is not lost when it is written again."""
    target = tmp_path / "games.html"
    target.write_text("my own page", "utf-8")
    code, said = run(capsys, "--teams", "4", "--html", str(target))

    assert 0 == code
    assert "my own page" == target.read_text("utf-8")
    assert "games.new.html" in said


def test_squads_of_six_take_turns_three_at_a_time(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Squads of six to eight playing three a side rotate after a score (common practice, no source); half play."""
    svg = tmp_path / "courts.svg"
    code, said = run(capsys, "--children", "24", "--side", "3", "--squad", "6", "--svg", str(svg))

    assert 0 == code
    assert "Four teams of six, three against three. A spell ends with a score." in said
    assert "each child plays 50% of the time and sits out one spell at the most" in said
    assert "1 1, 2 and 3 4, 5 and 6 2 4, 5 and 6 1, 2 and 3" in said
    assert all(f"Court {court}" in svg.read_text("utf-8") for court in (1, 2))


def test_challenge_courts_say_who_waits(capsys: pytest.CaptureFixture[str]) -> None:
    """Ten sides on three courts are four, three and three; two of s sides play at a time, so 2 / s of the games."""
    code, said = run(capsys, "--teams", "10", "--courts", "3", "--challenge", "two-out")

    assert 0 == code
    assert "Four sides on a court: a side plays 50% of the games on average, whatever the score" in said
    assert "Three sides on a court: a side plays 67% of the games on average, whatever the score" in said
    assert "3 3 67% 67% 67% one game" in said


def test_a_map_is_written_anew_unless_it_was_changed(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A map as it was written makes room for the next; one that somebody changed stays, the next beside it."""
    svg = tmp_path / "courts.svg"
    for teams in ("4", "6"):
        run(capsys, "--teams", teams, "--svg", str(svg))
    drawn = svg.read_text("utf-8")
    svg.write_text(drawn.replace("Court 1", "Stage"), "utf-8")
    run(capsys, "--teams", "4", "--svg", str(svg))

    assert "Court 3" in drawn
    assert "Stage" in svg.read_text("utf-8")
    assert "Court 2" in (tmp_path / "courts.new.svg").read_text("utf-8")
