"""Words of a drawing keep off each other and off symbols, at every size on paper."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.document.scene import Area, Label, Scene, Shape, Symbol, Way
from lessonkit.records.activity import Thing
from lessonkit.writers.forms import FORMS, LABEL_POINTS
from lessonkit.writers.letters import words_width
from lessonkit.writers.settle import settle
from lessonkit.writers.spread import half_of
from tests.document.scenes import groups, lessons

Frame = tuple[float, float, float, float]


def frame(shape: Symbol | Label, scale: float) -> Frame:
    """Return the box of a symbol or of words on paper, in points."""
    if isinstance(shape, Symbol):
        across, up = half_of(shape, scale)
    else:
        points = LABEL_POINTS[shape.size]
        across, up = words_width(shape.words, points) / 2, points / 2
    x, y = shape.x * scale, shape.y * scale
    return x - across, y - up, x + across, y + up


def covered(scene: Scene, scale: float) -> list[tuple[str, str]]:
    """Return the words that cover other words or a symbol."""
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]
    symbols = [shape for shape in scene.shapes if isinstance(shape, Symbol)]
    found = []
    for number, label in enumerate(labels):
        for other in (*labels[:number], *symbols):
            one, two = frame(label, scale), frame(other, scale)
            if one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]:
                found.append((label.words, getattr(other, "words", "") or getattr(other, "name", "")))
    return found


@pytest.mark.parametrize("width", [150.0, 215.0, 504.0])
def test_no_words_of_the_curriculum_cover_anything(width: float) -> None:
    """Every plan and every set-up, as narrow as a column of a card and as wide as a page."""
    for name, scene in (*lessons(), *groups()):
        scale = width / scene.width
        assert [] == covered(settle(scene, scale), scale), name


def test_no_words_of_the_curriculum_are_left_out() -> None:
    """At the width of a card's column there is room for every label."""
    for name, scene in groups():
        wanted = sum(
            isinstance(shape, Label) or (isinstance(shape, Symbol) and len(shape.label or "") > 2)
            for shape in scene.shapes
        )

        assert wanted == sum(isinstance(shape, Label) for shape in settle(scene, 215 / scene.width).shapes), name


@settings(deadline=None, max_examples=60)
@given(
    things=st.lists(
        st.tuples(
            st.sampled_from(sorted(FORMS)), st.floats(0, 8), st.floats(0, 5), st.sampled_from(("", "7", "captain", "A"))
        ),
        max_size=25,
    ),
    labels=st.lists(
        st.tuples(st.floats(0, 8), st.floats(0, 5), st.sampled_from(("gate", "a long name", "x"))), max_size=8
    ),
    scale=st.floats(10, 80),
)
def test_no_words_ever_cover_anything(
    things: list[tuple[Thing, float, float, str]], labels: list[tuple[float, float, str]], scale: float
) -> None:
    """However crowded a floor is."""
    shapes: list[Shape] = [Symbol(x, y, what, what, label or None) for what, x, y, label in things]
    shapes += [Label(x, y, words, "small", clear=0.2) for x, y, words in labels]

    assert [] == covered(settle(Scene(8, 5, tuple(shapes)), scale), scale)


def test_words_stand_beside_what_they_name() -> None:
    """With room on all sides a label stands right below its cone, closer than a line's height."""
    settled = settle(Scene(4, 4, (Symbol(2, 2, "cone", "cone", "gate"),)), 50)
    symbol, label = settled.shapes

    assert isinstance(symbol, Symbol) and symbol.label is None
    assert isinstance(label, Label) and "gate" == label.words
    assert (2, 1.5) == (label.x, pytest.approx(label.y, abs=0.2))


def test_numbers_stay_inside_their_child_and_words_do_not() -> None:
    """Two digits fit a child; a role of five letters stands beside it."""
    settled = settle(Scene(4, 4, (Symbol(1, 1, "child", "one", "25"), Symbol(3, 3, "child", "two", "clock"))), 50)

    assert ["25", None] == [shape.label for shape in settled.shapes if isinstance(shape, Symbol)]
    assert ["clock"] == [shape.words for shape in settled.shapes if isinstance(shape, Label)]


@pytest.mark.parametrize("scale", [9.0, 50.0])
def test_a_ball_in_the_hand_is_seen(scale: float) -> None:
    """A ball drawn under its child moves to the child's edge."""
    settled = settle(Scene(9, 9, (Symbol(2, 2, "child", "child", "1"), Symbol(2.1, 2, "ball", "ball"))), scale)
    child, ball = settled.shapes
    assert isinstance(child, Symbol) and isinstance(ball, Symbol)
    reach = half_of(child, scale)[0] + half_of(ball, scale)[0]

    assert (2 + reach / scale, 2) == (pytest.approx(ball.x, abs=0.001), ball.y)


def test_symbols_at_an_edge_are_drawn_whole() -> None:
    """A target on the wall is not cut by the edge of the drawing."""
    (target,) = settle(Scene(4, 4, (Symbol(2, 4, "target", "target"),)), 50).shapes

    assert isinstance(target, Symbol)
    assert 4 - FORMS["target"].half_height == target.y


def test_a_way_ends_at_a_child_and_inside_a_hoop() -> None:
    """The arrow stops short of a child, and goes on into a hoop."""
    way = Way(((1.0, 2.0), (3.0, 2.0)), "ball", "ball")
    ends = {}
    for what in ("child", "hoop"):
        scene = Scene(4, 4, (way, Symbol(3, 2, what, what)))  # type: ignore[arg-type]
        (drawn,) = [shape for shape in settle(scene, 50).shapes if isinstance(shape, Way)]
        ends[what] = drawn.points[-1][0]

    assert 3.0 == ends["hoop"]
    assert 3 - FORMS["child"].half_width - 1.5 / 50 == pytest.approx(ends["child"], abs=0.001)


def test_everything_else_stays_as_it_is() -> None:
    """Areas keep their order and place, and settling twice changes nothing."""
    scene = Scene(4, 4, (Area(0, 0, 4, 4, "room", "room"), Symbol(1, 1, "cone", "cone"), Label(2, 3, "words")))
    once = settle(scene, 40)

    assert scene.shapes[:2] == once.shapes[:2]
    assert once == settle(once, 40)
