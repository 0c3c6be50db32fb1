"""Equipment over stations, lessons, a day and a year; stand-ins shared out as well as can be; what to buy."""

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.buying import to_buy
from lessonkit.logistics.equipment import (
    clash_says,
    clashes,
    lesson_need,
    needed,
    peaks,
    shortages,
)
from lessonkit.logistics.equipment_day import Turn, changes, item_counted, out_at_once
from lessonkit.logistics.stand_ins import allot
from lessonkit.records.equipment import Item, StandIn
from lessonkit.records.measures import read_band
from lessonkit.records.school import Calendar, Owned, School

from .floors import activity

ITEMS = {
    "ball": Item(
        id="ball", title="ball", plural="balls", stand_ins=(StandIn(item="bag"), StandIn(use="a rolled pair of socks"))
    ),
    "bag": Item(id="bag", title="beanbag", plural="beanbags", grades=read_band("K-2")),
    "cone": Item(id="cone", title="cone", plural="cones"),
    "tape": Item(id="tape", title="floor tape", plural="floor tape", unit="roll"),
}


def school(**owned: int) -> School:
    """Return a school that owns so many of each item."""
    return School(
        kind="school",
        id="s",
        title="School",
        time_zone="America/Chicago",
        spaces=(),
        equipment=tuple(Owned(item=item, count=count) for item, count in owned.items()),
        classes=(),
        calendar=Calendar(first_day="2026-08-31", last_day="2027-06-11"),
    )


def test_parts_take_the_most_and_what_stays_out_adds_up() -> None:
    """Stations need 6 + 4 balls; the game after them 8. Left where they are, the stations' 10 and the game's 8 are 18.

    Counted by hand.
    """
    parts = [[{"ball": 6}, {"ball": 4, "cone": 2}], [{"ball": 8}]]

    assert {"ball": 10, "cone": 2} == lesson_need(parts)
    assert {"ball": 18, "cone": 2} == lesson_need(parts, left_out={0})
    assert {"ball": 10, "cone": 2} == lesson_need(parts, left_out={1})
    assert {} == lesson_need([])


def test_stations_are_counted_for_the_children_at_them() -> None:
    """Needs of an activity without equipment add up to nothing, whatever the children."""
    plain = activity(2, 2, 0)

    assert {} == needed(plain, 7)


def test_a_year_s_peak_names_its_lesson() -> None:
    """The most over all lessons, and the first lesson that needs it (by hand)."""
    lessons = [("Lesson 1", {"ball": 6}), ("Lesson 2", {"ball": 12, "cone": 4}), ("Lesson 3", {"ball": 12})]

    assert {"ball": (12, "Lesson 2"), "cone": (4, "Lesson 2")} == peaks(lessons)


def test_one_item_in_two_places_at_once_is_said() -> None:
    """Six and eight balls are 14, and there are 12 (by hand); cones suffice."""
    stations = [("Wall Talk", {"ball": 6, "cone": 1}), ("Tap Bank", {"ball": 8, "cone": 1}), ("Hoops", {"hoop": 40})]
    (clash,) = clashes(stations, school(ball=12, cone=2))

    assert "Balls are in use at Wall Talk (6) and Tap Bank (8) at the same time: 14, and there are 12." == clash_says(
        clash, "balls"
    )
    (none_owned,) = clashes(stations[:2], school(cone=2))
    assert clash_says(none_owned, "balls").endswith("14, and there are none.")


@settings(deadline=None)
@given(
    missing=st.dictionaries(st.sampled_from("abcd"), st.integers(1, 9), min_size=1),
    offers=st.fixed_dictionaries({item: st.lists(st.sampled_from("wxyz"), unique=True) for item in "abcd"}),
    spare=st.dictionaries(st.sampled_from("wxyz"), st.integers(0, 9)),
)
def test_stand_ins_cover_as_much_as_a_maximum_flow(
    missing: dict[str, int], offers: dict[str, list[str]], spare: dict[str, int]
) -> None:
    """As much is covered as networkx's maximum flow from what is missing to what is free; nothing is used twice."""
    graph = networkx.DiGraph()
    graph.add_nodes_from(("from", "to"))
    graph.add_edges_from((("from", ("m", item), {"capacity": count}) for item, count in missing.items()))
    graph.add_edges_from((("m", item), ("s", other)) for item in missing for other in offers[item])
    graph.add_edges_from(((("s", other), "to", {"capacity": count}) for other, count in spare.items()))
    graph.add_edges_from((("s", other), "to", {"capacity": 0}) for other in "wxyz" if other not in spare)
    used = allot(missing, offers, spare)
    by_item = {item: sum(count for _, count in taken) for item, taken in used.items()}

    assert networkx.maximum_flow_value(graph, "from", "to") == sum(by_item.values())
    assert all(by_item[item] <= missing[item] for item in missing)
    for other in "wxyz":
        assert sum(dict(taken).get(other, 0) for taken in used.values()) <= spare.get(other, 0)


def test_a_stand_in_passes_on_what_another_needs_more() -> None:
    """One could take w or x, two only w: both are served when one takes x (by hand)."""
    used = allot({"one": 3, "two": 3}, {"one": ("w", "x"), "two": ("w",)}, {"w": 3, "x": 3})

    assert {"one": (("x", 3),), "two": (("w", 3),)} == used


def test_a_stand_in_must_suit_the_grade() -> None:
    """Beanbags of the catalogue are for K to 2 here: they stand in in grade 2, not in grade 3."""
    owned = school(ball=20, bag=30)
    (second,) = shortages({"ball": 25}, owned, ITEMS, "2")
    (third,) = shortages({"ball": 25}, owned, ITEMS, "3")

    assert (("bag", 5),) == second.stand_ins and 0 == second.still_short
    assert () == third.stand_ins and 5 == third.still_short


def test_what_to_buy_is_what_nothing_stands_in_for() -> None:
    """30 needed, 20 owned, 7 beanbags standing in: three to buy, and socks until then (by hand)."""
    (purchase,) = to_buy(shortages({"ball": 30}, school(ball=20, bag=7), ITEMS), ITEMS)

    assert ("ball", 3) == (purchase.item, purchase.count)
    assert (
        "Buy 3 balls (30 needed, 20 owned, 7 beanbags standing in); until then use a rolled pair of socks."
        == purchase.says
    )
    assert () == to_buy(shortages({"ball": 25}, school(ball=20, bag=7), ITEMS), ITEMS)


def test_an_empty_cupboard_has_a_sentence_for_everything() -> None:
    """Nothing owned: everything is to buy."""
    bought = to_buy(shortages({"ball": 2, "tape": 1}, school(), ITEMS), ITEMS)

    assert [
        "Buy 2 balls (2 needed, none owned); until then use a rolled pair of socks.",
        "Buy 1 roll of floor tape (1 needed, none owned).",
    ] == [purchase.says for purchase in bought]


def turns(*lessons: tuple[int, int, dict[str, int]]) -> list[Turn]:
    """Return the turns of a day from (begins, ends, needs)."""
    return [Turn(begins, ends, needs) for begins, ends, needs in lessons]


def test_classes_back_to_back_leave_out_what_both_need() -> None:
    """25 balls, then 20 balls and 4 cones: 20 stay, 5 go, 4 come; then nothing changes (by hand)."""
    day = turns((0, 30, {"ball": 25}), (30, 60, {"ball": 20, "cone": 4}), (60, 90, {"ball": 20, "cone": 4}))

    assert ({"ball": 25}, {"ball": -5, "cone": 4}, {}) == changes(day)
    assert {"ball": 25, "cone": 4} == out_at_once(day)
    assert () == changes([])


def test_classes_at_the_same_time_do_not_share_their_equipment() -> None:
    """The second class meets beside the first, so its balls come out besides; the third takes from the 26 (by hand)."""
    day = turns((0, 60, {"ball": 20}), (30, 90, {"ball": 6, "drum": 1}), (60, 90, {"ball": 8}))

    assert ({"ball": 20}, {"ball": 6, "drum": 1}, {"ball": -12}) == changes(day)
    assert {"ball": 26, "drum": 1} == out_at_once(day)


@pytest.mark.parametrize(
    ("item", "count", "words"),
    [("cone", 1, "1 cone"), ("cone", 6, "6 cones"), ("tape", 2, "2 rolls of floor tape"), ("kite", 3, "3 kite")],
)
def test_items_are_counted_in_their_unit(item: str, count: int, words: str) -> None:
    """A roll is bought by the roll; an item that no catalogue has keeps its id."""
    assert words == item_counted(item, count, ITEMS)
