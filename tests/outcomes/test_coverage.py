"""Coverage counts an outcome only where an activity for the grade serves it."""

from pathlib import Path

import msgspec
import pytest

from lessonkit.loading.folder import load_folder
from lessonkit.outcomes.coverage import Gap, active_outcomes, coverage
from lessonkit.records.activity import Activity, How
from lessonkit.records.framework import Framework
from lessonkit.records.measures import read_band

ROOT = Path(__file__).parents[2]
LIBRARY = load_folder(ROOT / "curriculum", "curriculum").library
DISTRICT = load_folder(ROOT / "tests/cases/outcomes", "outcomes").library.frameworks["millbrook-district"]
PRACTISED: tuple[How, ...] = ("practised",)
ASSESSED: tuple[How, ...] = ("practised", "assessed")


def serving(name: str, grades: str, codes: dict[str, tuple[How, ...]], framework: Framework = DISTRICT) -> Activity:
    """Return an activity for some grades with some outcomes."""
    whole = LIBRARY.activities["ladder-of-taps"]
    return msgspec.structs.replace(whole, id=name, grades=read_band(grades), outcomes={framework.id: codes})


def test_a_grade_has_its_own_and_the_spanning_outcomes_that_are_active() -> None:
    """Grade 3 of the district has four active ones: A:3:3 is still to come, A:3:4 spans 3-5 (source: its record)."""
    codes = [outcome.code for outcome in active_outcomes(DISTRICT, "3")]

    assert ["A:3:1", "A:3:2a", "A:3:2b", "A:3:4"] == codes
    assert ["A:3:4"] == [outcome.code for outcome in active_outcomes(DISTRICT, "5")]


@pytest.mark.parametrize(
    ("gap", "codes"),
    [("not-served", ("A:3:2b",)), ("not-practised", ("A:3:2a",)), ("not-assessed", ("A:3:4",))],
)
def test_each_outcome_is_in_the_first_gap_that_fits(gap: Gap, codes: tuple[str, ...]) -> None:
    """A:3:1 is practised and assessed; A:3:2a only introduced; A:3:4 practised; nobody serves A:3:2b in grade 3."""
    activities = [
        serving("whole", "3-5", {"A:3:1": ASSESSED}),
        serving("first", "2-3", {"A:3:2a": ("introduced",)}),
        serving("part", "3", {"A:3:4": PRACTISED}),
        serving("elsewhere", "4-5", {"A:3:2b": ASSESSED}),
    ]

    assert codes == coverage(DISTRICT, "3", activities).gaps(gap)


def test_shares_are_of_the_active_outcomes() -> None:
    """One of four outcomes assessed is a quarter, two practised a half; a framework without the grade gives 0."""
    found = coverage(DISTRICT, "3", [serving("whole", "3", {"A:3:1": ASSESSED, "A:3:4": PRACTISED})])

    assert (0.25, 0.5, 0.0) == (found.share("assessed"), found.share("practised"), found.share("introduced"))
    assert 0.0 == coverage(DISTRICT, "1", []).share("practised")


def test_the_order_of_activities_does_not_matter() -> None:
    """The ids stand in their own order, whatever order the activities came in."""
    both = [serving("b", "3", {"A:3:1": PRACTISED}), serving("a", "3", {"A:3:1": PRACTISED})]

    assert ("a", "b") == coverage(DISTRICT, "3", both).rows[0].practised
    assert coverage(DISTRICT, "3", both) == coverage(DISTRICT, "3", both[::-1])


def test_the_shipped_activities_serve_the_striking_outcomes_of_grade_3() -> None:
    """The starter curriculum is a unit of striking with a short handle: S1.E24.3a and S1.E24.3b are covered."""
    found = coverage(LIBRARY.frameworks["us-pe-2013"], "3", LIBRARY.activities.values())
    striking = {row.outcome.code: row.gap for row in found.rows if row.outcome.code.startswith("S1.E24.")}

    assert {"S1.E24.3a": None, "S1.E24.3b": None} == striking
