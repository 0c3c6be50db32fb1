"""Station cards: a large picture, words that are read from across the room, one page each."""

from collections.abc import Iterator
from functools import cache

import pytest

from lessonkit.document.close_up import close_up
from lessonkit.document.floor_plan import group_scene
from lessonkit.document.model import Document, Drawing, Paragraph, Role, Table, plain
from lessonkit.document.pieces import bound
from lessonkit.document.poster_words import POINTS, width_of
from lessonkit.document.scene import Label, Scene, Symbol
from lessonkit.document.station_cards import station_activities, station_cards
from lessonkit.writers.forms import FORMS
from lessonkit.writers.word.pagination_letters import UNITS, units
from lessonkit.writers.word.writer import pages, safe_pages
from tests.document.printed import walk
from tests.document.sheet_plans import plan_facts

CASES = [("K", "letter"), ("5", "a4")]
MILLIMETRES = 0.63 * 25.4 / 72
"""Height of a capital for each point of its size: sCapHeight 1294 of 2048 in Carlito's OS/2 table."""


@cache
def cards(klass: str, paper: str) -> Document:
    """Return the cards of a class of 36."""
    made = station_cards(plan_facts(klass, 36, paper), safe_pages)
    assert made is not None
    return made


def _pictures(document: Document) -> Iterator[float]:
    """Yield the larger side of every picture as a share of the page's width."""
    for block in document.blocks:
        if isinstance(block, Drawing):
            yield block.width * _longer(block)
        elif isinstance(block, Table):
            (drawn,) = (inner for inner in block.rows[0][0].blocks if isinstance(inner, Drawing))
            yield drawn.width * block.shares[0] / sum(block.shares) * _longer(drawn)


def _longer(drawn: Drawing) -> float:
    return max(1.0, drawn.scene.depth / drawn.scene.width)


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_a_card_is_one_page_with_a_large_picture(klass: str, paper: str) -> None:
    """Across or down a picture takes at least a third of the width of its page."""
    pictures = list(_pictures(cards(klass, paper)))

    assert pages(cards(klass, paper)) == len(station_activities(plan_facts(klass, 36, paper))) == len(pictures)
    assert min(pictures) >= 0.33


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_a_card_is_read_from_three_metres(klass: str, paper: str) -> None:
    """Capitals of 12 mm (4 mm a metre: common practice, no source) in most cues, and of 9 mm in all."""
    sizes = [
        POINTS[block.role] * MILLIMETRES
        for block in walk(cards(klass, paper).blocks)
        if isinstance(block, Paragraph) and block.role in POINTS and len(block.content) == 1
    ]

    assert min(sizes) >= 9
    assert sum(size >= 12 for size in sizes) >= 0.75 * len(sizes)


def test_words_are_not_wider_than_they_are_taken_for() -> None:
    """Carlito's own bold letters are the measure: a word that is thought to go into a column does."""
    words = {word for each in station_activities(plan_facts("5")) for cue in each.cues for word in cue.split()}

    assert words
    assert [] == [each for each in words if units(each, True) / UNITS * 54 > width_of(each, Role.POSTER)]


def test_a_short_last_word_is_not_alone() -> None:
    """A word of up to four letters and signs stays on the line of the word before it."""
    said = [plain(bound(each)) for each in ("Shake hands with it", "Strong arms", "Tiptoe gently", "Up")]

    assert ["Shake hands with\u00a0it", "Strong\u00a0arms", "Tiptoe gently", "Up"] == said


def test_a_card_shows_its_things_close_up() -> None:
    """Every thing of the drawing stays, inside a frame that is smaller than the space of the group."""
    whole = group_scene(station_activities(plan_facts("K"))[0], "metres")
    near = close_up(whole)
    things = [shape for shape in near.shapes if isinstance(shape, Symbol)]

    assert [shape.name for shape in whole.shapes if isinstance(shape, Symbol)] == [shape.name for shape in things]
    assert all(0 <= shape.x <= near.width and 0 <= shape.y <= near.depth for shape in things)
    assert near.width * near.depth < whole.width * whole.depth
    assert () == near.legend


def test_words_in_a_picture_are_as_large_as_words_in_drawings_come() -> None:
    """Labels of 26 points give capitals of 6 mm; a word too long for a person stands beside it."""
    person = Symbol(1, 1, "child", "child", "catcher")
    near = close_up(Scene(3, 3, (person, Label(2, 1, "bell", "small", clear=0.3))))
    words = {shape.words: shape.size for shape in near.shapes if isinstance(shape, Label)}

    assert {"catcher": "poster", "bell": "poster"} == words
    assert [None] == [shape.label for shape in near.shapes if isinstance(shape, Symbol)]


def test_a_long_thing_lies_whole_in_its_picture() -> None:
    """A mat is drawn 1.4 metres long: its picture reaches 0.7 metres to both sides of its middle, and some more."""
    scene = Scene(4, 4, (Symbol(2, 2, "mat", "mat"), Symbol(3, 2, "child", "child")))
    (mat, _) = (shape for shape in close_up(scene).shapes if isinstance(shape, Symbol))

    assert mat.x >= FORMS["mat"].half_width
