"""The web page holds the whole document, is well formed, and fetches nothing."""

import re
from dataclasses import replace

import pytest
from lxml import html as reader

from lessonkit.document.model import (
    Block,
    Cell,
    Document,
    Drawing,
    Heading,
    Link,
    ListBlock,
    PageBreak,
    Paragraph,
    Role,
    Table,
    Text,
    text,
)
from lessonkit.document.rotation_map import wall_map
from lessonkit.writers.html import write

from .sample_lesson import binder_document


def page(*blocks: Block) -> Document:
    """Return a document of a few blocks."""
    return Document(title="T & t", subject="S", author="A", footer="F", date="2027-01-05", blocks=blocks)


def words(content: bytes) -> str:
    """Return the words of a page as an independent reader sees them."""
    return " ".join(reader.fromstring(content.decode()).text_content().split())


def test_text_is_text_whatever_it_looks_like() -> None:
    """Angle brackets and ampersands are words, not tags (source: HTML standard, syntax of text)."""
    content = write(page(Paragraph(text("a <b> & c"))))

    assert "a <b> & c" in words(content)
    assert b"<b>" not in content


def test_headings_tables_and_lists_have_their_own_tags() -> None:
    """A reader without eyes finds headings, header cells and list items."""
    table = Table(
        ((Cell((Paragraph(text("Step")),)),), (Cell((Paragraph(text("One")),)),)), (1.0,), "Steps", row_header=True
    )
    tree = reader.fromstring(
        write(page(Heading(1, text("Top"), "top"), table, ListBlock(((Paragraph(text("x")),),), start=4))).decode()
    )

    assert ["Top"] == tree.xpath("//h1[@id='top']/text()")
    assert ["col"] == tree.xpath("//thead//th/@scope")
    assert ["row"] == tree.xpath("//tbody//th/@scope")
    assert ["Steps"] == tree.xpath("//caption/text()")
    assert ["4"] == tree.xpath("//ol/@start")


def test_a_page_break_is_carried_by_the_next_block() -> None:
    """The print style starts a page there."""
    tree = reader.fromstring(write(page(Paragraph(text("a")), PageBreak(), Paragraph(text("b"), Role.KICKER))).decode())

    assert ["b"] == tree.xpath("//p[contains(@class, 'new-page')]/text()")


def test_links_lead_where_they_should() -> None:
    """Inside the page and outside it."""
    inside, outside = Link((Text("in"),), "#top"), Link((Text("out"),), "https://example.org/?a=1&b=2")
    lost = Link((Text("lost"),), "#nowhere")
    tree = reader.fromstring(write(page(Heading(1, text("Top"), "top"), Paragraph((inside, outside, lost)))).decode())

    assert ["#top", "https://example.org/?a=1&b=2"] == tree.xpath("//a/@href")


def test_the_same_document_gives_the_same_page_and_fetches_nothing() -> None:
    """No script, no style sheet, no picture from elsewhere."""
    content = write(binder_document())

    assert content == write(binder_document())
    assert not re.search(rb"<script|<link|@import|url\((?!#)|<img", content)
    assert b'lang="en-US"' in content


def test_no_two_parts_of_a_page_share_a_name() -> None:
    """Identities are unique and without white space; every link inside leads to one (source: HTML standard)."""
    tree = reader.fromstring(write(binder_document()).decode())
    names = tree.xpath("//@id")
    targets = {target[1:] for target in tree.xpath("//a/@href") if target.startswith("#")}

    assert len(set(names)) == len(names)
    assert not any(re.search(r"\s", name) for name in names)
    assert targets <= set(names)


def test_rows_to_write_in_are_tall_and_ruled() -> None:
    """A row's least height stands in its tag, and the style sheet draws lines around its cells, on paper too."""
    row = tuple(Cell((Paragraph(text(words)),), shaded=words == "b") for words in "ab")
    table = Table((row, row), (1, 1), "Rows", row_height=24.0)
    page = write(Document("Title", "", "", "", "", (table,))).decode()

    assert 1 == page.count('<tr class="tall" style="height:24pt">')
    assert ".tall > *, .shaded { border: 1px solid" in page
    assert "print-color-adjust: exact" in page


def test_lists_side_by_side_stand_below_each_other_on_a_telephone() -> None:
    """Two cells without lines around them, but not one, are parted where the screen is narrow."""
    cell = Cell((Paragraph(text("x")),))
    two, one = (write(page(Table(((cell,) * n,), (1,) * n, "T", header_rows=0, plain=True))) for n in (2, 1))

    assert b'<div class="beside"><table' in two
    assert b'class="beside"' not in one
    assert b".beside :is(table, tbody, tr, td) { display: block;" in two


@pytest.mark.parametrize(
    ("shares", "header_rows", "height", "expected"),
    [
        ((8.5, 91.5), 1, 0.0, b'<table class="lead">'),
        ((20, 80), 1, 0.0, b"<table>"),
        ((8, 42, 50), 1, 0.0, b'<table class="top">'),
        ((24, 54, 22), 1, 0.0, b"<table>"),
        ((10, 15) * 4, 0, 22.0, b'<table class="pairs">'),
        ((30, 30, 40), 0, 22.0, b"<table>"),
        ((10, 90), 1, 22.0, b"<table>"),
    ],
)
def test_a_narrow_column_is_not_squeezed_on_a_telephone(
    shares: tuple[float, ...], header_rows: int, height: float, expected: bytes
) -> None:
    """Minutes and codes stand above what they lead, labels before their room to write; others keep their columns."""
    rows = (tuple(Cell((Paragraph(text("x")),)) for _ in shares),) * 2
    table = Table(rows, shares, "T", header_rows=header_rows, row_header=header_rows > 0, row_height=height)
    made = write(page(table))

    assert expected in made
    assert b'class="wide"' not in made


def test_a_drawing_stands_below_what_is_beside_it_on_a_telephone() -> None:
    """Two cells below their heads, one with a drawing, are shown as head, words, head, drawing; lists are not."""
    words_only, drawing = Cell((Paragraph(text("x")),)), Cell((Drawing(wall_map(2, 300), "Map"),))
    drawn, plain_cells = (
        write(page(Table(((words_only,) * 2, (words_only, last)), (6, 4), "T"))) for last in (drawing, words_only)
    )

    assert b'<table class="drawn">' in drawn
    assert b'class="drawn"' not in plain_cells


def test_a_drawing_on_a_lying_sheet_is_set_for_its_width() -> None:
    """On the map for the wall the words of all four squads stand at one height, in the boxes where they begin."""
    made = write(replace(page(Drawing(wall_map(4, 680), "Map")), landscape=True)).decode()
    heights = re.findall(r'<text x="[0-9.]+" y="([0-9.]+)"[^>]*>squad [1-4]<', made)

    assert 4 == len(heights)
    assert 1 == len(set(heights))
