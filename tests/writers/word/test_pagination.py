"""Pages are counted as a program would lay them out."""

import pytest

from lessonkit.document.model import Block, Cell, Contents, Document, Heading, PageBreak, Paragraph, Table, text
from lessonkit.writers.word.page import page
from lessonkit.writers.word.pagination import fill_pages
from lessonkit.writers.word.pagination_letters import LINE, UNITS, fixed_units, units
from lessonkit.writers.word.pagination_looks import read_looks
from lessonkit.writers.word.pagination_pieces import Piece, stacked
from lessonkit.writers.word.styles import styles_part
from lessonkit.writers.word.writer import numbered, pages, safe_pages

LINE_OF_TEXT = 220
"""Twentieths of a point: nine points of Carlito, 2500 of 2048 units high (its hhea table), rounded."""


def document(*blocks: Block) -> Document:
    """Return a document of blocks on Letter paper, whose text is 14300 twentieths of a point high."""
    return Document("", "", "", "", "2026-01-01", blocks)


def lines(count: int) -> list[Block]:
    """Return paragraphs of one line each."""
    return [Paragraph(text("A line.")) for _ in range(count)]


@pytest.mark.parametrize(
    ("words", "bold", "width"),
    [
        ("a", False, 981),
        ("W", False, 1822),
        ("a", True, 1011),
        ("Class", False, 4145),
        ("\u00a0", False, 463),
        ("", False, 0),
        ("\u4e00", False, 2048),
        ("e\u0301", False, 1019),
    ],
)
def test_letters_have_the_widths_of_the_font(words: str, bold: bool, width: int) -> None:
    """Advance widths of Carlito Regular and Bold (hmtx table); East Asian signs are an em wide, accents nothing."""
    assert width == units(words, bold)


def test_typewriter_letters_are_all_alike() -> None:
    """Consolas has 0.55 em (from memory): 1126 of 2048 units."""
    assert 3 * 1126 == fixed_units("iWm")


def test_a_line_has_the_height_of_the_font() -> None:
    """Ascent 1536, descent 512 and line gap 452 of Carlito's hhea table."""
    assert (1536 + 512 + 452, 2048) == (LINE, UNITS)


@pytest.mark.parametrize(("count", "expected"), [(1, 1), (54, 1), (55, 1), (56, 2), (110, 2), (111, 3)])
def test_lines_fill_pages(count: int, expected: int) -> None:
    """A page of 14300 holds n lines where 220 n + 40 (n - 1), the larger of two distances, and 40 above are no more.

    The first line of the document keeps the distance above it, those that begin a later page lose it.
    """
    assert expected == pages(document(*lines(count)))
    assert 40 + 55 * LINE_OF_TEXT + 54 * 40 <= 14300 < 40 + 56 * LINE_OF_TEXT + 55 * 40


def test_long_words_and_paragraphs_break() -> None:
    """A paragraph of many words takes many lines; so does one word without a place to break."""
    assert 2 == pages(document(Paragraph(text("word " * 1600))))
    assert 2 == pages(document(Paragraph(text("w" * 6000))))


def test_a_page_break_begins_a_page() -> None:
    """Each break, and each heading that asks for it, is another page."""
    blocks = [*lines(1), PageBreak(), *lines(1), Heading(1, text("New"), "new", new_page=True), *lines(1)]

    assert 3 == pages(document(*blocks))


def test_a_heading_stays_with_what_follows() -> None:
    """A heading that would end a page moves to the next with its paragraph."""
    contents = Contents(((1, "Late", "late", 0),))
    fits = numbered(document(contents, *lines(50), Heading(2, text("Late"), "late"), *lines(1)))
    moved = numbered(document(contents, *lines(52), Heading(2, text("Late"), "late"), *lines(1)))

    assert [1, 2] == [
        block.rows[0][3] for found in (fits, moved) for block in found.blocks if isinstance(block, Contents)
    ]


def test_rows_stay_whole_and_heads_repeat() -> None:
    """Rows of four lines (4 x 220, margins of 90, a hairline of 10) below a head of 298: fourteen a page, then again.

    980 n + 298 is at most 14300 for n = 14.
    """
    head = (Cell((Paragraph(text("Head")),)),)
    row = (Cell(tuple(Paragraph(text("Line")) for _ in range(4))),)

    assert [1, 2, 2, 3] == [pages(document(Table((head, *[row] * count), (1,), "T"))) for count in (14, 15, 28, 29)]


def test_room_to_spare_makes_more_pages() -> None:
    """What just fits no longer does with a line to spare."""
    full = document(*lines(55))

    assert (1, 2) == (pages(full), safe_pages(full))


def test_what_is_counted_stays() -> None:
    """A total or a page that somebody gave is not counted again."""
    contents = Contents(((1, "There", "there", 7), (1, "Nowhere", "nowhere", 0)))
    given = Document("", "", "", "", "2026-01-01", (contents, Heading(1, text("There"), "there")), pages=9)
    block = numbered(given).blocks[0]

    assert isinstance(block, Contents)
    assert ([7, 0], 9) == ([row[3] for row in block.rows], numbered(given).pages)


def test_distances_do_not_add_up() -> None:
    """Between two paragraphs the larger distance counts (ECMA-376 leaves it open; Word and LibreOffice do so)."""
    assert 10 + 5 + 10 + 3 == stacked([Piece((10,), after=5), Piece((10,), before=4, after=3)])


@pytest.mark.parametrize(
    ("pieces", "expected"),
    [
        ((Piece((60,)), Piece((50,))), 2),
        ((Piece((60,)), Piece((40,))), 1),
        ((Piece((60,), after=9), Piece((40,))), 2),
        ((Piece((60,)), Piece((10,), keep_next=True, whole=True), Piece((40,))), 2),
        ((Piece((10,) * 5), Piece((10,) * 8)), 2),
        ((Piece((90,)), Piece((10,) * 4)), 2),
        ((Piece((250,), whole=True),), 3),
        ((Piece((10,), new_page=True), Piece((10,), new_page=True)), 2),
    ],
)
def test_pieces_fill_pages_of_a_hundred(pieces: tuple[Piece, ...], expected: int) -> None:
    """Worked by hand: what does not fit moves on whole, or in parts of two lines at least."""
    assert expected == fill_pages(pieces, 100).total


def test_looks_come_from_the_styles_themselves() -> None:
    """A style stands behind the one it is based on: a heading on a new page is a heading that begins a page."""
    looks = read_looks(styles_part(page("letter", False), "en-US"))
    heading, twin = looks.paragraphs["Heading1"], looks.paragraphs["Heading1Page"]

    assert (40, True, True, False) == (heading.size, heading.bold, heading.keep_next, heading.new_page)
    assert (40, True, True, True) == (twin.size, twin.bold, twin.keep_next, twin.new_page)
    assert {"bold": True} == looks.marks["Strong"]
    assert 170 == looks.tables["OpenTable"].right
