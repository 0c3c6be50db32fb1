"""What was given up of a wish, said in as few sentences as can be."""

from typing import Any

import pytest

from lessonkit.planning.case import Case, lessons_named
from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Placed, Schedule
from lessonkit.planning.reasons import given_up, reasons
from lessonkit.planning.registry import BY_CODE
from lessonkit.planning.sequence import Options, search
from lessonkit.planning.setup import set_up
from lessonkit.records.activity import SkillStep
from lessonkit.records.unit import Unit

from .school_records import activity, library, unit


def _case(request: Unit | None = None, *extra: Any) -> Case:
    found = library(request, None, extra)
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


def test_each_wish_is_said_shortly() -> None:
    """Four lessons of standing are one sentence, and so is everything that comes back twice."""
    case = _case()
    plan, _ = search(case.problem, Options())
    assert plan is not None
    says = {wish.wish: wish.says for wish in given_up(case, plan)}

    assert 1 == len(says["moving"])
    assert [True] * 4 == [f"lesson {number}" in says["moving"][0] for number in (1, 2, 3, 4)]
    assert says["moving"][0].startswith("A child stands, waits or watches for about ")
    assert 1 == len(says["variety"])
    assert says["variety"][0].startswith("In 2 lessons")
    assert all(":" in each for each in says.get("usual-minutes", ("minutes: none",)))


@pytest.mark.parametrize(
    ("numbers", "says"),
    [
        ((1,), "lesson 2"),
        ((2, 1), "lessons 2 and 3"),
        ((0, 1, 2, 3, 5), "lessons 1 to 4 and 6"),
        ((0, 2, 4, 5), "lessons 1, 3, 5 and 6"),
    ],
)
def test_lessons_are_named_by_their_runs(numbers: tuple[int, ...], says: str) -> None:
    """Three and more lessons in a row are said from the first to the last, others one by one."""
    assert says == lessons_named(numbers)


def _together(code: str, *instances: Instance) -> tuple[str, ...]:
    say = BY_CODE[code].together
    assert say is not None
    return say(instances, _case())


def test_a_skill_ahead_for_several_lessons_is_said_once() -> None:
    """Of three lessons after which a skill is one step ahead there is one sentence, and one of being two behind."""
    ahead = [Instance("rising-challenge", (0, lesson, "ahead")) for lesson in (0, 1, 2)]

    assert (
        "Tapping is 1 step ahead of a steady rise after lessons 1 to 3.",
        "Tapping is 2 steps behind a steady rise after lesson 4.",
    ) == _together("rising-challenge", *ahead, Instance("rising-challenge", (0, 3, "behind"), 2))


def test_stretches_without_an_aim_are_said_once() -> None:
    """Two stretches side by side without an aim are one stretch to a reader."""
    stretches = [Instance("spacing", (0, 0, 1)), Instance("spacing", (0, 2, 3)), Instance("spacing", (1, 1, 1))]

    assert ("T1.3 is not practiced in lessons 1 to 4.", "T2.3 is not practiced in lesson 2.") == _together(
        "spacing", *stretches
    )


def test_the_steps_of_an_activity_are_said_together() -> None:
    """An activity of two mastered and two new steps: a sentence each, and next time they are practised further."""
    steps = tuple(SkillStep(skill="tapping", step=step) for step in ("up", "down", "wall", "net"))
    known = unit(mastered=(SkillStep(skill="tapping", step="down"),))
    case = _case(known, activity("all-taps", "skill", skills=steps))
    number = [choice.id for choice in case.problem.choices].index("all-taps")
    lesson = (Placed(number, 1, 7),)
    first, again, *_ = reasons(case, Schedule((lesson, lesson, (), ()))).places

    mastered = "It reviews steps that the class has mastered."
    assert (mastered, "It takes the class to new steps, “To a wall” and “Over a net”.") == first.says[:2]
    assert (mastered, "It practices the steps “To a wall” and “Over a net” further.") == again.says[:2]
