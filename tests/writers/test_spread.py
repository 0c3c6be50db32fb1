"""Marks of a floor plan are as large as there is room for, and never touch."""

from dataclasses import replace

import pytest

from lessonkit.document.scene import Area, Label, Scene, Symbol, Way
from lessonkit.writers.forms import LEAST_LABELLED, way_ink
from lessonkit.writers.settle import settle
from lessonkit.writers.spread import half_of, spread
from tests.document.scenes import lessons
from tests.writers.crowded_plans import LESSON_WIDTH, covering_lines, outside, touching


def row(count: int, apart: float, width: float = 20.0) -> Scene:
    """Return children in a row, ``apart`` metres from each other."""
    places = [1 + apart * place for place in range(count)]
    return Scene(width, 4, tuple(Symbol(x, 2, "child", "child", str(place)) for place, x in enumerate(places, 1)))


def test_no_marks_of_the_curriculum_touch() -> None:
    """No plan of a lesson's page is crowded, and nothing reaches out of the room; every third plan is looked at."""
    for name, scene in lessons()[::3]:
        scale = LESSON_WIDTH / scene.width
        settled = settle(scene, scale)

        assert [] == touching(scene, settled, scale), name
        assert [] == outside(settled, scale), name
        assert [] == covering_lines(settled, scale), name


def test_children_have_numbers_where_these_have_room() -> None:
    """Three metres apart there is room for circles of ten points, half a metre apart there is not."""
    roomy, crowded = (spread(row(3, apart), 10) for apart in (3.0, 0.5))

    assert ["1", "2", "3"] == [symbol.label for symbol in roomy]
    assert [None] * 3 == [symbol.label for symbol in crowded]
    assert all(half_of(symbol, 10)[0] >= LEAST_LABELLED for symbol in roomy)


def test_all_groups_of_a_plan_are_drawn_alike() -> None:
    """One crowded group makes the marks of all groups smaller, so that a child looks the same all over a plan."""
    groups = (Area(0, 0, 8, 4, "group", "1"), Area(10, 0, 8, 4, "group", "2"))
    lone, crowd = Symbol(14, 2, "child", "child", "9"), row(4, 0.6).shapes
    drawn = spread(Scene(20, 4, (*groups, lone, *crowd)), 8)

    assert 1 == len({half_of(symbol, 8) for symbol in drawn})


def test_marks_stay_in_the_space_of_their_group() -> None:
    """What stands at a corner is moved inside, so that the marks of two neighbours cannot meet."""
    corners = ((2, 1), (2, 3), (4, 1), (4, 3))
    shapes = (Area(2, 1, 2, 2, "group", "1"), *(Symbol(x, y, "cone", "cone") for x, y in corners))
    drawn = spread(Scene(8, 4, shapes), 12)

    for cone in drawn:
        across, up = (half / 12 for half in half_of(cone, 12))
        assert 2 <= cone.x - across and cone.x + across <= 4
        assert 1 <= cone.y - up and cone.y + up <= 3


def test_a_child_stays_on_its_spot() -> None:
    """What is meant to stand on something is not pushed off it."""
    scene = Scene(8, 4, (Symbol(3, 2, "spot", "spot"), Symbol(3, 2, "child", "child", "1")))
    spot, child = spread(scene, 12)

    assert (spot.x, spot.y) == (child.x, child.y)
    assert half_of(spot, 12) > half_of(child, 12)


@pytest.mark.parametrize(("needed", "drawn"), [(True, ["door"]), (False, [])])
def test_words_that_may_be_left_out_cover_no_line(needed: bool, drawn: list[str]) -> None:
    """Where dashed lines are all around, a label that is not needed gives way; one that is finds the best place."""
    lines = tuple(Area(0.5 * place, 0, 0.5, 4, "group", str(place)) for place in range(16))
    scene = Scene(8, 4, (*lines, Label(4, 2, "door", "small", clear=0.1, needed=needed)))

    assert drawn == [shape.words for shape in settle(scene, 12).shapes if isinstance(shape, Label)]


def test_ways_are_thin_beside_small_marks() -> None:
    """An arrow among crowded marks is no thicker than they can bear, and as thick as ever among others."""
    way = Way(((1, 1), (4, 1)), "ball", "ball")
    thin = []
    for apart in (3.0, 0.5):
        scene = row(3, apart)
        drawn = settle(replace(scene, shapes=(*scene.shapes, way)), 10)
        thin.extend(shape.thin for shape in drawn.shapes if isinstance(shape, Way))

    assert 1.0 == thin[0] > thin[1]
    assert way_ink("ball", thin[1]).thick < way_ink("ball", 1.0).thick
