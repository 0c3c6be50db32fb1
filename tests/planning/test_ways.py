"""Ways out that change what a unit trains, where it is taught, how its lessons are built; several changes at once."""

from typing import Any

import msgspec
import pytest

from lessonkit.planning.asked import changed
from lessonkit.planning.build import build
from lessonkit.planning.case import Case
from lessonkit.planning.kin import kindred
from lessonkit.planning.precheck import precheck
from lessonkit.planning.request_changes import request_changes
from lessonkit.planning.room_changes import room_changes
from lessonkit.planning.setup import set_up
from lessonkit.planning.solve import feasible
from lessonkit.planning.ways import Way, ways_out
from lessonkit.records.activity import Activity, Need, SkillStep
from lessonkit.records.measures import read_length
from lessonkit.records.school import School
from lessonkit.records.unit import Aim, Circuit, Repeats, Shape, ShapePart

from .school_records import activities, activity, library, school, unit, with_rolling


def _case(request: Any = None, own: Any = None, extra: tuple[Activity, ...] = ()) -> Case:
    found = with_rolling(library(request, own, extra))
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


def _first(case: Case) -> str:
    return next(said.says for said in precheck(case))


def _says(case: Case) -> list[str]:
    return [way.said.says for way in ways_out(case)]


def _rollers() -> tuple[Activity, ...]:
    """Return activities that train rolling and build on one of tapping."""
    roll = (SkillStep(skill="rolling", step="roll"),)
    return tuple(activity(f"roll-{n}", "skill", "practice", skills=roll, builds_on=("first-taps",)) for n in range(8))


def test_a_skill_of_kin_makes_up_for_too_few_activities() -> None:
    """With two activities for six lessons it helps that the unit trains rolling, too, which builds on tapping."""
    gone = ("floor-taps", "tap-trails", "wall-taps", "wall-count", "over-and-back")
    closings = tuple(activity(f"calm-{n}", "closing", minutes=(3, 4, 6, 0), effort="rest") for n in range(6))
    starts = tuple(activity(f"start-{n}", "warm-up", minutes=(3, 4, 6, 0)) for n in range(6))
    request = unit(exclude=gone, lessons=6, aims=(Aim(code="T1.3"),))
    case = _case(request, extra=(*_rollers(), *closings, *starts))

    assert "The unit needs 6 activities for the practice, but the 2 that fit may be used 4 times in all" in _first(case)
    assert ("rolling",) == kindred(case.library, ("tapping",), ("3",))
    assert "Let the unit train Rolling as well." in _says(case)


def test_a_part_that_is_missing_is_named_where_others_build_on_it() -> None:
    """Wall Taps is for the skill part only; a shape without one learns that it would help to have it."""
    walls = tuple(
        msgspec.structs.replace(each, parts=("skill",))
        if each.id == "wall-taps"
        else msgspec.structs.replace(each, builds_on=("wall-taps",), skills=())
        for each in activities()
        if "practice" in each.parts
    )
    usual = unit().shapes[0].parts
    case = _case(unit(shapes=(Shape(title="Short", parts=(usual[0], usual[2], usual[3])),), exclude=()), extra=walls)
    (said,) = precheck(case)

    assert said.says.endswith(
        "What they build on is missing: Wall Taps is written for skill, which no lesson of the unit has."
    )


def test_minutes_that_all_activities_together_cannot_fill() -> None:
    """Four lessons of 30 minutes are 120; what may be used once cannot fill them, and the sentence counts it."""
    found = precheck(_case(unit(repeats=Repeats(most=1), lessons=3, exclude=("tap-trails", "wall-count"))))
    long = precheck(_case(unit(lessons=4, exclude=("tap-trails", "wall-count", "over-and-back", "wall-taps"))))

    assert all("minutes to fill" not in said.says for said in found)
    assert [
        "The unit has 120 minutes to fill, but the 3 activities for its skill, practice and game parts fill 66 at most,"
        " used in 2 lessons each, and the other parts 48 (4 excluded)."
    ] == [said.says for said in long if "minutes to fill" in said.says]


def test_activities_that_all_lessons_together_need() -> None:
    """Thirty minutes, less six each for warm-up and closing, take two of eleven minutes: eight in four lessons.

    Seven may be used once each; their 77 minutes alone would do for the 72 that are left.
    """
    calm = (3, 4, 6, 0)
    more = tuple(activity(f"{part}-more", part, minutes=calm, effort="rest") for part in ("warm-up", "closing"))
    usual = unit().shapes[0].parts
    shape = Shape(title="Usual lesson", parts=(usual[0], usual[2], usual[3]))

    assert (
        "To fill its minutes the unit needs 8 activities in the practice part, 2 in each lesson,"
        " but the 7 that fit may be used 7 times in all."
    ) == _first(_case(unit(shapes=(shape,), repeats=Repeats(most=1)), extra=more))


def test_another_space_is_a_way_out() -> None:
    """What is too big for the gym fits the yard: the way out stands at the class's space in the school's record."""
    big = msgspec.structs.replace(activities()[0].floor, length=read_length("11 m"), width=read_length("10 m"))
    wide = tuple(
        msgspec.structs.replace(each, floor=big, organisation=activities()[0].organisation)
        for each in activities()
        if "skill" in each.parts
    )
    own = school()
    yard = msgspec.structs.replace(own.spaces[1], length=read_length("90 m"), width=read_length("60 m"))
    ways = ways_out(_case(own=msgspec.structs.replace(own, spaces=(own.spaces[0], yard)), extra=wide))
    (way,) = (way for way in ways if way.said.says == "Teach in Yard instead of Gym.")

    assert ("school", ("classes", 0, "space")) == (way.said.kind, way.said.field)


def _stations(number: int) -> tuple[Activity, ...]:
    paddle = (Need(item="paddle", count=1, per="child"),)
    return tuple(
        activity(f"post-{n}", "practice", step="up", serves={"T1.3": ("practised",)}, station=True, equipment=paddle)
        for n in range(number)
    )


def test_a_circuit_with_too_few_stations_may_have_fewer_or_repeat_them() -> None:
    """Three activities can be stations; a circuit of four cannot be filled, one of three can."""
    usual = unit().shapes[0].parts
    circuit = ShapePart(part="practice", circuit=Circuit(stations=4, work=5, change=1))
    shape = Shape(title="Stations", parts=(usual[0], circuit, usual[3]))
    request = unit(shapes=(shape,), aims=(Aim(code="T1.3"),), lessons=2, repeats=Repeats(most=2, apart=0))

    assert "Set up 3 stations of “Stations” instead of 4." in _says(_case(request, extra=_stations(3)))


def _tried(case: Case, ways: tuple[Way, ...]) -> list[bool | None]:
    """Tell for the changes of a way whether they do together, and then without each of them in turn."""
    known = {change.said: change for change in (*request_changes(case), *room_changes(case))}
    (way,) = (way for way in ways if way.also)
    sentences = (way.said, *way.also)

    def possible(left_out: int | None) -> bool | None:
        made = [known[said] for number, said in enumerate(sentences) if number != left_out]
        new = changed(case, made)
        return not precheck(new) and feasible(build(new.problem, kinds=("required",)).model)

    return [possible(None), *(possible(number) for number in range(len(sentences)))]


def _with_a_store() -> School:
    """Return the school with a store as well, too small for any activity, that is the last space to be thought of."""
    own = school()
    store = msgspec.structs.replace(own.spaces[0], id="store", title="Zigzag Store", length=read_length("1 m"))
    return msgspec.structs.replace(own, spaces=(*own.spaces, store))


def test_changes_that_only_help_together() -> None:
    """An aim that nothing serves and a pinned last step in lesson 1: no single change mends both, two together do.

    A room that nothing fits into is not thought of together with other changes, which it would all undo.
    """
    request = unit(aims=(Aim(code="T3.3"), Aim(code="T2.3")), moving=100)
    case = _case(request, _with_a_store())
    ways = ways_out(case)
    first, *rest = _tried(case, ways)

    assert first is True
    assert len(rest) > 1
    assert not any(rest)


@pytest.mark.parametrize("lessons", [5, 3])
def test_a_final_lesson_stays_final(lessons: int) -> None:
    """A shape for the last lesson moves with the unit's length."""
    shape = unit().shapes[0]
    case = _case(unit(shapes=(shape, msgspec.structs.replace(shape, title="Last", lessons=(4,)))))
    (way,) = (c for c in request_changes(case) if c.said.says == f"Plan {lessons} lessons instead of 4.")
    new = changed(case, [way])

    assert [0] * (lessons - 1) + [1] == [place.shape for place in new.places]
