"""Headings, paragraphs, boxes to tick, rules and the table of contents."""

from lessonkit.document.model import CheckBoxes, Contents, Heading, Inline, Paragraph, Role, plain
from lessonkit.writers.word.frame import BOLD_STYLES, Frame
from lessonkit.writers.word.inlines import literal_runs, runs
from lessonkit.writers.word.ledger import Ledger, anchor_bookmark
from lessonkit.writers.word.look import ON_NEW_PAGE
from lessonkit.writers.word.xml import field, paragraph, quoted, run, runs_right_to_left

GAP = paragraph("Gap", "")
"""A paragraph of a few points' height, which keeps two tables apart and ends a cell or page after a table."""
GAP_ON_NEW_PAGE = paragraph("GapPage", "")
RULE = paragraph("RuleLine", "")
CUT = paragraph("CutLine", "")

_LONGEST_ALIAS = 64
_STYLES = {
    Role.TITLE: "Title",
    Role.KICKER: "Kicker",
    Role.SUMMARY: "Summary",
    Role.CUE: "Cue",
    Role.CAPTION: "Caption",
    Role.SMALL: "Small",
    Role.CODE: "Code",
    Role.QUOTE: "Quote",
    Role.LETTER: "Letter",
    Role.LETTER_SMALL: "LetterSmall",
    Role.READING: "Reading",
    Role.POSTER_HUGE: "PosterHuge",
    Role.POSTER_LARGE: "PosterLarge",
    Role.POSTER: "Poster",
    Role.POSTER_SMALL: "PosterSmall",
    Role.POSTER_LEAST: "PosterLeast",
    Role.BOARD: "Board",
}


def heading_xml(heading: Heading, ledger: Ledger, *, new_page: bool) -> str:
    """Return a heading, with a bookmark where it has an anchor."""
    style = "PosterHeading" if heading.poster else f"Heading{min(max(heading.level, 1), 6)}"
    style = "LetterHeading" if heading.large else style
    content = runs(heading.content, ledger, bold=style in BOLD_STYLES)
    if heading.anchor is not None:
        content = ledger.bookmark(anchor_bookmark(heading.anchor), content)
    if heading.key is not None:
        content = ledger.keyed(heading.key, content)
    if new_page or heading.new_page:
        style = page_twin(style) or style
    return paragraph(style, content, _direction(heading.content))


def paragraph_xml(block: Paragraph, frame: Frame, ledger: Ledger, *, new_page: bool = False, number: str = "") -> str:
    """Return a paragraph in the style of its role; ``number`` are the properties that make it a list item."""
    style = _STYLES.get(block.role, frame.body)
    if block.role is Role.CODE:
        content = literal_runs(block.content)
    else:
        content = runs(block.content, ledger, bold=style in BOLD_STYLES)
    if block.key is not None:
        content = ledger.keyed(block.key, content)
    if new_page:
        style = page_twin(style) or style
    if not content.isascii():
        number += _direction(block.content)
    return paragraph(style, content, number)


def page_twin(style: str) -> str | None:
    """Return the style that looks the same and begins a new page, or None where there is none."""
    return f"{style}Page" if style in ON_NEW_PAGE else None


def style_of(block: Paragraph, frame: Frame) -> str:
    """Return the style that a paragraph takes."""
    return _STYLES.get(block.role, frame.body)


def check_boxes_xml(boxes: CheckBoxes, ledger: Ledger) -> str:
    """Return boxes to tick, each a content control that Word ticks on a click; a box without words stands centred."""
    return "".join(_check_box(item, ledger) for item in boxes.items)


def contents_xml(contents: Contents, ledger: Ledger) -> str:
    """Return the table of contents: a field that Word can renew, filled with the rows as they will be printed."""
    if not contents.rows:
        return ""
    deepest = contents.gathers or max(row[0] for row in contents.rows)
    opening = (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> TOC \\o "1-{deepest}" \\h \\z \\u </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
    )
    closing = '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    rows: list[str] = []
    for place, (level, words, anchor, page) in enumerate(contents.rows):
        before = opening if place == 0 else ""
        after = closing if place == len(contents.rows) - 1 else ""
        rows.append(paragraph(f"TOC{min(level, 3)}", before + _contents_row(words, anchor, page, ledger) + after))
    return (
        f'<w:sdt><w:sdtPr><w:id w:val="{ledger.next_id()}"/><w:docPartObj><w:docPartGallery w:val="Table of Contents"/>'
        f"<w:docPartUnique/></w:docPartObj></w:sdtPr><w:sdtContent>{''.join(rows)}</w:sdtContent></w:sdt>"
    )


def _contents_row(words: str, anchor: str, page: int, ledger: Ledger) -> str:
    shown = str(page) if page > 0 else ""
    if anchor not in ledger.anchors:
        return f"{run(words)}<w:r><w:tab/></w:r>{run(shown)}"
    name = anchor_bookmark(anchor)
    reference = field(f"PAGEREF {name} \\h", shown)
    inside = f"{run(words)}<w:r><w:tab/></w:r>{reference}"
    return f'<w:hyperlink w:anchor="{name}" w:history="1">{inside}</w:hyperlink>'


def _check_box(item: tuple[Inline, ...], ledger: Ledger) -> str:
    words = plain(item).strip()
    control = _tick_control(words, ledger)
    if not words:
        return paragraph("CheckMark", control)
    content = runs(item, ledger)
    return paragraph("CheckItem", f"{control}<w:r><w:tab/></w:r>{content}", _direction(item))


def _tick_control(words: str, ledger: Ledger) -> str:
    alias = quoted(words[:_LONGEST_ALIAS]) or "Tick"
    return (
        f'<w:sdt><w:sdtPr><w:alias w:val="{alias}"/><w:id w:val="{ledger.next_id()}"/>'
        '<w14:checkbox><w14:checked w14:val="0"/><w14:checkedState w14:val="2612" w14:font="MS Gothic"/>'
        '<w14:uncheckedState w14:val="2610" w14:font="MS Gothic"/></w14:checkbox></w:sdtPr>'
        '<w:sdtContent><w:r><w:rPr><w:rStyle w:val="TickBox"/></w:rPr><w:t>\u2610</w:t></w:r></w:sdtContent></w:sdt>'
    )


def _direction(content: tuple[Inline, ...]) -> str:
    """Return the mark of a paragraph that begins with a letter written from right to left."""
    first = next((letter for letter in plain(content) if letter.isalpha()), "")
    return "<w:bidi/>" if runs_right_to_left(first) else ""
