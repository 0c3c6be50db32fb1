"""The look of our Word files: a palette and a table of styles.

Ink, navy and brass on white with stone hairlines. Sections hang from a fine rule above their heading; tables have no
boxes, their text stands on the same left edge as the page's. Every colour that carries words keeps 4.5 : 1 on white and
on paper tint, and stays apart in grey.
"""

from dataclasses import dataclass

from lessonkit.writers.palette import PALETTE

_WORD_NAMES = {"dk1": "text1", "lt1": "background1", "dk2": "text2", "lt2": "background2", "hlink": "hyperlink"}


@dataclass(frozen=True, slots=True)
class Style:
    """A paragraph or character style: its properties are WordprocessingML in schema order, its sizes half points."""

    id: str
    name: str
    kind: str = "paragraph"
    based_on: str = "Normal"
    next: str = ""
    paragraph: str = ""
    run: str = ""
    hidden: bool = False
    custom: bool = True


def color(slot: str) -> str:
    """Return the colour of words, tied to the theme."""
    return f'<w:color w:val="{PALETTE[slot]}" w:themeColor="{_theme_name(slot)}"/>'


def shade(slot: str) -> str:
    """Return the colour behind words, tied to the theme."""
    return f'<w:shd w:val="clear" w:color="auto" w:fill="{PALETTE[slot]}" w:themeFill="{_theme_name(slot)}"/>'


def line(side: str, slot: str, eighths: int, space: int = 0) -> str:
    """Return a border: its side, theme colour, thickness in eighths of a point and distance in points."""
    return (
        f'<w:{side} w:val="single" w:sz="{eighths}" w:space="{space}" w:color="{PALETTE[slot]}"'
        f' w:themeColor="{_theme_name(slot)}"/>'
    )


def _theme_name(slot: str) -> str:
    return _WORD_NAMES.get(slot, slot)


def _spacing(before: int, after: int, line_height: int = 0, rule: str = "auto") -> str:
    height = f' w:line="{line_height}" w:lineRule="{rule}"' if line_height else ""
    return f'<w:spacing w:before="{before}" w:after="{after}"{height}/>'


def _size(half_points: int) -> str:
    return f'<w:sz w:val="{half_points}"/><w:szCs w:val="{half_points}"/>'


def _box(*lines: str) -> str:
    return f"<w:pBdr>{''.join(lines)}</w:pBdr>"


BODY_SIZE = 18
_BOLD = "<w:b/><w:bCs/>"
_HEAD = (
    '<w:rFonts w:asciiTheme="majorHAnsi" w:hAnsiTheme="majorHAnsi"'
    ' w:eastAsiaTheme="majorEastAsia" w:cstheme="majorBidi"/>'
)
_TYPEWRITER = '<w:rFonts w:ascii="Consolas" w:hAnsi="Consolas" w:cs="Consolas"/>'
_TICK_FONT = '<w:rFonts w:ascii="MS Gothic" w:hAnsi="MS Gothic" w:eastAsia="MS Gothic" w:cs="Segoe UI Symbol"/>'
_KEEP = "<w:keepNext/><w:keepLines/>"


def _outline(level: int) -> str:
    return f'<w:outlineLvl w:val="{level - 1}"/>'


def _heading(level: int, paragraph: str, run: str) -> Style:
    return Style(
        f"Heading{level}",
        f"heading {level}",
        next="Normal",
        paragraph=_KEEP + paragraph + _outline(level),
        run=_HEAD + run,
        custom=False,
    )


PARAGRAPHS: tuple[Style, ...] = (
    Style("Normal", "Normal", based_on="", custom=False),
    Style(
        "Title",
        "Title",
        next="Normal",
        paragraph=_KEEP + _box(line("bottom", "accent2", 18, 10)) + _spacing(2400, 200, 216),
        run=_HEAD + _BOLD + color("dk2") + _size(72),
        custom=False,
    ),
    _heading(1, _spacing(0, 40, 228), _BOLD + color("dk2") + _size(40)),
    _heading(
        2,
        _box(line("top", "accent6", 6, 4)) + _spacing(120, 20),
        _BOLD + color("dk2") + '<w:spacing w:val="4"/>' + _size(22),
    ),
    _heading(3, _spacing(120, 20), _BOLD + color("accent2") + _size(19)),
    _heading(4, _spacing(120, 20), _BOLD + color("dk1") + _size(BODY_SIZE)),
    _heading(5, _spacing(100, 20), _BOLD + color("accent5") + _size(BODY_SIZE)),
    _heading(6, _spacing(100, 20), color("accent5") + _size(BODY_SIZE)),
    Style(
        "Kicker",
        "Kicker",
        next="Heading1",
        paragraph=_KEEP + _spacing(0, 30),
        run=_BOLD + "<w:caps/>" + color("accent2") + '<w:spacing w:val="30"/>' + _size(17),
    ),
    Style("Summary", "Summary", next="Normal", paragraph=_spacing(0, 100, 252), run=color("accent5") + _size(21)),
    Style("Cue", "Cue", paragraph=_spacing(0, 20), run=color("accent1")),
    Style(
        "Caption", "caption", next="Normal", paragraph=_spacing(50, 100), run=color("accent5") + _size(17), custom=False
    ),
    Style("Small", "Small", paragraph=_spacing(0, 20), run=color("accent5") + _size(16)),
    Style(
        "Code",
        "Code",
        paragraph="<w:keepLines/>" + shade("lt2") + _spacing(60, 60),
        run=_TYPEWRITER + "<w:noProof/>" + _size(18),
    ),
    Style(
        "Quote",
        "Quote",
        paragraph=_box(line("left", "accent6", 18, 8)) + _spacing(60, 60) + '<w:ind w:left="260" w:right="260"/>',
        run=color("accent5"),
        custom=False,
    ),
    Style("LetterHeading", "Letter Heading", based_on="Heading2", next="Letter", run=_size(26)),
    Style("Letter", "Letter", paragraph=_spacing(60, 100, 264), run=color("dk1") + _size(23)),
    Style("LetterSmall", "Letter Small", paragraph=_spacing(40, 60), run=_size(20)),
    Style("Reading", "Reading", run=_size(19)),
    Style(
        "PosterHeading",
        "Poster Heading",
        based_on="Heading1",
        next="Poster",
        paragraph=_spacing(0, 160, 216),
        run=_size(112),
    ),
    *(
        Style(
            f"Poster{name}", f"Poster {name}".strip(), paragraph=_spacing(0, 160, 216), run=color("dk2") + _size(size)
        )
        for name, size in (("", 108), ("Huge", 132), ("Large", 120), ("Small", 88), ("Least", 68))
    ),
    Style("Board", "Board", paragraph=_spacing(0, 60), run=color("dk1") + _size(40)),
    Style("ListBullet", "List Bullet", paragraph=_spacing(0, 10), custom=False),
    Style("ListNumber", "List Number", paragraph=_spacing(0, 10), custom=False),
    Style(
        "CheckItem",
        "Check Item",
        paragraph='<w:tabs><w:tab w:val="left" w:pos="320"/></w:tabs>'
        + _spacing(30, 30)
        + '<w:ind w:left="320" w:hanging="320"/>',
    ),
    Style("CheckMark", "Check Mark", paragraph=_spacing(0, 0)),
    Style("Figure", "Figure", next="Caption", paragraph="<w:keepNext/>" + _spacing(80, 40)),
    Style("CellText", "Cell Text", paragraph=_spacing(0, 0)),
    Style(
        "CellHead", "Cell Head", paragraph="<w:keepNext/>" + _spacing(0, 0), run=_BOLD + color("accent2") + _size(17)
    ),
    Style("CellLead", "Cell Lead", paragraph=_spacing(0, 0), run=_BOLD + color("dk2")),
    *(
        Style(f"Cell{name}Large", f"Cell {name} Large", based_on=f"Cell{name}", paragraph=keep, run=_size(size))
        for name, size, keep in (("Text", 19, ""), ("Head", 18, "<w:keepNext/>"), ("Lead", 19, ""))
    ),
    Style("FactName", "Fact Name", paragraph="<w:keepNext/>" + _spacing(0, 0), run=color("accent5") + _size(17)),
    Style("Fact", "Fact", paragraph=_spacing(0, 0), run=_BOLD + color("dk2") + _size(19)),
    Style(
        "NoteTitle",
        "Note Title",
        next="Normal",
        paragraph="<w:keepNext/>" + _spacing(0, 0),
        run=_BOLD + color("accent4") + _size(21),
    ),
    Style(
        "WritingTitle",
        "Writing Title",
        paragraph="<w:keepNext/>" + _spacing(100, 0),
        run=_BOLD + color("dk2") + _size(22),
    ),
    Style("RuleLine", "Rule Line", paragraph=_box(line("bottom", "accent6", 6, 1)) + _spacing(60, 120)),
    Style(
        "CutLine",
        "Cut Line",
        paragraph=_box(line("bottom", "accent5", 8, 1).replace("single", "dashed")) + _spacing(100, 160, 120, "exact"),
        run=_size(4),
    ),
    Style("Gap", "Gap", paragraph=_spacing(0, 0, 120, "exact"), run=_size(4), hidden=True),
    Style("PlanLabel", "Plan Label", paragraph=_spacing(0, 0, 216) + '<w:jc w:val="center"/>'),
    Style("PlanLegend", "Plan Legend", based_on="PlanLabel", paragraph='<w:jc w:val="left"/>'),
    Style("PlanScale", "Plan Scale", based_on="PlanLabel", paragraph='<w:jc w:val="right"/>'),
)
"""Paragraph styles. The plan styles stand in drawings."""

MARKS: dict[str, tuple[str, ...]] = {
    "Strong": ("<w:b/>", "<w:bCs/>"),
    "Emphasis": ("<w:i/>", "<w:iCs/>"),
    "CodeText": (_TYPEWRITER, "<w:noProof/>", '<w:sz w:val="18"/>', '<w:szCs w:val="18"/>', shade("lt2")),
    "Hyperlink": (color("hlink"), '<w:u w:val="single"/>'),
}
"""Character styles that may meet in one run, in the order of their names in a joint style; a piece is one element."""

CHARACTERS: tuple[Style, ...] = (
    Style("TickBox", "Tick Box", "character", "", run=_TICK_FONT + color("accent5") + _size(21)),
)
"""Character styles that stand alone."""

LETTERS: dict[str, str] = {
    "small": color("dk1") + _size(13),
    "normal": color("dk1") + _size(16),
    "large": _BOLD + color("dk1") + _size(22),
    "poster": _BOLD + color("dk1") + _size(52),
    "wall": _BOLD + color("dk1") + _size(72),
    "legend": color("accent5") + _size(16),
    "inside": _BOLD + color("lt1") + _size(12),
    "inside-large": _BOLD + color("lt1") + _size(22),
    "inside-huge": _BOLD + color("lt1") + _size(40),
    "inside-poster": _BOLD + color("lt1") + _size(72),
}
"""Letters in drawings. They are the one look that stands in the text itself: LibreOffice forgets the letters of every
style in a drawing that stands in a table.
"""

ON_NEW_PAGE = ("Normal", "Title", "Heading1", "Heading2", "PosterHeading", "LetterHeading", "Kicker", "Gap")
"""Paragraph styles that have a twin, named with ``Page`` at its end, which begins a new page."""
