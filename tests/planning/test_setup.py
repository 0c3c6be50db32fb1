"""From records to a problem."""

from dataclasses import replace
from typing import Any

import msgspec
import pytest

from lessonkit.planning.case import Case
from lessonkit.planning.problem import Bounds, Level
from lessonkit.planning.setup import set_up
from lessonkit.records.activity import Minutes, Need, Organisation, SkillStep, Version
from lessonkit.records.measures import read_band, read_length
from lessonkit.records.school import Owned
from lessonkit.records.skill import Step
from lessonkit.records.unit import Pin, Shape, ShapePart

from .school_records import activities, activity, library, school, unit, with_rolling


def _case(request: Any = None, own: Any = None, extra: Any = ()) -> Case:
    found = library(request, own, extra)
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


def _bars(case: Case) -> dict[str, str]:
    return {bar.activity: bar.said.says for bar in case.left_out}


def _like(name: str, **changes: Any) -> Any:
    (plain,) = (record for record in activities() if record.id == name)
    return msgspec.structs.replace(plain, **changes)


def test_the_small_school_has_nothing_left_out() -> None:
    """Everything that the class can do is a choice, in the order of ids."""
    case = _case()

    assert () == case.left_out + case.faults + case.notes
    assert sorted(record.id for record in activities()) == [choice.id for choice in case.problem.choices]


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        (
            _like("tap-ladder", grades=read_band("K-2")),
            "Tap Ladder is written for grade K-2, not for grade 3.",
        ),
        (
            _like("tap-ladder", equipment=(Need(item="net", count=2, per="pair"),)),
            "Tap Ladder needs 12 nets (there are 6) for 12 children.",
        ),
        (
            _like("tap-ladder", skills=(SkillStep(skill="dancing", step="sway"),)),
            "Tap Ladder trains none of the unit's skills and is written for skill, practice or game parts only.",
        ),
        (
            _like("tap-ladder", parts=("game",)),
            "Tap Ladder is written for game, which no lesson of the unit has.",
        ),
    ],
)
def test_why_an_activity_is_left_out(changed: Any, says: str) -> None:
    """An activity that the class cannot do is left out with a sentence that names the cause."""
    assert {"tap-ladder": says} == _bars(_case(extra=(changed,)))


@pytest.mark.parametrize(
    ("form", "says"),
    [("pairs", {}), ("fours", {"four": "Four is for fours, and the class has only one child."})],
)
def test_one_child_has_the_teacher_for_a_partner_but_no_group(form: Any, says: dict[str, str]) -> None:
    """A class of one child does things alone or with its teacher, not in fours."""
    own = school()
    alone = msgspec.structs.replace(own.classes[0], children=1)
    game = activity("four", "skill", step="up", organisation=Organisation(form=form))
    case = _case(own=msgspec.structs.replace(own, classes=(alone,)), extra=(game,))

    assert says == {name: said for name, said in _bars(case).items() if name == "four"}


def test_excluded_by_the_teacher() -> None:
    """An excluded activity is out, and what builds on it stays: the teacher takes it as known."""
    case = _case(unit(exclude=("wall-taps",)))

    assert {"wall-taps": "Wall Taps is excluded by the unit request."} == _bars(case)
    (net,) = (choice for choice in case.problem.choices if choice.id == "over-and-back")
    assert () == net.builds_on


def test_what_builds_on_a_left_out_activity_is_left_out_too() -> None:
    """Without the floor for Wall Taps there is no way to Over And Back either."""
    hall = msgspec.structs.replace(activities()[0].floor, length=read_length("9 m"), width=read_length("9 m"))
    big = _like("wall-taps", floor=hall)

    bars = _bars(_case(extra=(big,)))

    assert {"wall-taps", "over-and-back"} == bars.keys()
    assert bars["wall-taps"].startswith("Wall Taps does not fit into Gym: Only ")
    assert "Over And Back builds on Wall Taps, which does not fit the space." == bars["over-and-back"]


def test_a_circle_of_activities() -> None:
    """Two activities that build on each other are both left out; the records' own check names the circle."""
    bars = _bars(_case(extra=(_like("wall-taps", builds_on=("over-and-back",)),)))

    assert {"wall-taps", "over-and-back"} == bars.keys()
    assert "Wall Taps builds on Over And Back, which builds on it in turn." == bars["wall-taps"]


def test_what_waits_for_a_waiting_activity_is_not_called_a_circle() -> None:
    """Wall Count builds on Over And Back, which cannot come because Wall Taps is for other grades."""
    grades = _like("wall-taps", grades=read_band("4"))
    bars = _bars(_case(extra=(grades, _like("wall-count", builds_on=("over-and-back",)))))

    assert "Over And Back builds on Wall Taps, which is for other grades." == bars["over-and-back"]
    assert "Wall Count builds on Over And Back, which cannot be used either." == bars["wall-count"]


def test_what_younger_children_do_is_known() -> None:
    """An activity for younger grades only is taken as done before, so what builds on it may be used."""
    case = _case(extra=(_like("wall-taps", grades=read_band("K-2")),))

    assert ["wall-taps"] == [bar.activity for bar in case.left_out]


def _combined(grades: str) -> Any:
    """Return what bars Over And Back for grades 3 and 4 where Wall Taps is for ``grades``."""
    own = school()
    mixed = msgspec.structs.replace(own.classes[0], also_grades=("4",))
    case = _case(
        own=msgspec.structs.replace(own, classes=(mixed,)), extra=(_like("wall-taps", grades=read_band(grades)),)
    )
    return {bar.activity: bar.code for bar in case.left_out}


def test_what_the_younger_half_of_a_combined_class_did_before_is_known() -> None:
    """Grade 3 could do Wall Taps in grade 2 and grade 4 has outgrown it: what builds on it may be used."""
    assert {"wall-taps": "grade"} == _combined("2-3")
    assert {"wall-taps": "grade", "over-and-back": "builds-on"} == _combined("3-3")


def test_a_mastered_step_of_another_skill_makes_what_builds_on_it_possible() -> None:
    """Wall Taps trains rolling, which the unit does not; a class that masters rolling may do Over And Back."""
    rolling = SkillStep(skill="rolling", step="roll")
    known = with_rolling(library(unit(mastered=(rolling,)), None, (_like("wall-taps", skills=(rolling,)),)))
    case = set_up(known, known.units["taps"], known.schools["quillfeather"].school_class("heron"))

    assert {"wall-taps": "skill"} == {bar.activity: bar.code for bar in case.left_out}


def test_levels_count_from_what_is_mastered() -> None:
    """Steps up to the mastered one are level 0 and below; those still to learn count from 1."""
    case = _case(unit(mastered=(SkillStep(skill="tapping", step="down"),)))
    levels = {choice.id: choice.levels for choice in case.problem.choices}

    assert (Level(0, -1),) == levels["first-taps"]
    assert (Level(0, 0),) == levels["floor-taps"]
    assert (Level(0, 1),) == levels["wall-taps"]
    assert (Level(0, 2),) == levels["over-and-back"]
    assert (("To a wall", "Over a net"),) == case.steps


def test_a_step_that_nothing_teaches_is_passed_over() -> None:
    """Where no activity teaches a step, the next one follows the last, and a note says so."""
    gone = ("floor-taps", "tap-trails")
    case = _case(unit(exclude=gone))
    levels = {choice.id: choice.levels for choice in case.problem.choices}

    assert (Level(0, 2),) == levels["wall-taps"]
    assert ["No activity that can be used teaches the step “Tap down” of Tapping; it is passed over."] == [
        n.says for n in case.notes
    ]


def test_steps_that_nothing_teaches_are_said_together() -> None:
    """Of a skill whose first two steps no activity teaches there is one note."""
    case = _case(unit(exclude=("floor-taps", "tap-trails", "first-taps", "tap-ladder")))

    assert [
        "No activity that can be used teaches the steps “Tap up” and “Tap down” of Tapping; they are passed over."
    ] == [note.says for note in case.notes]


@pytest.mark.parametrize(
    "changes",
    [
        {"skills": (SkillStep(skill="tapping", step="down"), SkillStep(skill="tapping", step="net"))},
        {"builds_on": ("wall-taps",)},
    ],
)
def test_a_step_taught_only_by_what_waits_for_it_is_passed_over(changes: dict[str, Any]) -> None:
    """The one activity for the second step trains the last as well, or builds on the third: neither can ever come.

    Both wait for the second step, which nothing else teaches; without passing it over there would be no plan at all.
    """
    case = _case(unit(exclude=("tap-trails",)), extra=(_like("floor-taps", **changes),))
    levels = {choice.id: choice.levels for choice in case.problem.choices}
    says = (
        "No activity that can be used teaches the step “Tap down” of Tapping without one that comes after; "
        "it is passed over."
    )

    assert [says] == [note.says for note in case.notes]
    assert (Level(0, 2),) == levels["wall-taps"]
    assert (("Tap up", "To a wall", "Over a net"),) == case.steps


def test_the_version_for_the_grade_counts() -> None:
    """Minutes, groups and equipment are those of the version written for the class's grade."""
    version = Version(grades=read_band("3"), changes=("Longer",), minutes=Minutes(least=8, usual=9, most=12, setup=2))
    case = _case(extra=(_like("tap-ladder", versions=(version,)),))
    (ladder,) = (choice for choice in case.problem.choices if choice.id == "tap-ladder")

    assert Bounds(8, 9, 12, 2) == ladder.bounds


@pytest.mark.parametrize(
    ("changes", "rate"),
    [
        ({}, 100),
        ({"organisation": Organisation(form="pairs", at_once=1)}, 50),
        ({"organisation": Organisation(form="threes", at_once=1)}, 30),
        ({"effort": "rest"}, 0),
    ],
)
def test_the_moving_rate_is_rounded_down(changes: dict[str, Any], rate: int) -> None:
    """One of three moving is a third, counted as 30%: the grid is 5% and a plan never promises more than it keeps."""
    case = _case(extra=(_like("tap-ladder", **changes),))
    (ladder,) = (choice for choice in case.problem.choices if choice.id == "tap-ladder")

    assert rate == ladder.moving


def test_taking_turns_on_a_small_floor_halves_the_moving() -> None:
    """Where half of the pairs have floor at a time and the record says what the others do, the rate is halved."""
    pairs = Organisation(form="pairs")
    floor = msgspec.structs.replace(
        activities()[0].floor, length=read_length("6 m"), width=read_length("6 m"), if_more="Half count, then change."
    )
    small = _like("tap-ladder", organisation=pairs, floor=msgspec.structs.replace(floor, width=read_length("3 m")))

    case = _case(extra=(small,), own=school(equipment=(Owned(item="paddle", count=12), Owned(item="net", count=6))))
    (ladder,) = (choice for choice in case.problem.choices if choice.id == "tap-ladder")

    # A floor of 12 m by 10 m holds six rectangles of 6 m by 3 m: all six pairs.
    assert 100 == ladder.moving

    bigger = _like("tap-ladder", organisation=pairs, floor=msgspec.structs.replace(floor, width=read_length("4 m")))
    (ladder,) = (choice for choice in _case(extra=(bigger,)).problem.choices if choice.id == "tap-ladder")

    # It holds five of 6 m by 4 m, two lengthwise and three turned by a quarter above them: five of six pairs, 83% of
    # the time each, 80% on a grid of 5%.
    assert 80 == ladder.moving


def test_shapes_by_lesson() -> None:
    """A shape that names lessons is theirs; the one without numbers is for all others."""
    usual = unit().shapes[0]
    festival = Shape(title="Festival", lessons=(4,), parts=(ShapePart(part="game", least=2, most=3),))
    case = _case(unit(shapes=(usual, festival)))

    assert [0, 0, 0, 1] == [frame.shape for frame in case.problem.lessons]
    assert ["game"] == [part.part for part in case.problem.lessons[3].parts]


@pytest.mark.parametrize(
    ("changes", "field", "says"),
    [
        (
            {"pins": (Pin(lesson=9, activity="tap-ladder"),)},
            ("pins", 0, "lesson"),
            "A pin asks for lesson 9, but the unit has 4 lessons.",
        ),
        (
            {"pins": (Pin(lesson=1, activity="tap-leader"),)},
            ("pins", 0, "activity"),
            "A pin asks for tap-leader, but there is no such activity.",
        ),
        (
            {"shapes": (Shape(title="First", lessons=(1, 2, 3), parts=(ShapePart(part="skill"),)),)},
            ("shapes",),
            "Lesson 4 has no shape; a shape without lesson numbers is for all other lessons.",
        ),
        (
            {"start": "2027-06-10"},
            ("lessons",),
            "The unit needs 4, but 1 lesson is left for Grade 3 Heron from 2027-06-10 to the last day of school, "
            "2027-06-11.",
        ),
    ],
)
def test_a_senseless_request(changes: dict[str, Any], field: tuple[Any, ...], says: str) -> None:
    """A request that contradicts itself is a fault at its own field."""
    faults = _case(unit(**changes)).faults

    assert [("unit", "taps", field, says)] == [(f.kind, f.record, f.field, f.says) for f in faults]


def test_further_outcomes_are_of_the_grade() -> None:
    """Outcomes of grade 3 that some activity practises, aims aside, are further ones; other grades' are not."""
    extra = _like("tap-ladder", outcomes={"made-up": {"T3.3": ("practised",), "T1.2": ("practised",)}})
    case = _case(extra=(extra,))

    assert ["T3.3"] == [case.outcome(outcome) for outcome in case.problem.further]


@pytest.mark.parametrize(("family", "further"), [("manipulative", []), ("locomotor", ["T3.3"])])
def test_what_a_foreign_warm_up_serves_is_not_asked_for(family: str, further: list[str]) -> None:
    """A warm-up with another unit's sticks is no reason to have an outcome; one that only moves is."""
    stick = SkillStep(skill="sticks", step="roll")
    warm_up = _like("line-hops", skills=(stick,), outcomes={"made-up": {"T3.3": ("practised",)}})
    found = library(extra=(warm_up,))
    steps = (Step(id="roll", title="Roll", means=""),)
    skill = msgspec.structs.replace(found.skills["tapping"], id="sticks", family=family, steps=steps)
    known = replace(found, skills={**found.skills, "sticks": skill})
    case = set_up(known, known.units["taps"], known.schools["quillfeather"].school_class("heron"))

    assert further == [case.outcome(outcome) for outcome in case.problem.further]


def test_an_activity_without_skill_serves_an_aim() -> None:
    """A game that names no skill may stand in a game part if it serves an aim, and not otherwise."""
    shapes = (Shape(title="Play", parts=(ShapePart(part="game"),)),)
    kind = activity("kind-words", "game", serves={"T2.3": ("practised",)})
    other = activity("long-road", "game", serves={"T3.3": ("practised",)})
    case = _case(unit(shapes=shapes), extra=(kind, other))

    assert "kind-words" in [choice.id for choice in case.problem.choices]
    assert "long-road" in _bars(case)
