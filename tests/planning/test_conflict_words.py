"""A conflict said in as few sentences as can be."""

import pytest

from lessonkit.planning.case import Case
from lessonkit.planning.conflict import Conflict, Demand
from lessonkit.planning.conflict_words import in_words
from lessonkit.planning.linear import Instance
from lessonkit.planning.registry import BY_CODE
from lessonkit.planning.setup import set_up

from .school_records import library

_WARM_UP, _SKILL, _, _CLOSING = range(4)


@pytest.fixture(scope="module")
def case() -> Case:
    """Return the case of the small school."""
    found = library()
    return set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))


def _says(case: Case, *groups: tuple[Instance, ...]) -> list[str]:
    demands = tuple(Demand(BY_CODE[group[0].term].say(group[0], case), group) for group in groups)
    return [said.says for said in in_words(Conflict(demands, True), case)]


def test_steps_in_a_row_are_one_chain(case: Case) -> None:
    """Three steps after one another are one sentence; a step apart from them stays a sentence of its own."""
    down, wall, net = ((Instance("skill-order", (0, 0, level)),) for level in (2, 3, 4))

    assert ["“Tap up”, “Tap down” and “To a wall” come in this order."] == _says(case, wall, down)
    assert ["“Tap down” comes after “Tap up”.", "“Over a net” comes after “To a wall”."] == _says(case, net, down)


def test_what_lessons_must_have_is_one_sentence(case: Case) -> None:
    """The parts of the same lessons and their minutes are said together, those of another lesson by themselves."""
    warm_up = (Instance("shape", (1, _WARM_UP)), Instance("shape", (2, _WARM_UP)))
    closing = (Instance("shape", (1, _CLOSING)), Instance("shape", (2, _CLOSING)))
    minutes = (Instance("minutes", (1,)), Instance("minutes", (2,)))
    other = (Instance("shape", (0, _SKILL)),)

    assert [
        "Lessons 2 and 3 have 1 activity in the warm-up and 1 activity in the closing, and are filled to the minute:"
        " 30 minutes, set-up included.",
        "Lesson 1 has 1 activity in the skill part.",
    ] == _says(case, minutes, closing, warm_up, other)


def test_activities_that_come_back_too_often_are_named_together(case: Case) -> None:
    """Up to four activities are named, and how many more there are."""
    most = tuple(Instance("repeats", (number, "most")) for number in range(6))
    apart = tuple(Instance("repeats", (number, "apart")) for number in range(2))
    names = [case.activity(number) for number in range(4)]

    assert [
        f"{', '.join(names)} and 2 more are used in at most 2 lessons of the unit each.",
        f"{names[0]} and {names[1]} come back only after 1 lesson without them.",
    ] == _says(case, most, apart)
