"""Requests that cannot be met, one for each kind of reason: the sentence names the real cause, a way out mends it."""

from dataclasses import dataclass, field
from typing import Any

import msgspec
import pytest

from lessonkit.planning.sequence import Impossible, Options, sequence
from lessonkit.records.school import Owned, School
from lessonkit.records.unit import Aim, Pin, Repeats, Shape, ShapePart, Unit
from lessonkit.source.location import FieldPath

from .school_records import library, school, unit


@dataclass(frozen=True)
class Request:
    """Changes of the small school's unit or school, what is said at which place, and a way out ('' for none)."""

    says: str
    place: tuple[str, FieldPath]
    way: str
    unit: dict[str, Any] = field(default_factory=dict)
    school: School | None = None


def _class(minutes: int = 30, children: int = 12, **changes: Any) -> School:
    own = school(**changes)
    heron = own.classes[0]
    meets = tuple(msgspec.structs.replace(each, minutes=minutes) for each in heron.meets)
    return msgspec.structs.replace(own, classes=(msgspec.structs.replace(heron, meets=meets, children=children),))


_USUAL = unit().shapes[0]
REQUESTS = {
    "not enough lessons before the year ends": Request(
        "The unit needs 6, but 4 lessons are left for Grade 3 Heron from 2027-06-01"
        " to the last day of school, 2027-06-11.",
        ("unit", ("lessons",)),
        "Plan 4 lessons instead of 6.",
        {"start": "2027-06-01", "lessons": 6},
    ),
    "a lesson lost at the end of the year": Request(
        "The unit needs 4, but 3 lessons are left for Grade 3 Heron from 2027-06-01"
        " to the last day of school, 2027-06-11; one falls out (2027-06-03, lost day named in the unit request).",
        ("unit", ("lessons",)),
        "Begin on 2027-05-27 instead of 2027-06-01.",
        {"start": "2027-06-01", "lost_days": ("2027-06-03",)},
    ),
    "an aim that only what is excluded serves": Request(
        "T1.3 is to be assessed in 1 lesson, but no activity that this class can do assesses it (2 excluded).",
        ("unit", ("aims", 0, "assess")),
        "Allow Floor Taps again.",
        {"exclude": ("floor-taps", "wall-taps"), "aims": (Aim(code="T1.3", practise=1, assess=1, after=1),)},
    ),
    "too little time": Request(
        "Lesson 1, like 3 more lessons, lasts 12 minutes, but its parts take at least 16 with their set-up.",
        ("unit", ("shapes", 0)),
        "Give lessons of 12 minutes 16 minutes.",
        school=_class(minutes=12),
    ),
    "too much time": Request(
        "Lesson 1, like 3 more lessons, lasts 60 minutes, but its parts take at most 45 with their set-up.",
        ("unit", ("shapes", 0)),
        "Give lessons of 60 minutes 45 minutes.",
        school=_class(minutes=60),
    ),
    "no equipment": Request(
        "The skill part of lesson 1 needs 1 activity, but no activity fits (4 short of equipment)."
        " Above all paddles are short: 12 are needed, and there are none.",
        ("unit", ("shapes", 0, "parts", 1)),
        "Get 12 more paddles, for First Taps and 6 more activities.",
        school=school(equipment=(Owned(item="net", count=6),)),
    ),
    "a class too big for the floor": Request(
        "The unit needs 4 activities for the skill, but the only one that fits may be used 2 times in all"
        " (3 too big for the space).",
        ("unit", ("repeats", "most")),
        "",
        school=_class(children=40, equipment=(Owned(item="paddle", count=40), Owned(item="net", count=20))),
    ),
    "an aim that nothing serves": Request(
        "T3.3 is to be practiced in 2 lessons, but no activity that this class can do practices it.",
        ("unit", ("aims", 0, "code")),
        "Leave the aim T3.3 out.",
        {"aims": (Aim(code="T3.3"), Aim(code="T2.3"))},
    ),
    "an aim in more lessons than there are": Request(
        "T2.3 is to be practiced in 9 lessons, but the unit has 4.",
        ("unit", ("aims", 0, "practise")),
        "Practice T2.3 in 4 lessons instead of 9.",
        {"aims": (Aim(code="T2.3", practise=9),)},
    ),
    "an assessment without lessons of practice before it": Request(
        "T1.3 is to be assessed in 2 lessons, each after 3 lessons of practice,"
        " but a unit of 4 lessons leaves 1 for that.",
        ("unit", ("aims", 0, "after")),
        "Assess T1.3 after 2 lessons of practice instead of 3.",
        {"aims": (Aim(code="T1.3", practise=4, assess=2, after=3),)},
    ),
    "too few activities for a part": Request(
        "The unit needs 4 activities for the closing, but the only one that fits may be used 2 times in all"
        " (2 excluded).",
        ("unit", ("repeats", "most")),
        "Allow Slow Breath again.",
        {"exclude": ("two-stars", "slow-breath")},
    ),
    "a pin of what is excluded": Request(
        "Line Hops is pinned to lesson 1, but: Line Hops is excluded by the unit request.",
        ("unit", ("pins", 0)),
        "Leave out the pin of Line Hops to lesson 1.",
        {"pins": (Pin(lesson=1, activity="line-hops"),), "exclude": ("line-hops",)},
    ),
    "the last step in the first lesson": Request(
        "Over And Back is pinned to lesson 1.",
        ("unit", ("pins", 0)),
        "Leave out the pin of Over And Back to lesson 1.",
        {"pins": (Pin(lesson=1, activity="over-and-back"),)},
    ),
    "an aim of late steps for a class at the first": Request(
        "T2.3 is practiced in at least 4 lessons.",
        ("unit", ("aims", 0, "practise")),
        "If the class has mastered the step “Tap down” of Tapping, say so under mastered.",
        {
            "aims": (Aim(code="T2.3", practise=4),),
            "repeats": Repeats(most=4, apart=0),
            "exclude": ("floor-taps",),
            "shapes": (
                Shape(title="Usual lesson", parts=(*_USUAL.parts[:2], ShapePart(part="practice"), _USUAL.parts[3])),
            ),
        },
    ),
    "a step back after the last step": Request(
        "From one lesson to the next a skill goes back one step at most.",
        ("unit", ("skills", 0)),
        "Leave out the pin of Tap Ladder to lesson 4.",
        {"pins": (Pin(lesson=3, activity="over-and-back"), Pin(lesson=4, activity="tap-ladder", part="skill"))},
    ),
    "the same activity twice in a row": Request(
        "Tap Ladder is pinned to lessons 1 and 2, but comes back only after 1 lesson without it.",
        ("unit", ("pins", 1)),
        "Let an activity come back in the very next lesson, with repeats: {apart: 0}.",
        {"pins": (Pin(lesson=1, activity="tap-ladder"), Pin(lesson=2, activity="tap-ladder"))},
    ),
    "two pins for one place": Request(
        "Lesson 2 holds 1 activity in its warm-up, but 2 are pinned to it: “Line Hops” and “Shadow Steps”.",
        ("unit", ("pins", 1)),
        "Allow 2 activities in the warm-up of “Usual lesson” instead of 1.",
        {"pins": (Pin(lesson=2, activity="line-hops"), Pin(lesson=2, activity="shadow-steps"))},
    ),
    "a part longer than its activities": Request(
        "The warm-up of lesson 1 takes at least 10 minutes, set-up included.",
        ("unit", ("shapes", 0, "parts", 0, "least_minutes")),
        "Leave the minutes of the warm-up of “Usual lesson” open.",
        {
            "shapes": (
                Shape(title="Usual lesson", parts=(ShapePart(part="warm-up", least_minutes=10), *_USUAL.parts[1:])),
            )
        },
    ),
    "no standing at all": Request(
        "Children are to move for 100% of lesson 1 and 3 more lessons, but with the set-up and the standing that its"
        " parts cannot do without they move for 93% at most.",
        ("unit", ("moving",)),
        "Ask for 80% of moving time in a lesson instead of 100%.",
        {"moving": 100},
    ),
    "a short unit with long gaps": Request(
        "The unit needs 4 activities for the warm-up, but the 3 that fit may be used 3 times in all.",
        ("unit", ("repeats", "most")),
        "Let an activity come back in 2 lessons instead of 1.",
        {"repeats": Repeats(most=1, apart=0)},
    ),
}


def _asked(request: Request) -> Unit:
    return unit(**request.unit)


@pytest.mark.parametrize("name", REQUESTS)
def test_the_sentence_names_the_real_cause(name: str) -> None:
    """Among the reasons is the sentence of the cause, at the value of the record that states it."""
    request = REQUESTS[name]
    outcome = sequence(library(_asked(request), own=request.school), "taps", "heron", Options())

    assert isinstance(outcome, Impossible)
    found = {said.says: (said.kind, said.field) for said in outcome.because}
    assert request.says in found
    assert request.place == found[request.says]


@pytest.mark.parametrize("name", [name for name in REQUESTS if REQUESTS[name].way])
def test_a_way_out_is_among_those_named(name: str) -> None:
    """The change that a colleague would propose is one of the ways out, and they come with the cheapest first."""
    request = REQUESTS[name]
    outcome = sequence(library(_asked(request), own=request.school), "taps", "heron", Options())

    assert isinstance(outcome, Impossible)
    assert request.way in [way.said.says for way in outcome.ways_out]
    assert sorted(way.price for way in outcome.ways_out) == [way.price for way in outcome.ways_out]
