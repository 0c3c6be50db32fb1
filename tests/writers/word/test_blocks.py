"""Single blocks in Word: page breaks, stress, links, facts, footers, keys."""

import pytest
from lxml import etree

from lessonkit.document.model import (
    Block,
    Cell,
    CodeText,
    Contents,
    Document,
    Emphasis,
    Heading,
    KeyValues,
    Link,
    ListBlock,
    Note,
    PageBreak,
    Paragraph,
    Role,
    Rule,
    Strong,
    Table,
    Text,
    WritingSpace,
    text,
)
from lessonkit.writers.word.ledger import anchor_bookmark, key_bookmark
from lessonkit.writers.word.tables import column_widths
from lessonkit.writers.word.writer import write

from .word_parts import parts, tree, values, w

_TABLE = Table(((Cell((Paragraph(text("a")),)),),), (1,), "One cell", header_rows=0)


def _document(*blocks: Block, language: str = "en-US", pages: int | None = None) -> Document:
    return Document("Title", "", "", "Foot", "2026-01-01", blocks, language=language, pages=pages)


def _body(*blocks: Block) -> etree._Element:
    body = tree(write(_document(*blocks))).find(w("body"))
    assert body is not None
    return body


def _styles(body: etree._Element) -> list[str]:
    return [(values(paragraph, "pStyle") or ["Normal"])[0] for paragraph in body.findall(w("p"))]


@pytest.mark.parametrize(
    ("block", "styles"),
    [
        (Paragraph(text("b")), ["NormalPage"]),
        (Paragraph(text("b"), Role.KICKER), ["KickerPage"]),
        (Paragraph(text("b"), Role.TITLE), ["TitlePage"]),
        (Heading(1, text("b")), ["Heading1Page"]),
        (Heading(2, text("b")), ["Heading2Page"]),
        (Heading(3, text("b")), ["GapPage", "Heading3"]),
        (Paragraph(text("b"), Role.SMALL), ["GapPage", "Small"]),
        (Rule(), ["GapPage", "RuleLine"]),
        (ListBlock(((Paragraph(text("b")),),)), ["GapPage", "ListBullet"]),
    ],
)
def test_a_page_break_is_carried_by_the_next_block(block: Block, styles: list[str]) -> None:
    """The style says that a new page begins, so no empty paragraph stands before headings and plain paragraphs."""
    assert ["Normal", *styles] == _styles(_body(Paragraph(text("a")), PageBreak(), block))


def test_a_heading_may_ask_for_a_new_page_itself() -> None:
    """``new_page`` does what a page break before the heading does."""
    assert ["Heading1Page"] == _styles(_body(Heading(1, text("b"), new_page=True)))


@pytest.mark.parametrize("blocks", [(), (PageBreak(),), (_TABLE,), (PageBreak(), _TABLE)])
def test_a_body_ends_in_a_paragraph(blocks: tuple[Block, ...]) -> None:
    """Word wants a last paragraph before the section's properties, whatever the document holds."""
    assert [w("p"), w("sectPr")] == [element.tag for element in _body(*blocks)][-2:]


@pytest.mark.parametrize(
    "other", [_TABLE, Note("n", (Paragraph(text("a")),)), WritingSpace("w", 1), KeyValues((("a", text("b")),))]
)
def test_two_tables_do_not_touch(other: Block) -> None:
    """Word would join adjacent tables into one."""
    kinds = [element.tag for element in _body(_TABLE, other)]

    assert [w("tbl"), w("p"), w("tbl"), w("p"), w("sectPr")] == kinds


def test_marks_may_meet_in_one_run() -> None:
    """Word gives a run one character style, so each meeting of stress, code and link has a style of its own."""
    inner = (Emphasis((Text("a"), CodeText("b"))),)
    body = _body(Paragraph((Strong(inner), Link((Strong(text("c")),), "https://example.org"))))

    assert ["StrongEmphasis", "StrongEmphasisCodeText", "StrongHyperlink"] == values(body, "rStyle")


def test_strong_words_in_bold_paragraphs_stay_unmarked() -> None:
    """ISO/IEC 29500-1, 17.7.3: bold is a toggle, so bold words in a bold style would turn light."""
    cell = Cell((Paragraph((Strong(text("a")), Emphasis(text("b")))),))
    body = _body(Table(((cell,), (cell,)), (1,), "T"))

    assert ["Emphasis", "Strong", "Emphasis"] == values(body, "rStyle")


@pytest.mark.parametrize(
    "target", ["javascript:alert(1)", "file:///etc/passwd", "#nowhere", "https://e.org/" + "a" * 2100]
)
def test_links_that_lead_nowhere_keep_their_words(target: str) -> None:
    """Unsafe schemes, missing anchors and addresses that Word refuses (over 2079, from memory) are no links."""
    written = parts(write(_document(Paragraph((Link(text("go"), target),)))))

    assert b"hyperlink" not in written["word/document.xml"]
    assert b">go<" in written["word/document.xml"]
    assert b"External" not in written["word/_rels/document.xml.rels"]


def test_links_inside_the_document_look_like_their_surroundings() -> None:
    """An anchor's link has no style of its own, an address's has."""
    links = (Link(text("a"), "#there"), Link(text("b"), "https://example.org"))
    body = _body(Heading(1, text("There"), "there"), Paragraph(links))

    assert ["there"] == [value for value in values(body, "hyperlink", "anchor") if value]
    assert ["Hyperlink"] == values(body, "rStyle")


def test_contents_show_the_page_of_what_they_lead_to() -> None:
    """A row whose page nobody has counted is counted; one that leads nowhere shows none rather than a wrong one."""
    body = _body(Contents(((1, "There", "there", 0), (1, "Nowhere", "nowhere", 0))), Heading(1, text("There"), "there"))

    assert ["There", "1", "Nowhere", None, "There"] == [element.text for element in body.iter(w("t"))]


def test_an_address_is_related_once() -> None:
    """Two links to one address share a relation."""
    link = Link(text("go"), "https://example.org/?a=1&b=2")
    relations = etree.fromstring(parts(write(_document(Paragraph((link, link)))))["word/_rels/document.xml.rels"])

    assert ["https://example.org/?a=1&b=2"] == [r.get("Target") for r in relations if r.get("TargetMode") == "External"]


def test_facts_stand_in_bands_of_six_at_most() -> None:
    """Seven facts make two bands on one grid of four columns; the last cell stays empty."""
    facts = KeyValues(tuple((f"name {number}", text(f"value {number}")) for number in range(7)))
    tables = _body(facts).findall(w("tbl"))

    assert [4, 4] == [len(values(table, "gridCol", "w")) for table in tables]
    assert ["name 0", "name 1", "name 2", "name 3", "value 0"] == [t.text for t in tables[0].iter(w("t"))][:5]


def test_no_facts_no_table() -> None:
    """An empty block leaves nothing behind."""
    assert [] == _body(KeyValues(())).findall(w("tbl"))


@pytest.mark.parametrize("spans", [(1,), (2, 1), (3,)])
def test_a_row_must_fill_its_columns(spans: tuple[int, ...]) -> None:
    """A builder that loses a cell is told so, with the table's title."""
    row = tuple(Cell((), span=span) for span in spans)
    with pytest.raises(ValueError, match=r"table 'T': a row fills [13] columns, the table has 2"):
        write(_document(Table((row,), (1, 1), "T")))


@pytest.mark.parametrize(("shares", "width"), [((1, 1, 1), 10000), ((17, 38, 45), 10052), ((0.1, 0.2), 3), ((5,), 777)])
def test_column_widths_add_up(shares: tuple[float, ...], width: int) -> None:
    """The parts are whole and fill the width exactly; each is within one of its true share."""
    widths = column_widths(shares, width)

    assert width == sum(widths)
    assert [] == [
        found for found, share in zip(widths, shares, strict=True) if abs(found - width * share / sum(shares)) > 1
    ]


@pytest.mark.parametrize(
    ("language", "said"),
    [("en-GB", "Foot|Page 1 of 9"), ("es-MX", "Foot|Página 1 de 9"), ("hmn", "Foot|1 / 9")],
)
def test_the_footer_counts_pages_in_the_documents_language(language: str, said: str) -> None:
    """Page and pages are fields; what they show before they are renewed is right for the first page."""
    footer = tree(write(_document(language=language, pages=9)), "word/footer1.xml")
    shown = "".join("|" if element.tag == w("tab") else element.text or "" for element in footer.iter(w("tab"), w("t")))

    assert said == shown
    assert [" PAGE ", " NUMPAGES "] == [element.text for element in footer.iter(w("instrText"))]


def test_right_to_left_words_are_marked() -> None:
    """A paragraph that begins in Hebrew runs from the right; a Hebrew word in English only marks its run."""
    hebrew = "\u05e9\u05dc\u05d5\u05dd"
    body = _body(Paragraph(text(f"{hebrew} 5")), Paragraph(text(f"say {hebrew}")))
    first, second = body.findall(w("p"))[:2]

    assert first.find(f"{w('pPr')}/{w('bidi')}") is not None
    assert second.find(f".//{w('bidi')}") is None
    assert 2 == len(list(body.iter(w("rtl"))))


def test_names_fit_word_and_stay_apart() -> None:
    """Long or odd anchors and keys become names of 40 letters, digits and underscores, each its own."""
    long = "steps_of_the_activity_called_send_it_over_the_brook"

    assert "lesson_4" == anchor_bookmark("lesson_4")
    assert "_lk_flow_3" == key_bookmark("flow_3")
    names = {anchor_bookmark(words) for words in ("4", "a b", "a_b", "a-b", long, long + "s", "\u00e9")}
    names |= {key_bookmark(words) for words in ("a b", long, long + "s")}
    assert 10 == len(names)
    assert [] == [name for name in names if len(name) > 40 or not name.isidentifier() or not name.isascii()]


def test_units_stay_on_their_line() -> None:
    """The writer binds numbers and units in running text and leaves code as typed."""
    body = _body(Paragraph((Text("stand 4 m apart, say "), CodeText("4 m"))))

    assert ["stand 4\u00a0m apart, say ", "4 m"] == [element.text for element in body.iter(w("t"))]


def test_an_unknown_paper_is_refused() -> None:
    """Letter and A4 are the sheets there are."""
    with pytest.raises(KeyError):
        write(Document("", "", "", "", "2026-01-01", (), paper="a5"))
