"""Station cards: a large picture, words that are read from across the room, one page each."""

from dataclasses import replace
from functools import cache, partial

import pytest
from msgspec import structs

from lessonkit.document.close_up import Frame, close_up
from lessonkit.document.floor_plan import group_scene
from lessonkit.document.model import Block, Document, Drawing, Heading, PageBreak, Paragraph, Role, Text, plain
from lessonkit.document.pieces import bound
from lessonkit.document.poster_words import POINTS, UPRIGHT, width_of
from lessonkit.document.scene import HALVES, Area, Label, Scene, Segment, Symbol
from lessonkit.document.station_cards import station_activities, station_cards, station_numbers
from lessonkit.document.wall_labels import POINTS as POINTS_IN_PICTURES
from lessonkit.document.wall_labels import label_width
from lessonkit.writers.forms import FORMS, LABEL_POINTS
from lessonkit.writers.letters import words_width
from lessonkit.writers.options import SchoolLook
from lessonkit.writers.settle import settle
from lessonkit.writers.word.pagination_letters import UNITS, units
from lessonkit.writers.word.writer import pages, safe_pages
from tests.document.printed import walk
from tests.document.sheet_plans import plan_facts
from tests.writers.word.school_files import letterhead

FRAME = Frame(518.0, 331.0)
CASES = [("K", "letter"), ("5", "a4")]
MILLIMETRES = 0.63 * 25.4 / 72
"""Height of a capital for each point of its size: sCapHeight 1294 of 2048 in Carlito's OS/2 table."""


@cache
def cards(klass: str, paper: str) -> Document:
    """Return the cards of a class of 36."""
    made = station_cards(plan_facts(klass, 36, paper), safe_pages)
    assert made is not None
    return made


def _pictures(document: Document) -> list[Drawing]:
    return [block for block in document.blocks if isinstance(block, Drawing)]


def _cards(document: Document) -> list[list[Block]]:
    """Return the blocks of every card."""
    found: list[list[Block]] = [[]]
    for block in document.blocks:
        if isinstance(block, PageBreak):
            found.append([])
        else:
            found[-1].append(block)
    return found


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_a_card_is_one_page_with_a_large_picture(klass: str, paper: str) -> None:
    """A picture takes the whole width of its page, and on most cards about half of its height."""
    pictures = _pictures(cards(klass, paper))
    heights = [picture.scene.depth / picture.scene.width for picture in pictures]

    assert pages(cards(klass, paper)) == len(station_activities(plan_facts(klass, 36, paper))) == len(pictures)
    assert {1.0} == {picture.width for picture in pictures}
    assert min(heights) >= 0.4
    assert sum(height >= 0.64 for height in heights) >= 0.5 * len(heights)


def test_cards_in_a_schools_own_letters_have_room_to_spare() -> None:
    """On a letterhead every card is one page, even if each of its paragraphs were a letter longer."""
    facts, look = plan_facts("K"), SchoolLook(letterhead())
    made = station_cards(facts, partial(safe_pages, look=look), own_letters=True)
    assert made is not None
    longer = tuple(
        replace(block, content=(*block.content, Text("n"))) if isinstance(block, Paragraph | Heading) else block
        for block in made.blocks
    )

    assert len(station_activities(facts)) == pages(replace(made, blocks=longer), look=look)


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_everything_has_its_place(klass: str, paper: str) -> None:
    """On every card stand a title, the picture, the cues and then what a child counts, one below the other."""
    for title, picture, *words in _cards(cards(klass, paper)):
        keys = [block.key.split("/")[2] for block in words if isinstance(block, Paragraph) and block.key]

        assert isinstance(title, Heading)
        assert isinstance(picture, Drawing)
        assert len(words) == len(keys)
        assert sorted(keys) == keys
        assert {"cues"} <= set(keys) <= {"cues", "measured"}


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_a_card_is_read_from_three_metres(klass: str, paper: str) -> None:
    """Capitals of 12 mm in most cues, of 9 mm in all: a 250th and a 333rd of 3 m.

    Letters of a 200th to a 400th of the distance are read (common practice, no source).
    """
    sizes = [
        POINTS[block.role] * MILLIMETRES
        for block in walk(cards(klass, paper).blocks)
        if isinstance(block, Paragraph) and block.role in POINTS and len(block.content) == 1
    ]

    assert min(sizes) >= 9
    assert 3 * sum(size >= 12 for size in sizes) >= 2 * len(sizes)


def test_words_are_not_wider_than_they_are_taken_for() -> None:
    """Carlito's own bold letters are the measure: a word that is thought to go into a column does."""
    words = {word for each in station_activities(plan_facts("5")) for cue in each.cues for word in cue.split()}

    assert words
    assert [] == [each for each in words if units(each, True) / UNITS * 54 > width_of(each, Role.POSTER)]


def test_a_short_last_word_is_not_alone() -> None:
    """A word of up to four letters and signs stays on the line of the word before it."""
    said = [plain(bound(each)) for each in ("Shake hands with it", "Strong arms", "Tiptoe gently", "Up")]

    assert ["Shake hands with\u00a0it", "Strong\u00a0arms", "Tiptoe gently", "Up"] == said


@pytest.mark.parametrize(("klass", "paper"), CASES)
def test_words_in_a_picture_cover_nothing(klass: str, paper: str) -> None:
    """Writers, who move words that would cover a way, a line, a thing or other words, leave all of them in place."""
    for picture in _pictures(cards(klass, paper)):
        scene = picture.scene
        drawn = settle(scene, (UPRIGHT[paper] - 4) / scene.width)

        assert _labels(scene) == _labels(drawn)


def _labels(scene: Scene) -> list[Label]:
    return [shape for shape in scene.shapes if isinstance(shape, Label)]


def test_a_card_shows_its_things_close_up() -> None:
    """Every thing of the drawing stays, inside a frame of the shape that is asked for, without words about it."""
    whole = group_scene(station_activities(plan_facts("K"))[0], "metres")
    near = close_up(whole, FRAME).scene
    frame = next(shape for shape in near.shapes if isinstance(shape, Area))
    things = [shape for shape in near.shapes if isinstance(shape, Symbol)]

    assert [shape.name for shape in whole.shapes if isinstance(shape, Symbol)] == [shape.name for shape in things]
    assert all(0 <= shape.x <= frame.width and frame.y <= shape.y <= near.depth for shape in things)
    assert FRAME.height / FRAME.width == pytest.approx(frame.depth / frame.width, abs=0.001)
    assert () == near.legend


def test_words_in_a_picture_are_read_from_three_metres() -> None:
    """Labels of 36 points give capitals of 8 mm, a 375th of 3 m; a word too long for a person stands beside it."""
    person = Symbol(1, 1, "child", "child", "catcher")
    near = close_up(Scene(3, 3, (person, Label(2, 1, "bell", "small", clear=0.3))), FRAME).scene
    words = {shape.words: shape.size for shape in near.shapes if isinstance(shape, Label)}

    assert {"catcher": "wall", "bell": "wall"} == words
    assert LABEL_POINTS["wall"] * MILLIMETRES >= 8
    assert [None] == [shape.label for shape in near.shapes if isinstance(shape, Symbol)]


def test_a_number_stands_in_a_child_where_it_is_read_from_three_metres() -> None:
    """Two children six metres apart are drawn 18 mm wide, the floor between them shorter; in a crowd they are not."""
    pair = close_up(Scene(7, 2, tuple(Symbol(x, 1, "child", "child", "A") for x in (0.5, 6.5))), FRAME).scene
    crowd = close_up(Scene(7, 2, tuple(Symbol(x / 2, 1, "child", "child", "A") for x in range(1, 14))), FRAME).scene

    assert FRAME.width / pair.width * 0.52 * 25.4 / 72 >= 18
    assert ["A", "A"] == [shape.label for shape in pair.shapes if isinstance(shape, Symbol)]
    assert 13 == len(_labels(crowd))


def test_a_tall_drawing_is_turned_with_its_wall_to_the_right() -> None:
    """What lies far in a drawing three times as deep as wide lies right in its picture, what lies left lies far."""
    wall, child, ball = (
        Segment(0, 6, 2, 6, "wall", "wall"),
        Symbol(0.5, 1, "child", "child"),
        Symbol(1, 4, "ball", "ball"),
    )
    scene = close_up(Scene(2, 6, (wall, child, ball)), FRAME).scene
    stands = next(shape for shape in scene.shapes if isinstance(shape, Segment))
    near, far = (shape for shape in scene.shapes if isinstance(shape, Symbol))

    assert scene.width == stands.x1 == stands.x2
    assert near.x < far.x
    assert near.y > far.y


def test_a_long_thing_lies_whole_in_its_picture() -> None:
    """A mat is drawn 1.4 metres long: its picture reaches 0.7 metres to both sides of its middle, and some more."""
    scene = Scene(4, 4, (Symbol(2, 2, "mat", "mat"), Symbol(3, 2, "child", "child")))
    (mat, _) = (shape for shape in close_up(scene, FRAME).scene.shapes if isinstance(shape, Symbol))

    assert mat.x >= FORMS["mat"].half_width


def test_things_are_taken_for_as_large_as_they_are_drawn() -> None:
    """The forms of writers, and the widths of letters that they go by, are the measure."""
    assert {what: (form.half_width, form.half_height) for what, form in FORMS.items()} == HALVES
    assert words_width("Mat, bell & swift", POINTS_IN_PICTURES) == label_width("Mat, bell & swift")


def test_a_card_bears_its_number_where_all_circuits_agree() -> None:
    """Of two circuits a station that changes its place has no number, and one outside of any has none."""
    facts = plan_facts("5")
    slots = facts.lessons[0].slots
    one, other, third = (replace(slot, slot=structs.replace(slot.slot, station=1, part="skill")) for slot in slots[:3])
    first, second = (replace(facts.lessons[0], slots=circuit) for circuit in ((one, other), (third, other)))
    again = replace(facts.lessons[0], slots=(other, third))

    assert {one.activity.id: 1, other.activity.id: 2, third.activity.id: 1} == station_numbers(
        replace(facts, lessons=(first, second))
    )
    assert {one.activity.id: 1} == station_numbers(replace(facts, lessons=(first, second, again)))
