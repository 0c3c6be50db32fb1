"""What no validator sees: numbers, names and widths that must agree inside a Word file."""

import re

import pytest
from lxml import etree

from lessonkit.writers.options import Options
from lessonkit.writers.word.page import page
from lessonkit.writers.word.writer import write

from ..sample_lesson import binder_document, lesson_document
from .test_schemas import OPTIONS
from .word_parts import MC, W14, WP, WPS, A, parts, tree, values, w

_OPTIONS = pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS)


@_OPTIONS
def test_every_style_named_in_the_text_exists(options: Options) -> None:
    """Paragraph, character and table styles of the body, the footer and the styles themselves are all defined."""
    written = parts(write(binder_document(), options))
    styles = etree.fromstring(written["word/styles.xml"])
    defined = {(style.get(w("type")), style.get(w("styleId"))) for style in styles.iter(w("style"))}
    used = set()
    for name in ("word/document.xml", "word/footer1.xml"):
        root = etree.fromstring(written[name])
        used |= {("paragraph", value) for value in values(root, "pStyle")}
        used |= {("character", value) for value in values(root, "rStyle")}
        used |= {("table", value) for value in values(root, "tblStyle")}
    for style in styles.iter(w("style")):
        used |= {(style.get(w("type"), ""), value) for value in values(style, "basedOn") + values(style, "next")}

    assert used
    assert set() == used - defined


def test_style_names_and_ids_are_unique() -> None:
    """Word drops the second of two styles that share a name or an id."""
    styles = list(tree(write(lesson_document()), "word/styles.xml").iter(w("style")))
    ids = [style.get(w("styleId")) for style in styles]
    names = [value for style in styles for value in values(style, "name")]

    assert len(ids) == len(set(ids))
    assert len(names) == len({name.lower() for name in names})


def test_no_style_bears_the_name_that_libreoffice_has_for_another() -> None:
    """It calls Strong "Strong Emphasis" and Hyperlink "Internet Link" (names in its list of character styles).

    A second style of such a name takes the first one's place when a file is saved twice (tried with LibreOffice 7.4).
    """
    inside = {"strong emphasis", "internet link", "visited internet link", "source text"}
    styles = tree(write(lesson_document()), "word/styles.xml").iter(w("style"))

    assert set() == inside & {value.lower() for style in styles for value in values(style, "name")}


def test_every_list_number_is_defined_and_counts_one_list() -> None:
    """Each numbered list has a definition of its own; bullets share one; no number is left undefined."""
    written = parts(write(binder_document()))
    body = etree.fromstring(written["word/document.xml"])
    numbering = etree.fromstring(written["word/numbering.xml"])
    defined = [number.get(w("numId"), "") for number in numbering.iter(w("num"))]
    definitions = [each.get(w("abstractNumId"), "") for each in numbering.iter(w("abstractNum"))]
    used = values(body, "numId")

    assert set(used) == set(defined)
    assert len(defined) == len(set(defined))
    assert definitions == [value for number in numbering.iter(w("num")) for value in values(number, "abstractNumId")]
    assert len(definitions) == len(set(definitions))


def test_a_second_list_begins_anew() -> None:
    """The Markdown of the sample holds lists that begin at 1, 1 and 7, and the lesson one that begins at 1."""
    numbering = tree(write(binder_document()), "word/numbering.xml")

    assert ["1", "1", "1", "7"] == [values(each, "start")[0] for each in list(numbering.iter(w("abstractNum")))[1:]]


@_OPTIONS
def test_identities_are_unique(options: Options) -> None:
    """No two drawings, shapes, bookmarks or content controls of a file share a number."""
    body = tree(write(binder_document(), options))
    for alternative in list(body.iter(f"{{{MC}}}Fallback")):
        alternative.clear()
    drawings = [element.get("id") for name in (f"{{{WP}}}docPr", f"{{{WPS}}}cNvPr") for element in body.iter(name)]
    bookmarks = [element.get(w("id")) for element in body.iter(w("bookmarkStart"))]
    controls = [element.find(w("id")) for element in body.iter(w("sdtPr"))]
    numbers = [control.get(w("val")) for control in controls if control is not None]

    for found in (drawings, bookmarks, numbers):
        assert found
        assert len(found) == len(set(found))


def test_bookmarks_begin_and_end_once_and_bear_their_own_names() -> None:
    """Word allows 40 letters, digits and underscores, and forgets the second of two bookmarks of one name."""
    body = tree(write(binder_document()))
    names = values(body, "bookmarkStart", "name")

    assert sorted(values(body, "bookmarkStart", "id")) == sorted(values(body, "bookmarkEnd", "id"))
    assert len(names) == len({name.lower() for name in names})
    assert [] == [name for name in names if len(name) > 40 or not name.isidentifier() or not name.isascii()]
    assert {"lesson_4", "_lk_appendix_see"} <= set(names)


def test_links_inside_the_file_lead_to_bookmarks() -> None:
    """A link or page reference to a name that is nowhere keeps its words and loses its target."""
    body = tree(write(binder_document()))
    names = set(values(body, "bookmarkStart", "name"))
    anchors = [value for value in values(body, "hyperlink", "anchor") if value]
    pages = [
        text.split()[1] for text in (element.text or "" for element in body.iter(w("instrText"))) if "PAGEREF" in text
    ]

    assert anchors
    assert pages
    assert set() == {*anchors, *pages} - names


def test_contents_show_the_pages_they_were_given() -> None:
    """The row's page number stands in the field, so that a reader who renews nothing sees it too."""
    body = tree(write(binder_document()))
    rows = [
        "".join(str(element.text) for element in paragraph.iter(w("t")))
        for paragraph in body.iter(w("p"))
        if values(paragraph, "pStyle")[:1] and values(paragraph, "pStyle")[0].startswith("TOC")
    ]

    assert [
        "Lesson\u00a04: Keep it alive3",
        "Minute by minute3",
        "For the last page of the binder6",
        "A row that leads nowhere6",
    ] == rows


def test_fields_open_and_close() -> None:
    """Every complex field has its beginning, middle and end, in the body and in the footer."""
    written = parts(write(binder_document()))
    for name in ("word/document.xml", "word/footer1.xml"):
        depth = 0
        for kind in values(etree.fromstring(written[name]), "fldChar", "fldCharType"):
            depth += {"begin": 1, "separate": 0, "end": -1}[kind]
            assert depth >= 0
        assert depth == 0


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_rows_fill_the_columns_of_their_table(paper: str) -> None:
    """Spans add up to the number of columns, cells are as wide as the columns they span, columns as the table."""
    body = tree(write(binder_document(paper)))
    tables = list(body.iter(w("tbl")))

    assert len(tables) > 10
    for table in tables:
        grid = [int(value) for value in values(table.find(w("tblGrid")), "gridCol", "w")]  # type: ignore[arg-type]
        assert str(sum(grid)) == table.find(f"{w('tblPr')}/{w('tblW')}").get(w("w"))  # type: ignore[union-attr]
        for row in table.findall(w("tr")):
            column = 0
            for cell in row.findall(w("tc")):
                properties = cell.find(w("tcPr"))
                assert properties is not None
                span = int((values(properties, "gridSpan") or ["1"])[0])
                assert [str(sum(grid[column : column + span]))] == values(properties, "tcW", "w")
                column += span
            assert len(grid) == column


def test_no_table_is_wider_than_the_text() -> None:
    """Tables of the body end at the right margin, tables in cells inside their cell."""
    body = tree(write(binder_document()))
    room = page("letter", False).text_width

    for table in body.iter(w("tbl")):
        cell = next(table.iterancestors(w("tc")), None)
        limit = room if cell is None else int(values(cell, "tcW", "w")[0])
        assert int(values(table, "tblW", "w")[0]) <= limit


def test_every_cell_ends_in_a_paragraph() -> None:
    """Word calls a file damaged whose cell ends in a table or holds nothing."""
    body = tree(write(binder_document()))

    assert {w("p")} == {cell[-1].tag for cell in body.iter(w("tc"))}


def test_header_rows_repeat_and_no_row_splits() -> None:
    """Each table with a header says so in its rows and in its look, in the attributes and in the old bit mask alike."""
    body = tree(write(binder_document()))

    for row in body.iter(w("tr")):
        assert row.find(f"{w('trPr')}/{w('cantSplit')}") is not None
    for table in body.iter(w("tbl")):
        rows = table.findall(w("tr"))
        repeated = [row.find(f"{w('trPr')}/{w('tblHeader')}") is not None for row in rows]
        look = table.find(f"{w('tblPr')}/{w('tblLook')}")
        assert look is not None
        bits = int(look.get(w("val"), ""), 16)
        assert repeated == sorted(repeated, reverse=True)
        assert repeated[0] == (look.get(w("firstRow")) == "1") == bool(bits & 0x20)
        assert (look.get(w("firstColumn")) == "1") == bool(bits & 0x80)
        assert (look.get(w("noHBand")) == "1") == bool(bits & 0x200)


def test_tables_have_a_title() -> None:
    """Every table says what it is to those who cannot see it."""
    body = tree(write(binder_document()))

    assert [] == [table for table in body.iter(w("tbl")) if not values(table, "tblCaption")]


def test_drawings_say_what_they_show() -> None:
    """Alternative text stands on every drawing, a name on every shape."""
    body = tree(write(lesson_document()))
    shapes = list(body.iter(f"{{{WPS}}}cNvPr"))

    assert ["Half gym, 14 by 12 metres"] == [found.get("descr", "")[:25] for found in body.iter(f"{{{WP}}}docPr")]
    assert shapes
    assert [] == [shape.get("id") for shape in shapes if not shape.get("name")]


def test_look_stands_in_styles_alone() -> None:
    """No paragraph or run outside a drawing carries a font, size, colour, border, indent or spacing of its own."""
    body = tree(write(binder_document()))
    for drawn in list(body.iter(w("txbxContent"))):
        drawn.clear()
    direct = {"rFonts", "b", "i", "color", "sz", "u", "spacing", "ind", "jc", "pBdr", "pageBreakBefore", "keepNext"}

    assert (
        set()
        == {
            etree.QName(child).localname
            for kind in ("pPr", "rPr")
            for properties in body.iter(w(kind))
            for child in properties
        }
        & direct
    )


def test_boxes_can_be_ticked() -> None:
    """A box is a content control of the kind that Word ticks on a click, and shows an empty box until then."""
    body = tree(write(binder_document()))
    boxes = [control for control in body.iter(w("sdt")) if control.find(f"{w('sdtPr')}/{{{W14}}}checkbox") is not None]

    assert 12 == len(boxes), "three for the whole class and nine in the check list"
    assert {"\u2610"} == {element.text for box in boxes for element in box.iter(w("t"))}


def test_colours_are_the_themes() -> None:
    """Every colour names the theme colour that it equals, so that a school can change them all in one place."""
    written = parts(write(binder_document()))
    theme = etree.fromstring(written["word/theme/theme1.xml"])
    scheme = theme.find(f".//{{{A}}}clrScheme")
    assert scheme is not None
    slots = {etree.QName(slot).localname: slot[0].get("val") for slot in scheme}
    names = {"text1": "dk1", "background1": "lt1", "text2": "dk2", "background2": "lt2", "hyperlink": "hlink"}
    seen = 0
    for part in ("word/styles.xml", "word/numbering.xml", "word/document.xml"):
        for element in etree.fromstring(written[part]).iter():
            for value, theme_name in (("val", "themeColor"), ("color", "themeColor"), ("fill", "themeFill")):
                name = element.get(w(theme_name))
                found = element.get(w(value))
                if name and found and re.fullmatch("[0-9A-F]{6}", found):
                    seen += 1
                    assert slots[names.get(name, name)] == found
            if etree.QName(element).localname == "color":
                assert element.get(w("themeColor"))
    assert seen > 20


def test_page_size_and_direction_follow_the_document() -> None:
    """US Letter is 8.5 by 11 inches, A4 210 by 297 mm (ISO 216); a twentieth of a point is 1/1440 inch."""
    letter = tree(write(lesson_document("letter", landscape=True))).find(f".//{w('pgSz')}")
    a4 = tree(write(lesson_document("a4"))).find(f".//{w('pgSz')}")

    assert letter is not None
    assert ("15840", "12240", "landscape") == tuple(letter.get(w(name)) for name in ("w", "h", "orient"))
    assert a4 is not None
    assert (round(210 / 25.4 * 1440), round(297 / 25.4 * 1440)) == (int(a4.get(w("w"), "")), int(a4.get(w("h"), "")))


def test_the_language_is_said_once_for_all() -> None:
    """The document's language stands in the defaults and in the settings."""
    written = write(lesson_document())

    assert ["en-US"] == values(tree(written, "word/styles.xml"), "lang")
    assert ["en-US"] == values(tree(written, "word/settings.xml"), "themeFontLang")


def test_opening_asks_nothing() -> None:
    """Settings do not tell Word to renew fields, which would make it ask the reader a question."""
    assert b"updateFields" not in parts(write(binder_document()))["word/settings.xml"]
