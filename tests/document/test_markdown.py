"""Markdown as document nodes. How the specification's examples fare is checked with the Word writer."""

import pytest

from lessonkit.document.markdown import is_safe_target, read_inline, read_markdown
from lessonkit.document.model import (
    Cell,
    CodeText,
    Emphasis,
    Heading,
    LineBreak,
    Link,
    ListBlock,
    Paragraph,
    Role,
    Rule,
    Strong,
    Table,
    Text,
    plain,
    text,
)
from lessonkit.document.pieces import labelled


def _item(words: str, *more: ListBlock) -> tuple[Paragraph | ListBlock, ...]:
    return (Paragraph(text(words)), *more)


def test_stress_code_and_links_become_inlines() -> None:
    """CommonMark 0.31.2, sections 6.1, 6.2 and 6.3."""
    found = read_inline("Push *soft* or **firm**, say `stop`, see [here](https://example.org).")

    assert (
        Text("Push "),
        Emphasis(text("soft")),
        Text(" or "),
        Strong(text("firm")),
        Text(", say "),
        CodeText("stop"),
        Text(", see "),
        Link(text("here"), "https://example.org"),
        Text("."),
    ) == found


@pytest.mark.parametrize("words", ["1. Walk", "# Walk", "- Walk", "> Walk", "    Walk"])
def test_one_line_fields_know_no_blocks(words: str) -> None:
    """A cue that begins with a number or a dash is a sentence, not a list."""
    assert text(words.strip()) == read_inline(words)


def test_a_label_keeps_its_stress_and_shows_no_marks() -> None:
    """A question is a label with what to listen for behind it: *Clothesline* asks about a rule that has a name."""
    words = labelled("Ask: Why the rule about *wash*?", "*Listen for:* fair turns")

    assert "Ask: Why the rule about wash? Listen for: fair turns" == plain(words)


def test_an_empty_field_is_empty() -> None:
    """No words, no nodes."""
    assert () == read_inline("")
    assert () == read_markdown(" \n\n")


def test_lists_nest_and_begin_where_they_say() -> None:
    """CommonMark 0.31.2, section 5.3: a list starts at its first number; another kind of mark begins another list."""
    found = read_markdown("3. carry\n   - flat\n   - low\n4. walk\n\n- rest\n")

    inner = ListBlock((_item("flat"), _item("low")))
    assert (ListBlock((_item("carry", inner), _item("walk")), start=3), ListBlock((_item("rest"),))) == found


def test_an_item_may_hold_nothing_or_several_blocks() -> None:
    """CommonMark 0.31.2, section 5.2, example 284 and 256."""
    assert (ListBlock(((), _item("b"))),) == read_markdown("-\n- b")
    assert (ListBlock(((Paragraph(text("one")), Paragraph(text("two"))),)),) == read_markdown("- one\n\n  two")


def test_quotations_mark_their_paragraphs_however_deep() -> None:
    """Paragraphs of a quotation, also those of a list in it, bear the role of a quotation."""
    found = read_markdown("> a\n>\n> - b\n")

    quoted = Paragraph(text("b"), Role.QUOTE)
    assert (Paragraph(text("a"), Role.QUOTE), ListBlock(((quoted,),))) == found


def test_code_keeps_lines_and_spaces() -> None:
    """CommonMark 0.31.2, section 4.5: the lines of a fence are literal."""
    found = read_markdown("```\n  ready *step*\n\npush\n```\n")

    content = (Text("  ready *step*"), LineBreak(), LineBreak(), Text("push"))
    assert (Paragraph(content, Role.CODE),) == found


def test_headings_and_rules() -> None:
    """CommonMark 0.31.2, sections 4.1 and 4.2; a heading without words is left out."""
    assert (Heading(2, text("Before")), Rule(), Heading(6, text("After"))) == read_markdown(
        "## Before\n***\n#\n###### After"
    )


def test_line_ends_are_spaces_and_hard_breaks_are_breaks() -> None:
    """CommonMark 0.31.2, sections 6.7 and 6.8."""
    assert (Paragraph((Text("one two"), LineBreak(), Text("three"))),) == read_markdown("one\ntwo\\\nthree")


def test_pipe_tables() -> None:
    """A table has one header row; wider columns get a larger share; its title is its header's words."""
    found = read_markdown("| Signal | What it means |\n|---|---|\n| one clap | **freeze** |\n")

    rows = (
        (Cell((Paragraph(text("Signal")),)), Cell((Paragraph(text("What it means")),))),
        (Cell((Paragraph(text("one clap")),)), Cell((Paragraph((Strong(text("freeze")),)),))),
    )
    assert (Table(rows, (8.0, 13.0), "Signal, What it means"),) == found


def test_a_table_cell_may_be_empty() -> None:
    """A row shorter than the header is filled with empty cells."""
    (table,) = read_markdown("| a | b |\n|---|---|\n| 1 |\n")

    assert isinstance(table, Table)
    assert Cell((Paragraph(()),)) == table.rows[1][1]


def test_raw_html_stands_as_typed() -> None:
    """No tag takes effect, in a block or in a line."""
    block = (Text("<script>"), LineBreak(), Text("run()"), LineBreak(), Text("</script>"))

    assert (Paragraph(block),) == read_markdown("<script>\nrun()\n</script>\n")
    assert text("a <b>c</b>") == read_inline("a <b>c</b>")


def test_a_picture_is_its_alternative_text() -> None:
    """The words of a picture stay, also inside a link; a picture without words leaves nothing."""
    assert text("A cone") == read_inline("![A *cone*](cone.png)")
    assert (Link(text("cone"), "https://example.org"),) == read_inline("[![cone](x.png)](https://example.org)")
    assert () == read_markdown("![](cone.png)")


@pytest.mark.parametrize(
    "target", ["https://example.org/a?b=c", "HTTP://example.org", "mailto:office@example.org", "#lesson_4"]
)
def test_safe_targets_are_kept(target: str) -> None:
    """Web, mail and anchors of the same document."""
    assert is_safe_target(target)
    assert (Link(text("go"), target),) == read_inline(f"[go]({target})")


@pytest.mark.parametrize(
    "target",
    ["javascript:alert(1)", "file:///etc/passwd", "data:text/html,x", "/lesson", "lesson.docx", "//host/x", "#", ""],
)
def test_other_targets_leave_only_words(target: str) -> None:
    """Scripts, files, data and addresses relative to nothing are no links on a page."""
    assert not is_safe_target(target)
    words = "".join(inline.text for inline in read_inline(f"[go]({target})") if isinstance(inline, Text))
    assert words in {"go", f"[go]({target})"}


def test_characters_that_no_page_can_carry_are_replaced() -> None:
    """Unicode, chapter 23: U+FFFD stands for what cannot be represented; tabs and line ends are no such characters."""
    assert text("a\ufffdb\ufffdc") == read_inline("a\x07b\x00c")
    assert text("a\ufffd") == read_inline("a\ud800")
    assert (Paragraph((Text("a\tb"),), Role.CODE),) == read_markdown("    a\tb\n")


def test_deep_nesting_neither_fails_nor_hangs() -> None:
    """Ninety quotation marks still hold their sentence; thousands end without an error."""
    assert (Paragraph(text("deep"), Role.QUOTE),) == read_markdown(">" * 90 + " deep")

    read_markdown(">" * 3000 + " deep")
    read_markdown("- " * 3000 + "deep")
    read_inline("*" * 3000 + "deep")
    read_inline("[" * 3000)
