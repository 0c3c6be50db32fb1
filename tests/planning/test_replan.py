"""Planning again after something has happened."""

from typing import Any

import msgspec
import pytest

from lessonkit.planning.audit_plan import audit_plan
from lessonkit.planning.replan import Replanned, replan
from lessonkit.planning.sequence import Impossible, Options, Planned, sequence
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.records.school import Owned

from .school_records import library, school, unit


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Return the plan of the small school."""
    found = sequence(library(), "taps", "heron", Options())
    assert isinstance(found, Planned)
    return found.plan


def _taught(plan: Plan, lessons: int) -> Plan:
    done = tuple(
        msgspec.structs.replace(lesson, taught=True) if number < lessons else lesson
        for number, lesson in enumerate(plan.lessons)
    )
    return msgspec.structs.replace(plan, lessons=done)


def _again(plan: Plan, found: Library, **options: Any) -> tuple[Plan, Replanned]:
    answer = replan(found, plan, Options(), **options)
    assert isinstance(answer.outcome, Planned), answer.outcome
    return answer.outcome.plan, answer


def test_nothing_happened_nothing_changes(plan: Plan) -> None:
    """With the same records the least changed plan is the old plan, taught or not."""
    for lessons in (0, 2):
        new, answer = _again(_taught(plan, lessons), library())

        assert () == answer.changes
        assert _taught(plan, lessons).lessons == new.lessons


def test_a_lost_day_moves_the_dates_only(plan: Plan) -> None:
    """When a lesson falls out, the later ones move on by one date and keep what they had."""
    lost = library(unit(lost_days=("2027-01-12",)))

    new, answer = _again(_taught(plan, 2), lost)

    assert ["2027-01-05", "2027-01-07", "2027-01-14", "2027-01-19"] == [lesson.date for lesson in new.lessons]
    assert [lesson.activities for lesson in plan.lessons] == [lesson.activities for lesson in new.lessons]
    assert [(3, 0), (4, 0)] == [(change.lesson, change.swapped) for change in answer.changes]
    assert ("2027-01-12", "2027-01-14") == (answer.changes[0].date_before, answer.changes[0].date_after)


def test_a_shorter_unit_keeps_what_it_can(plan: Plan) -> None:
    """With one lesson less the aims are still met, and the lessons taught are as they were."""
    new, _ = _again(_taught(plan, 2), library(unit(lessons=3)))

    assert 3 == len(new.lessons)
    assert _taught(plan, 2).lessons[:2] == new.lessons[:2]
    assert () == audit_plan(new, library(unit(lessons=3)))


def test_broken_equipment_changes_what_needs_it(plan: Plan) -> None:
    """With five nets left, Over And Back is out: its lesson loses it and no other lesson changes."""
    own = school(equipment=(Owned(item="paddle", count=12), Owned(item="net", count=5)))
    where = [n for n, lesson in enumerate(plan.lessons, 1) if "over-and-back" in str(lesson.activities)]

    new, answer = _again(_taught(plan, 1), library(own=own))

    assert "over-and-back" not in str(new.lessons)
    assert where == [change.lesson for change in answer.changes]
    assert sum(change.swapped for change in answer.changes) in (1, 2)


def test_pins_in_the_plan_survive(plan: Plan) -> None:
    """An activity that the teacher pinned in the plan stays, even when the best plan is asked for."""
    slots = plan.lessons[3].activities
    closing = msgspec.structs.replace(slots[-1], activity="ring-of-names", pinned=True)
    lessons = (*plan.lessons[:3], msgspec.structs.replace(plan.lessons[3], activities=(*slots[:-1], closing)))

    new, _ = _again(msgspec.structs.replace(plan, lessons=lessons), library(), best=True)

    last = new.lessons[3].activities[-1]
    assert ("ring-of-names", True) == (last.activity, last.pinned)


def test_the_best_plan_from_here(plan: Plan) -> None:
    """Asked for the best plan, nothing stands in the way of more changes, and the cost is no higher."""
    worse = _taught(plan, 1)

    _, least = _again(worse, library())
    _, best = _again(worse, library(), best=True)

    assert isinstance(least.outcome, Planned)
    assert isinstance(best.outcome, Planned)
    assert least.outcome.audit.cost >= best.outcome.audit.cost


def test_no_way_on(plan: Plan) -> None:
    """When the rest cannot be planned, the reasons come as for a new unit."""
    answer = replan(library(unit(exclude=("slow-breath", "two-stars", "ring-of-names"))), _taught(plan, 2), Options())

    assert isinstance(answer.outcome, Impossible)
    assert ["The closing of lesson 3 needs 1 activity, but no activity fits (3 excluded)."] == [
        said.says for said in answer.outcome.because
    ]
