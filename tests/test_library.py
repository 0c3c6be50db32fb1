"""The library that ships with the project is as large and as complete as its pages say; PyYAML reads the files."""

from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from lessonkit.records.measures import GRADES

CURRICULUM = Path(__file__).parent.parent / "curriculum"


@cache
def activities() -> tuple[dict[str, Any], ...]:
    """Return every activity as PyYAML reads it."""
    files = sorted((CURRICULUM / "activities").rglob("*.yaml"))
    return tuple(yaml.safe_load(path.read_text("utf-8")) for path in files)


@cache
def outcomes(name: str) -> tuple[dict[str, Any], ...]:
    """Return the active outcomes of a framework for elementary grades."""
    framework = yaml.safe_load((CURRICULUM / "outcomes" / f"{name}.yaml").read_text("utf-8"))
    return tuple(o for o in framework["outcomes"] if o["status"] == "active" and str(o["grade"]) in (*GRADES, "PreK-2"))


def _served(name: str, how: str) -> Counter[str]:
    codes = (code for one in activities() for code, ways in one["outcomes"].get(name, {}).items() if how in ways)
    return Counter(codes)


def test_every_outcome_of_2013_is_practised_twice_and_checked() -> None:
    """The chart of 2013 has 275 active cells for grades K to 5 (curriculum/outcomes, counted from its sources)."""
    practised, assessed = _served("us-pe-2013", "practised"), _served("us-pe-2013", "assessed")

    assert 275 == len(outcomes("us-pe-2013"))
    assert [] == [o["code"] for o in outcomes("us-pe-2013") if practised[o["code"]] < 2]
    assert [] == [o["code"] for o in outcomes("us-pe-2013") if assessed[o["code"]] < 1]


def test_every_confirmed_indicator_of_2024_is_practised() -> None:
    """Each indicator for PreK to 2 that is confirmed has an activity."""
    practised = _served("us-pe-2024", "practised")

    assert [] == [o["code"] for o in outcomes("us-pe-2024") if not practised[o["code"]]]


@pytest.mark.parametrize(("part", "least"), [("warm-up", 40), ("game", 40), ("closing", 25)])
def test_there_is_a_choice_for_every_part(part: str, least: int) -> None:
    """Enough for a year without the same every week (common practice, no source)."""
    assert least <= sum(part in one["parts"] for one in activities())


def test_many_can_be_stations_and_many_are_counted() -> None:
    """At least 60 stations and 30 tasks in which a child beats an own best."""
    assert 60 <= sum(one.get("station", False) for one in activities())
    assert 30 <= sum("measured" in one for one in activities())


@pytest.mark.parametrize("grade", GRADES)
def test_the_units_of_a_grade_name_every_outcome_of_it(grade: str) -> None:
    """Seven units a grade, and their aims together are the active outcomes of the grade, no other."""
    units = [yaml.safe_load(path.read_text("utf-8")) for path in sorted((CURRICULUM / "units").glob("*.yaml"))]
    own = [unit for unit in units if any(one.startswith(f"grade-{grade.lower()}-") for one in unit["classes"])]
    named = {aim["code"] for unit in own for aim in unit["aims"]}

    assert 7 == len(own)
    assert {o["code"] for o in outcomes("us-pe-2013") if str(o["grade"]) == grade} == named
