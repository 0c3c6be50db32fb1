"""``lessonkit rotation`` says which squad is where and when, and answers odd wishes in a sentence."""

import re
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import docx
import pytest

from lessonkit.cli import main


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, list[list[str]]]:
    """Run the command; return its exit code, all it said on one line, and the rows of its tables without the times."""
    code = main(["rotation", *words])
    said = capsys.readouterr()
    text = (said.out + said.err).replace("\u00a0", " ")
    rows = [line.split()[2:] for line in text.splitlines() if re.match(r"\d+ +\d+:\d\d ", line)]
    return code, " ".join(text.split()), rows


def test_six_squads_meet_six_stations_once(capsys: pytest.CaptureFixture[str]) -> None:
    """Every squad meets every station once, and a seventh turn would begin again (common practice, no source)."""
    code, said, rows = run(capsys, "--squads", "6", "--stations", "6", "--work", "4", "--change", "1")

    assert 0 == code
    assert "six turns, 29 min" in said  # 6 x 4 + 5 x 1
    assert ["1", "2", "3", "4", "5", "6"] == rows[0]
    assert all(set("123456") == set(line) for line in (*rows, *zip(*rows, strict=True)))
    assert rows[0] == [str(int(station) % 6 + 1) for station in rows[5]]


def test_squads_beyond_the_stations_rest_or_share(capsys: pytest.CaptureFixture[str]) -> None:
    """Six squads over four stations: two rest in every turn, or two stations hold two squads (6 = 4 + 2)."""
    code, said, rows = run(capsys, "--squads", "6", "--stations", "4")
    shared_code, shared_said, shared_rows = run(capsys, "--squads", "6", "--stations", "4", "--extra", "share")

    assert (0, 0) == (code, shared_code)
    assert "two squads rest in every turn, and each squad rests twice" in said
    assert [2] * 6 == [row.count("rest") for row in rows]
    assert "share a station" in shared_said
    assert [6, 6, 6, 6] == [len(row) - row.count("rest") for row in shared_rows]


def test_a_balanced_order_lets_no_station_follow_the_same_other_twice(capsys: pytest.CaptureFixture[str]) -> None:
    """Six squads walk the stations so that each of the 30 ordered neighbours comes once (Bradley 1958)."""
    code, _, rows = run(capsys, "--squads", "6", "--balanced")
    orders = list(zip(*rows, strict=True))
    neighbours = {(one, other) for order in orders for one, other in pairwise(order)}

    assert 0 == code
    assert 30 == len(neighbours)


def test_turns_are_made_to_fit_the_time(capsys: pytest.CaptureFixture[str]) -> None:
    """Five turns in 20 minutes: (20 - 4 x 1) / 5 = 3:12 each, in whole 5 seconds 3:10; of 5 minutes only three fit."""
    fitted = run(capsys, "--squads", "5", "--minutes", "20")
    asked = run(capsys, "--squads", "5", "--minutes", "20", "--work", "5")

    assert "A turn is 3 min 10 s, 1 min to change." in fitted[1]
    assert "Only 3 of 5 turns fit into 20 min; with turns of 3 min 10 s all fit." in asked[1]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--squads", "0"), "--squads 0: the number of squads must be a whole number from 1 to 24."),
        (("--squads", "1000"), "--squads 1000: the number of squads must be a whole number from 1 to 24."),
        (("--squads", "six"), "--squads six: the number of squads must be a whole number from 1 to 24."),
        (("--squads", "6", "--stations", "0"), "--stations 0: the number of stations must be a whole number"),
        (("--squads", "6", "--work", "long"), "--work: 'long' is not a time such as 90 s, 1:30 or 2 min."),
        (("--squads", "6", "--work", "0"), "--work: '0' is no time at all."),
        (("--squads", "24", "--minutes", "10"), "24 turns with a change of 1 min between do not fit into 10 min."),
        (("--squads", "5", "--balanced"), "no balanced order for five squads over five stations"),
    ],
)
def test_odd_wishes_end_in_a_sentence(words: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is guessed: the sentence says what is accepted, and the code is 2."""
    code, said, rows = run(capsys, *words)

    assert (2, []) == (code, rows)
    assert says in said
    assert said.startswith("lessonkit: ") and said.endswith(".")


@pytest.mark.parametrize("squads", ["1", "7", "8", "24"])
def test_tables_stay_within_80_columns(squads: str, capsys: pytest.CaptureFixture[str]) -> None:
    """However many squads there are, no line is longer than a terminal is wide, and every squad is shown."""
    main(["rotation", "--squads", squads])
    said = capsys.readouterr().out.replace("\u00a0", " ")

    assert all(len(line) <= 80 for line in said.splitlines())
    assert int(squads) == len(set(re.findall(r"Squad \d+", said)))


def test_pages_and_a_map_are_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The Word file holds the table, the picture every station with the squad that begins there."""
    where = f"{tmp_path}/stations"
    code, said, _ = run(capsys, "--squads", "3", "--word", where, "--svg", where)
    table = docx.Document(f"{where}.docx").tables[0]
    drawn = "".join(ElementTree.parse(f"{where}.svg").getroot().itertext())

    assert 0 == code
    assert "stations.docx" in said and "stations.svg" in said
    assert ["1", "0:00", "1", "2", "3"] == [cell.text for cell in table.rows[1].cells]
    assert all(f"Station {number}" in drawn and f"squad {number}" in drawn for number in (1, 2, 3))


def test_a_map_without_one_way_round_has_no_arrows(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In a balanced order every squad has its own way, so the map shows none."""
    run(capsys, "--squads", "4", "--svg", f"{tmp_path}/next.svg")
    run(capsys, "--squads", "4", "--balanced", "--svg", f"{tmp_path}/balanced.svg")

    assert "way to the next station" in (tmp_path / "next.svg").read_text("utf-8")
    assert "way to the next station" not in (tmp_path / "balanced.svg").read_text("utf-8")
