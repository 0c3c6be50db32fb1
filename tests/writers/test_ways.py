"""Ways bend gently where their author meant a bend, and stop at whoever stands at their ends."""

from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessonkit.writers.ways import Standing, length, smooth, trim, without_end

NUMBERS = st.floats(0, 20).map(lambda number: round(number, 2))


def test_a_gentle_bend_becomes_a_curve_through_its_points() -> None:
    """A way of three points that turns by 27 degrees gets points between, and keeps its own."""
    way = ((0.0, 0.0), (2.0, 0.0), (4.0, 1.0))
    drawn = smooth(way)

    assert len(drawn) > len(way)
    assert set(way) <= set(drawn)
    # A Catmull-Rom curve ends in its last point, and half-way of a symmetric piece lies half-way.
    assert (way[0], way[-1]) == (drawn[0], drawn[-1])


@pytest.mark.parametrize(
    "way", [((0.0, 0.0), (2.0, 0.0)), ((0.0, 0.0), (2.0, 2.0), (0.0, 4.0)), ((1.0, 1.0), (1.0, 1.0))]
)
def test_straight_ways_and_corners_stay(way: tuple[tuple[float, float], ...]) -> None:
    """A ball that comes back from a wall, or a zigzag, turns sharply on purpose."""
    assert way == smooth(way)


def test_the_middle_of_a_curve_is_where_the_formula_says() -> None:
    """Catmull and Rom 1974 with tension one half: at half-way (-p0 + 9 p1 + 9 p2 - p3) / 16."""
    way = ((0.0, 0.0), (1.0, 0.2), (2.0, 0.2), (3.0, 0.0))
    drawn = smooth(way)
    middle = drawn[8 + 4]

    assert (pytest.approx((-0 + 9 * 1 + 9 * 2 - 3) / 16), pytest.approx((9 * 0.2 + 9 * 0.2) / 16)) == middle


def test_a_way_stops_at_the_edge_of_a_child() -> None:
    """From one child to another, each 0.3 m from middle to edge and with a gap of 0.1 m, 4 m leave 3.2 m."""
    trimmed = trim(((0.0, 0.0), (4.0, 0.0)), Standing([(0.0, 0.0, 0.3), (4.0, 0.0, 0.3), (2.0, 0.0, 0.3)]), 0.1)

    assert pytest.approx(3.2, abs=0.001) == length(trimmed)
    assert pytest.approx(0.4, abs=0.001) == trimmed[0][0]


def test_a_way_that_is_hardly_longer_than_the_symbol_stays() -> None:
    """Where cutting would leave next to nothing, the way is drawn whole."""
    assert ((0.0, 0.0), (0.4, 0.0)) == trim(((0.0, 0.0), (0.4, 0.0)), Standing([(0.0, 0.0, 0.3), (0.4, 0.0, 0.3)]), 0.1)


@given(
    points=st.lists(st.tuples(NUMBERS, NUMBERS), min_size=2, max_size=6),
    radius=st.floats(0.01, 1),
)
def test_no_end_reaches_into_a_symbol_or_the_way_is_whole(points: list[tuple[float, float]], radius: float) -> None:
    """Cutting never makes a way longer, and what is left of a cut end is outside."""
    way = tuple(points)
    cut = without_end(way, way[-1], radius)

    assert length(cut) <= length(way) + 1e-3
    assert way[0] == cut[0]
    assert cut == way or dist(cut[-1], way[-1]) >= radius - 1e-3 or len(cut) == 2
