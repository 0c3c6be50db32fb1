"""The order inside a part and the split of minutes."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from lessonkit.planning.order import ranks, split_evenly, with_assessments
from lessonkit.planning.problem import Bounds, Choice, Goal, LessonFrame, Level, PartFrame, Placed, Problem, Schedule

_ANY = Bounds(3, 5, 8)


def test_what_others_build_on_comes_first() -> None:
    """Ranks put a base before what builds on it, then lower steps before higher ones, then ids in order."""
    choices = (
        Choice("d", ("skill",), _ANY, builds_on=(3,)),
        Choice("b", ("skill",), _ANY, levels=(Level(0, 2),)),
        Choice("a", ("skill",), _ANY, levels=(Level(0, 3),)),
        Choice("c", ("skill",), _ANY, levels=(Level(0, 2),)),
    )

    assert ["b", "c", "d", "a"] == [choices[n].id for n in sorted(range(4), key=ranks(choices).__getitem__)]


def test_a_circle_has_no_order() -> None:
    """Activities that build on each other cannot be ranked."""
    choices = (Choice("a", ("skill",), _ANY, builds_on=(1,)), Choice("b", ("skill",), _ANY, builds_on=(0,)))

    with pytest.raises(ValueError, match="in a circle"):
        ranks(choices)


def test_extra_minutes_are_shared() -> None:
    """Four minutes more are two each; an activity that is full leaves its share to the others."""
    assert [7, 7] == split_evenly([_ANY, _ANY], 4)
    assert [6, 8] == split_evenly([Bounds(5, 5, 6), _ANY], 4)
    assert [4, 3] == split_evenly([Bounds(4, 5, 8), _ANY], -3)


@settings(max_examples=100, deadline=None)
@given(
    spans=some.lists(some.tuples(some.integers(0, 4), some.integers(0, 4)), min_size=1, max_size=5),
    data=some.data(),
)
def test_a_split_keeps_its_sum_and_its_limits(spans: list[tuple[int, int]], data: some.DataObject) -> None:
    """Any change that fits within all limits together is split within each limit, all in one direction."""
    bounds = [Bounds(5 - down, 5, 5 + up) for down, up in spans]
    change = data.draw(some.integers(-sum(down for down, _ in spans), sum(up for _, up in spans)))

    minutes = split_evenly(bounds, change)

    assert 5 * len(bounds) + change == sum(minutes)
    assert all(each.least <= length <= each.most for each, length in zip(bounds, minutes, strict=True))
    assert abs(change) == sum(abs(length - 5) for length in minutes)


def test_too_much_change_is_refused() -> None:
    """Minutes beyond every limit are a fault of the caller."""
    with pytest.raises(ValueError, match="do not fit"):
        split_evenly([_ANY], 4)


def test_assessments_come_late() -> None:
    """An aim to be assessed once, after one lesson of practice, is assessed in the last lesson that can."""
    choices = (
        Choice("tests", ("skill",), _ANY, practises=(0,), assesses=(0,)),
        Choice("other", ("skill",), _ANY, practises=(0,)),
    )
    frame = LessonFrame(5, (PartFrame("skill"),))
    problem = Problem((frame,) * 3, choices, ("A",), (Goal(0, 1, 1, 1),), ranks=(0, 1))
    plan = Schedule(((Placed(0, 0, 5),), (Placed(0, 0, 5),), (Placed(1, 0, 5),)))

    assert [(), (0,), ()] == [lesson[0].assess for lesson in with_assessments(problem, plan).lessons]


@pytest.mark.parametrize(
    ("times", "taught", "expected"),
    [
        (1, 0, [7]),
        (2, 0, [3, 7]),
        (3, 0, [2, 5, 7]),
        (2, 1, [7]),
        (9, 0, [1, 2, 3, 5, 6, 7]),
    ],
)
def test_several_assessments_are_spread(times: int, taught: int, expected: list[int]) -> None:
    """Of lessons 1, 2, 3, 5, 6 and 7 that can assess the last does; even parts of seven say which others do."""
    choices = (Choice("tests", ("skill",), _ANY, practises=(0,), assesses=(0,)), Choice("drills", ("skill",), _ANY))
    lesson = LessonFrame(5, (PartFrame("skill"),))
    first = LessonFrame(5, (PartFrame("skill"),), taught=(Placed(0, 0, 5, assess=(0,) * taught),))
    problem = Problem((first, *[lesson] * 7), choices, ("A",), goals=(Goal(0, 0, times, 0),), ranks=(0, 1))
    rows = tuple((Placed(int(n in (0, 4)), 0, 5),) for n in range(8))

    found = with_assessments(problem, Schedule(rows)).lessons

    assert expected == [number for number, (item,) in enumerate(found) if item.assess]
