"""The balanced curriculum instances of CSPLib (problem 30) as units: courses are activities, periods are lessons.

A lesson lasts as long as the heaviest period may be, and a closing of free length fills what its courses leave. Every
course is a favourite that may be used once, so that a plan without cost has them all. Ranks turned round keep a course
and what it builds on out of the same lesson, as the problem asks.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from lessonkit.planning.audit import audit
from lessonkit.planning.order import ranks
from lessonkit.planning.problem import Bounds, Choice, LessonFrame, PartFrame, Problem
from lessonkit.planning.sequence import Options, search

_FILE = Path(__file__).parents[1] / "outside" / "bacp-csplib030" / "instances.json"
INSTANCES: list[dict[str, Any]] = json.loads(_FILE.read_text("utf-8"))
CHOSEN = [each for each in INSTANCES if each["id"] in ("bacp8", "bacp10")]


def _unit(instance: dict[str, Any], heaviest: int) -> Problem:
    earlier: dict[int, list[int]] = {}
    for course, before in instance["prerequisites"]:
        earlier.setdefault(course, []).append(before)
    courses = tuple(
        Choice(
            f"course-{number:02}",
            ("practice",),
            Bounds(credit, credit, credit),
            builds_on=tuple(earlier.get(number, ())),
            favourite=True,
        )
        for number, credit in enumerate(instance["credits"])
    )
    free = heaviest - instance["load_min"]
    closings = tuple(
        Choice(f"free-{number}", ("closing",), Bounds(1, 1, free + 1)) for number in range(instance["periods"])
    )
    parts = (PartFrame("practice", instance["courses_min"], instance["courses_max"]), PartFrame("closing"))
    choices = courses + closings
    turned = tuple(len(choices) - rank for rank in ranks(choices))
    lesson = LessonFrame(heaviest + 1, parts)
    return Problem(
        lessons=(lesson,) * instance["periods"],
        choices=choices,
        ranks=turned,
        most=1,
        moving=0,
        retest=False,
        weights={"favourites": 1},
    )


@pytest.mark.parametrize("instance", CHOSEN, ids=[each["id"] for each in CHOSEN])
def test_the_proven_optimum_is_reached(instance: dict[str, Any]) -> None:
    """All courses find a period at the proven least load (see SOURCE.txt beside the data), every one after its base."""
    problem = _unit(instance, instance["best_max_load"])

    plan, answer = search(problem, Options())

    assert ("proven", 0) == (answer.status, answer.cost)
    assert plan is not None and audit(plan, problem).holds
    period = {item.activity: lesson for lesson, placed in enumerate(plan.lessons) for item in placed}
    assert all(period[before] < period[course] for course, before in instance["prerequisites"])
    courses = range(len(instance["credits"]))
    loads = [sum(instance["credits"][c] for c in courses if period[c] == p) for p in range(instance["periods"])]
    assert instance["best_max_load"] == max(loads)


@pytest.mark.parametrize("instance", CHOSEN, ids=[each["id"] for each in CHOSEN])
def test_less_is_proven_impossible(instance: dict[str, Any]) -> None:
    """With a minute less in every period some course is left out, and that is proven."""
    problem = _unit(instance, instance["best_max_load"] - 1)
    everything = sum(instance["credits"])

    _, answer = search(problem, Options())

    assert everything > (instance["best_max_load"] - 1) * instance["periods"]
    assert answer.status == "proven" and answer.cost > 0
