"""Outcome codes are what other publishers of the same chart say they are."""

import re
from functools import cache
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis.strategies import sampled_from, text

from lessonkit.loading.folder import load_folder
from lessonkit.outcomes.elementary import elementary_grades
from lessonkit.outcomes.look_up import Ambiguous, Impossible, Known, Repairable, Unlisted, look_up
from lessonkit.records.framework import Framework, Outcome, Spelling

ROOT = Path(__file__).parents[2]
CELLS = (ROOT / "tests/outside/outcome-cells/cells.md").read_text("utf-8")
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in CELLS.splitlines()
    if re.match(r"\| \d+ \| S", line)
]
TOTALS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in CELLS.splitlines()
    if re.match(r"\| (K|\d|L1\+L2) \|", line) and line.count("|") == 6
]


@cache
def framework_in(folder: str, name: str) -> Framework:
    """Load a framework from a folder of the checkout."""
    return load_folder(ROOT / folder, folder).library.frameworks[name]


def framework(name: str) -> Framework:
    """Load one of the shipped frameworks."""
    return framework_in("curriculum/outcomes", name)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[1])
def test_a_cell_has_the_grade_standard_and_status_seen_elsewhere(row: list[str]) -> None:
    """Source: tests/outside/outcome-cells/cells.md, each line seen with two publishers or more."""
    _, code, grade, standard, status, *_ = row
    answer = look_up(framework("us-pe-2013"), code)

    assert isinstance(answer, Known)
    assert (grade, f"S{standard}") == (answer.outcome.grade, answer.outcome.standard)
    assert status.split(" (")[0] == answer.outcome.status
    first = re.search(r"first: (\w+)", status)
    assert (first.group(1) if first else None) == answer.outcome.first_grade


def test_all_forty_facts_are_read() -> None:
    """The table has 40 lines and seven totals (source: the table itself)."""
    assert (40, 7) == (len(ROWS), len(TOTALS))


@pytest.mark.parametrize("total", [row for row in TOTALS if row[4] == "0"], ids=lambda row: row[0])
def test_active_outcomes_of_a_grade_are_as_many_as_elsewhere(total: list[str]) -> None:
    """A second publisher's totals, less the five standards it counts too (source: the table)."""
    grades = total[0].split("+")
    listed = [outcome for outcome in framework("us-pe-2013").outcomes if outcome.grade in grades]

    assert int(total[2]) == int(total[3]) == len(listed)


def test_the_chart_has_600_cells_and_275_active_elementary_outcomes() -> None:
    """Counts of the chart of 2013 (source: the framework's own sources; 275 active codes for K to 5)."""
    listed = framework("us-pe-2013").outcomes
    active = [outcome for outcome in listed if outcome.status == "active" and elementary_grades(outcome)]

    assert 600 == len(listed) == len({outcome.code for outcome in listed})
    assert 275 == len(active)


@pytest.mark.parametrize(
    "code", ["S1.E28.K", "S2.E6.3", "S3.H15.L1", "S1.E1.6", "S1.M1.5", "S1.H1.9", "S1.E5.1a", "S1.E1.Ka", "S9.E1.3"]
)
def test_codes_that_cannot_exist_are_impossible(code: str) -> None:
    """Last rows, grades a letter takes, and letters where a cell has none (source: negative facts of the table)."""
    assert isinstance(look_up(framework("us-pe-2013"), code), Impossible)


def test_a_code_without_its_letter_is_ambiguous() -> None:
    """S1.E2.2 alone is a or b (source: negative facts of the table)."""
    assert Ambiguous(("S1.E2.2a", "S1.E2.2b")) == look_up(framework("us-pe-2013"), "S1.E2.2")


def test_every_spelling_seen_in_the_wild_is_repaired() -> None:
    """The framework's own list of variants, each seen on a public page."""
    for variant in framework("us-pe-2013").spelling.variants:
        answer = look_up(framework("us-pe-2013"), variant.seen)

        assert isinstance(answer, Repairable)
        assert variant.means == answer.outcome.code


def test_every_unclear_spelling_is_refused_or_ambiguous() -> None:
    """The framework's own list of spellings that nobody can repair."""
    for unclear in framework("us-pe-2013").spelling.unclear:
        assert isinstance(look_up(framework("us-pe-2013"), unclear.seen), Ambiguous | Impossible)


def test_an_unlisted_code_of_an_incomplete_framework_is_not_called_wrong() -> None:
    """The framework of 2024 is not complete here: 3.5.4 is well formed, 3.6.4 has no such span (source: its notes)."""
    assert Unlisted("3.5.4") == look_up(framework("us-pe-2024"), "3.5.4")
    assert isinstance(look_up(framework("us-pe-2024"), "3.6.4"), Impossible)


@pytest.mark.parametrize(
    ("written", "meant"), [("S1.E2O.1", "S1.E20.1"), ("Sl.El.K", "S1.E1.K"), ("SI.E1.3", "S1.E1.3")]
)
def test_letters_that_look_like_digits_are_read_as_digits(written: str, meant: str) -> None:
    """O is typed for 0, l and I for 1; no code of the chart has such a letter in its place (source: the chart)."""
    answer = look_up(framework("us-pe-2013"), written)

    assert isinstance(answer, Repairable)
    assert meant == answer.outcome.code


@pytest.mark.parametrize(
    ("written", "reason"),
    [
        ("S1.E28.K", "US grade-level outcomes for physical education, 2013 has no outcome S1.E28.K."),
        ("S1.E1.6", "its row goes from S1.E1.K to S1.E1.5c."),
        ("S1.E5.1a", "S1.E5.1 has no parts with letters; write S1.E5.1."),
        ("S2.E1.Kc", "local extension, not national."),
        ("s1.e24. 3C", "has no outcome S1.E24.3c; its row goes from S1.E24.3a to S1.E24.3b."),
        ("S1.E2.2c", "its row goes from S1.E2.2a to S1.E2.2b."),
        ("S1.E1-E6.K", "'S1.E1-E6.K' cannot be read as one code: range of rows."),
        ("paddles", "its codes look like S1.E1.K."),
    ],
)
def test_the_reason_says_what_there_is_instead(written: str, reason: str) -> None:
    """Rows and letters are those of the chart (source: negative facts of the table; the chart for the row S1.E1)."""
    answer = look_up(framework("us-pe-2013"), written)

    assert isinstance(answer, Impossible)
    assert answer.reason.endswith(reason)


@pytest.mark.parametrize(
    ("written", "means"),
    [("a/3/1", "A:3:1"), ("A:k:01", "A:K:1"), ("A-3-2B", "A:3:2b"), ("Run-3", "A:3:1"), ("a:3:2A", "A:3:2a")],
)
def test_a_framework_of_ones_own_is_repaired_by_its_own_rule(written: str, means: str) -> None:
    """Separators, capitals and leading zeros are put right (source: the rule in the district's own record)."""
    answer = look_up(framework_in("tests/cases/outcomes", "millbrook-district"), written)

    assert isinstance(answer, Repairable)
    assert means == answer.outcome.code


def test_what_a_framework_took_away_is_said() -> None:
    """The reason noted beside a code that cannot be read is shown (source: the district's own record)."""
    answer = look_up(framework_in("tests/cases/outcomes", "millbrook-district"), "A:3:9")

    assert Impossible("Millbrook outcomes has no outcome A:3:9: it was taken away in 2025.") == answer


def test_a_pattern_that_is_none_refuses_every_unknown_code() -> None:
    """A slip in a framework's own pattern must not stop a check: known codes stay known."""
    district = framework_in("tests/cases/outcomes", "millbrook-district")
    broken = msgspec.structs.replace(district, spelling=Spelling(pattern="[A", repair="(A", rebuild="A:{1}"))

    assert isinstance(look_up(broken, "A:K:1"), Known)
    assert isinstance(look_up(broken, " a:k:1"), Repairable)
    assert isinstance(look_up(broken, "A:5:1"), Impossible)


@given(text(max_size=20))
def test_any_text_has_an_answer(written: str) -> None:
    """Looking up never fails, and only a listed code is known."""
    answer = look_up(framework("us-pe-2013"), written)

    assert isinstance(answer, Known) == (written in framework("us-pe-2013").by_code)


@given(sampled_from(sorted(framework("us-pe-2013").by_code)))
def test_spaces_and_capitals_never_change_a_code(code: str) -> None:
    """A code in small letters, with spaces around its points, is repaired to itself, never to another."""
    answer = look_up(framework("us-pe-2013"), f" {code.lower().replace('.', ' . ')}")

    assert isinstance(answer, Repairable)
    assert code == answer.outcome.code


@pytest.mark.parametrize(
    ("span", "grades"),
    [
        ("PreK-2", "K 1 2"),
        ("K-2", "K 1 2"),
        ("3-5", "3 4 5"),
        ("3-8", "3 4 5"),
        ("6-8", ""),
        ("9-12", ""),
        ("K", "K"),
        ("5", "5"),
        ("6", ""),
        ("L1", ""),
    ],
)
def test_a_span_covers_its_grades(span: str, grades: str) -> None:
    """Every grade from the first to the last, as far as they are K to 5 (source: what a span of grades means)."""
    outcome = Outcome(code="1.2.1", standard="1", grade=span, topic="travel")

    assert tuple(grades.split()) == elementary_grades(outcome)
