"""The balanced curriculum instances of CSPLib (problem 30) as years: courses are units of a week, periods are weeks."""

import json
from pathlib import Path
from typing import Any

import pytest

from lessonkit.planning.solve import Limits
from lessonkit.planning.year.map_year import search_year
from lessonkit.planning.year.problem import Block, Span, YearProblem

_FILE = Path(__file__).parents[2] / "outside" / "bacp-csplib030" / "instances.json"
INSTANCES: list[dict[str, Any]] = json.loads(_FILE.read_text("utf-8"))


def _year(instance: dict[str, Any]) -> YearProblem:
    weeks = tuple(Span(week, week) for week in range(instance["periods"]))
    earlier: dict[int, list[int]] = {}
    for course, before in instance["prerequisites"]:
        earlier.setdefault(course, []).append(before)
    blocks = tuple(
        Block(f"course {number}", (0,), weeks, load=credit, follows=tuple(earlier.get(number, ())))
        for number, credit in enumerate(instance["credits"])
    )
    return YearProblem(
        weeks=len(weeks),
        rows=1,
        blocks=blocks,
        open_weeks=(frozenset(range(len(weeks))),),
        stretches=weeks,
        together=instance["courses_max"],
        least_together=instance["courses_min"],
        week_load=(instance["load_min"], instance["load_max"]),
        weights={"even-load": 1},
    )


@pytest.mark.parametrize("instance", INSTANCES, ids=[each["id"] for each in INSTANCES])
def test_the_proven_optimum_is_reached(instance: dict[str, Any]) -> None:
    """The heaviest period is as light as two solvers have proven for the instance (see SOURCE.txt beside the data)."""
    schedule, answer = search_year(_year(instance), Limits())

    assert ("proven", instance["best_max_load"]) == (answer.status, answer.cost)
    assert schedule is not None
    loads = [0] * instance["periods"]
    for span, credit in zip(schedule.spans, instance["credits"], strict=True):
        assert span is not None
        loads[span.first] += credit
    assert instance["best_max_load"] == max(loads)
    weeks = [span.first for span in schedule.spans if span is not None]
    assert all(weeks[before] < weeks[course] for course, before in instance["prerequisites"])
