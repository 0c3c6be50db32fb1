"""Smallest conflicts, and single changes that mend them."""

from typing import Any

import pytest

from lessonkit.planning.build import build
from lessonkit.planning.case import Case
from lessonkit.planning.conflict import find_conflict
from lessonkit.planning.precheck import precheck
from lessonkit.planning.setup import set_up
from lessonkit.planning.solve import feasible
from lessonkit.planning.ways import ways_out
from lessonkit.records.activity import SkillStep
from lessonkit.records.unit import Aim, Pin, Repeats

from .school_records import library, unit


def _case(**changes: Any) -> Case:
    found = library(unit(**changes))
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


CONFLICTS: dict[str, tuple[dict[str, Any], set[str]]] = {
    "the last step in the first lesson": (
        {"pins": (Pin(lesson=1, activity="over-and-back"),), "repeats": Repeats(most=3, apart=0)},
        {"pins", "skill-order"},
    ),
    "the first step in the last lesson": (
        {
            "pins": (Pin(lesson=3, activity="over-and-back"), Pin(lesson=4, activity="tap-ladder", part="skill")),
        },
        {"pins", "no-way-back", "skill-order"},
    ),
    "the same activity twice in a row": (
        {"pins": (Pin(lesson=1, activity="tap-ladder"), Pin(lesson=2, activity="tap-ladder"))},
        {"pins", "repeats"},
    ),
    "an aim of late activities in every lesson": (
        {"aims": (Aim(code="T2.3", practise=4),), "pins": (Pin(lesson=1, activity="tap-ladder", part="skill"),)},
        set(),
    ),
}


@pytest.mark.parametrize("name", [name for name in CONFLICTS if CONFLICTS[name][1]])
def test_a_conflict_names_the_demands_that_matter(name: str) -> None:
    """The smallest conflict consists of the demands that the request is known to set against each other.

    Counting sees none of it but pins that come too soon again.
    """
    changes, terms = CONFLICTS[name]
    case = _case(**changes)

    assert (("pins", 1),) * ("repeats" in terms) == tuple(said.field for said in precheck(case))
    conflict = find_conflict(case)

    assert conflict is not None
    assert conflict.verified
    assert terms <= {demand.instances[0].term for demand in conflict.demands}


@pytest.mark.parametrize("name", CONFLICTS)
def test_a_conflict_is_smallest(name: str) -> None:
    """The demands of a conflict have no plan together, and have one when any of them is left out."""
    case = _case(**CONFLICTS[name][0])
    conflict = find_conflict(case)
    if conflict is None:
        assert feasible(build(case.problem).model) is True
        return
    model = build(case.problem, fine=True, kinds=("required",)).model

    def possible(left_out: int | None) -> bool | None:
        kept = {
            instance
            for number, demand in enumerate(conflict.demands)
            if number != left_out
            for instance in demand.instances
        }
        return feasible(model, [row for row in model.rows if row.why is None or row.why in kept])

    assert possible(None) is False
    assert all(possible(number) is True for number in range(len(conflict.demands)))


def test_a_request_that_can_be_met_has_no_conflict() -> None:
    """Where there is a plan there is no conflict to report."""
    assert find_conflict(_case()) is None


def test_ways_out_are_tried() -> None:
    """Every way out gives a plan when the request is changed as it says."""
    pins = (Pin(lesson=1, activity="tap-ladder"), Pin(lesson=2, activity="tap-ladder"))

    ways = ways_out(_case(pins=pins))

    says = [way.said.says for way in ways]
    assert "Let an activity come back in the very next lesson, with repeats: {apart: 0}." in says
    assert "Leave out the pin of Tap Ladder to lesson 1." in says
    assert sorted(way.price for way in ways) == [way.price for way in ways]
    assert find_conflict(_case(pins=pins, repeats=Repeats(most=2, apart=0))) is None
    assert find_conflict(_case(pins=pins[1:])) is None


def test_more_of_what_the_class_masters_is_no_conflict() -> None:
    """With the second step mastered, the third may come in the first lesson."""
    pins = (Pin(lesson=1, activity="wall-taps", part="skill"),)
    mastered = (SkillStep(skill="tapping", step="down"),)
    case = _case(pins=pins, mastered=mastered, repeats=Repeats(most=3, apart=0))

    assert feasible(build(case.problem).model) is True
