"""From a request to a plan, or to the reasons why there is none."""

import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from lessonkit.planning.audit_plan import audit_plan
from lessonkit.planning.sequence import Impossible, Options, Outcome, Planned, Stopped, sequence
from lessonkit.planning.solve import Progress
from lessonkit.planning.write_plan import plan_text
from lessonkit.records.unit import Aim, Pin, Repeats, Shape, ShapePart

from .school_records import activities, library, unit


def _plan(request: Any = None, **changes: Any) -> Outcome:
    found = library(request or unit(**changes))
    return sequence(found, "taps", "heron", Options())


def _planned(**changes: Any) -> Planned:
    outcome = _plan(**changes)
    assert isinstance(outcome, Planned), outcome
    return outcome


def test_the_small_school_gets_a_proven_plan() -> None:
    """The plan has the lessons of the timetable, is proven best, and breaks nothing."""
    found = _planned()

    assert ["2027-01-05", "2027-01-07", "2027-01-12", "2027-01-14"] == [each.date for each in found.plan.lessons]
    assert found.plan.made is not None
    assert ("proven", found.plan.made.bound) == (found.plan.made.status, found.plan.made.cost)
    assert found.audit.holds
    assert () == audit_plan(found.plan, library())


def test_lessons_are_full_and_in_their_shape() -> None:
    """Every lesson lasts 30 minutes and begins with a warm-up and ends with a closing."""
    for lesson in _planned().plan.lessons:
        parts = [slot.part for slot in lesson.activities]

        assert 30 == sum(slot.minutes + slot.setup for slot in lesson.activities)
        assert ("warm-up", "closing") == (parts[0], parts[-1])


def test_a_pin_is_kept_and_marked() -> None:
    """A pinned activity is where it was pinned, for the minutes asked for, and marked in the plan."""
    plan = _planned(pins=(Pin(lesson=2, activity="line-hops", part="warm-up", minutes=6),)).plan

    first = plan.lessons[1].activities[0]
    assert ("line-hops", 6, True) == (first.activity, first.minutes, first.pinned)


def test_reasons_cover_every_place() -> None:
    """Every activity of the plan has a reason, and every activity of the library that is not in it too."""
    found = _planned()
    used = [(n, slot.activity) for n, lesson in enumerate(found.plan.lessons) for slot in lesson.activities]

    assert used == [(why.lesson, why.activity) for why in found.reasons.places]
    assert all(why.says for why in found.reasons.places)
    left = {record.id for record in activities()} - {activity for _, activity in used}
    assert left == {unused.activity for unused in found.reasons.unused}


def test_wishes_add_up_to_the_cost() -> None:
    """What the wishes cost one by one is the cost of the plan."""
    found = _planned()

    assert found.plan.made is not None
    assert found.plan.made.cost == sum(wish.cost for wish in found.reasons.wishes)


def test_a_wish_turned_off_costs_nothing() -> None:
    """With every wish off but variety, the plan has as few repeats as the requirements allow."""
    others = ("spacing", "late-assessment", "rising-challenge", "few-changeovers", "usual-minutes", "moving")
    more = ("further-outcomes", "favourites", "calm-closing", "varied-groups")
    found = _planned(wishes=dict.fromkeys((*others, *more), "off"))

    # Four lessons need four warm-ups of three and four closings of three, and one measured task comes back.
    assert ["variety"] == [wish.wish for wish in found.reasons.wishes]
    assert 3 == len(found.reasons.wishes[0].says[0].partition(": ")[2].split("; "))


def test_progress_is_told() -> None:
    """Whoever watches hears of the cost falling towards the bound."""
    heard: list[Progress] = []

    sequence(library(), "taps", "heron", Options(progress=heard.append))

    assert heard
    assert sorted((each.cost for each in heard), reverse=True) == [each.cost for each in heard]
    assert all(0 <= each.gap <= 1 for each in heard)


def test_no_time_at_all() -> None:
    """A search stopped before its first plan says so, and does not say that there is none."""
    outcome = sequence(library(), "taps", "heron", Options(seconds=0.0))

    assert isinstance(outcome, Stopped)
    assert "The search ended before it found a plan; give it more time." == outcome.says


_SCRIPT = """
from tests.planning.school_records import library
from lessonkit.planning.sequence import Options, sequence
from lessonkit.planning.write_plan import plan_text
found = library()
print(plan_text(sequence(found, "taps", "heron", Options()).plan, found), end="")
"""


def test_the_same_plan_whatever_the_hash_seed() -> None:
    """Two processes with different hash seeds write the same bytes, and so does this one."""
    root = Path(__file__).parents[2]
    texts = [
        subprocess.run(
            [sys.executable, "-c", _SCRIPT],
            cwd=root,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
            capture_output=True,
            check=True,
            text=True,
        ).stdout
        for seed in ("1", "77")
    ]

    assert texts[0] == texts[1] == plan_text(_planned().plan, library())


def _shape(*parts: ShapePart) -> tuple[Shape, ...]:
    return (Shape(title="Usual lesson", parts=parts),)


_PLAIN = (ShapePart(part="warm-up"), ShapePart(part="skill"), ShapePart(part="practice", most=2))

IMPOSSIBLE: dict[str, tuple[dict[str, Any], tuple[Any, ...], str]] = {
    "a part that nothing fits": (
        {"shapes": _shape(*_PLAIN, ShapePart(part="game", least=3, most=3))},
        ("shapes", 0, "parts", 3),
        "The game of lesson 1 needs 3 activities, but only 2 activities fit.",
    ),
    "too few warm-ups": (
        {"repeats": Repeats(most=1)},
        ("repeats", "most"),
        "The unit needs 4 activities for the warm-up, but the 3 that fit may be used 3 times in all.",
    ),
    "a lesson that cannot be filled": (
        {"shapes": _shape(ShapePart(part="warm-up"), ShapePart(part="skill"))},
        ("shapes", 0),
        "Lesson 1, like 3 more lessons, lasts 30 minutes, but its parts take at most 17 with their set-up.",
    ),
    "a lesson that is too short": (
        {"shapes": _shape(ShapePart(part="warm-up"), *(ShapePart(part="practice", least=2, most=3),) * 3)},
        ("shapes", 0),
        "Lesson 1, like 3 more lessons, lasts 30 minutes, but its parts take at least 33 with their set-up.",
    ),
    "an aim that nothing practises": (
        {"aims": (Aim(code="T9.9", practise=1),)},
        ("aims", 0, "code"),
        "T9.9 is to be practiced in 1 lesson, but no activity that this class can do practices it.",
    ),
    "more lessons of practice than lessons": (
        {"aims": (Aim(code="T1.3", practise=5),)},
        ("aims", 0, "practise"),
        "T1.3 is to be practiced in 5 lessons, but the unit has 4.",
    ),
    "an aim that nothing assesses": (
        {"aims": (Aim(code="T3.3", practise=0, assess=1),)},
        ("aims", 0, "assess"),
        "T3.3 is to be assessed in 1 lesson, but no activity that this class can do assesses it.",
    ),
    "assessment too late": (
        {"aims": (Aim(code="T1.3", practise=1, assess=2, after=3),)},
        ("aims", 0, "after"),
        "T1.3 is to be assessed in 2 lessons, each after 3 lessons of practice, but a unit of 4 lessons leaves 1 for "
        "that.",
    ),
    "a pin where the shape has no part for it": (
        {"pins": (Pin(lesson=1, activity="wall-taps", part="closing"),)},
        ("pins", 0, "part"),
        "Wall Taps cannot be the closing of lesson 1: it is for skill or practice.",
    ),
    "a pin of an excluded activity": (
        {"pins": (Pin(lesson=1, activity="line-hops"),), "exclude": ("line-hops",)},
        ("pins", 0),
        "Line Hops is pinned to lesson 1, but: Line Hops is excluded by the unit request.",
    ),
}


@pytest.mark.parametrize("name", IMPOSSIBLE)
def test_counting_shows_why_there_is_no_plan(name: str) -> None:
    """A request that cannot be met by count says which numbers do not agree, at the value that asks too much."""
    changes, field, says = IMPOSSIBLE[name]

    outcome = _plan(**changes)

    assert isinstance(outcome, Impossible)
    assert (field, says) in [(said.field, said.says) for said in outcome.because]


def test_changes_of_the_request_that_give_a_plan() -> None:
    """Too few warm-ups: letting activities come back twice is the way out, and it works."""
    outcome = _plan(repeats=Repeats(most=1))

    assert isinstance(outcome, Impossible)
    assert "Let an activity come back in 2 lessons instead of 1." == outcome.ways_out[0].said.says
    assert isinstance(_plan(repeats=Repeats(most=2)), Planned)


def test_the_record_decides_not_the_order_of_the_library() -> None:
    """The order in which records were loaded does not change the plan."""
    found = library()
    turned = msgspec.structs.replace(found.units["taps"])
    other = library(turned, extra=tuple(reversed(activities())))

    assert plan_text(sequence(other, "taps", "heron", Options()).plan, other) == plan_text(_planned().plan, found)  # type: ignore[union-attr]
