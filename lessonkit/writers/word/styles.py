"""The styles part of a Word file, made from the look."""

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from lessonkit.writers.word.look import (
    BODY_SIZE,
    CHARACTERS,
    MARKS,
    ON_NEW_PAGE,
    PARAGRAPHS,
    Style,
    color,
    line,
    shade,
)
from lessonkit.writers.word.page import Page
from lessonkit.writers.word.xml import DECLARATION, NAMESPACES, quoted

_RUN_ORDER = ("rFonts", "b", "bCs", "i", "iCs", "caps", "noProof", "color", "spacing", "sz", "szCs", "u", "shd")
_DEEPEST_LIST = 9
_DEEPEST_CONTENTS = 3
LIST_STEP = 300
"""How much further each level of a list is set in, in twentieths of a point."""


@dataclass(frozen=True, slots=True)
class SchoolStyles:
    """A school's styles: (our id, the style) pairs that stand in place of ours, and further ones of its own."""

    instead: tuple[tuple[str, Style], ...] = ()
    further: tuple[Style, ...] = ()


_NO_SCHOOL = SchoolStyles()


@lru_cache(maxsize=16)
def styles_part(sheet: Page, language: str, school: SchoolStyles = _NO_SCHOOL) -> bytes:
    """Return styles.xml for a page (tab stops depend on its width), a language and a school's own styles."""
    own = dict(school.instead)
    paragraphs = (*PARAGRAPHS, *_list_continuations(), *_contents_rows(sheet), _footer(sheet))
    body = "".join(
        (
            _defaults(language),
            *(_style(own.get(style.id, style)) for style in paragraphs),
            *(_style(_on_new_page(style)) for style in PARAGRAPHS if style.id in ON_NEW_PAGE),
            *(_style(style) for style in (*CHARACTERS, *_joint_marks(), *school.further)),
            _TABLES,
        )
    )
    return f"{DECLARATION}<w:styles {NAMESPACES}>{body}</w:styles>".encode()


def joint_mark(marks: frozenset[str]) -> str:
    """Return the id of the character style that has all of these marks at once; empty for none."""
    return "".join(mark for mark in MARKS if mark in marks)


def _defaults(language: str) -> str:
    right_to_left = quoted(language) if language.partition("-")[0] in {"ar", "fa", "he", "ur"} else "ar-SA"
    return (
        "<w:docDefaults><w:rPrDefault><w:rPr>"
        '<w:rFonts w:asciiTheme="minorHAnsi" w:hAnsiTheme="minorHAnsi"'
        ' w:eastAsiaTheme="minorEastAsia" w:cstheme="minorBidi"/>'
        f'{color("dk1")}<w:sz w:val="{BODY_SIZE}"/><w:szCs w:val="{BODY_SIZE}"/>'
        f'<w:lang w:val="{quoted(language)}" w:eastAsia="ja-JP" w:bidi="{right_to_left}"/>'
        "</w:rPr></w:rPrDefault><w:pPrDefault><w:pPr>"
        '<w:spacing w:before="40" w:after="40" w:line="240" w:lineRule="auto"/>'
        "</w:pPr></w:pPrDefault></w:docDefaults>"
        '<w:latentStyles w:defLockedState="0" w:defUIPriority="99" w:defSemiHidden="1" w:defUnhideWhenUsed="1"'
        ' w:defQFormat="0" w:count="376"/>'
    )


def _style(style: Style) -> str:
    default = ' w:default="1"' if style.id == "Normal" else ""
    custom = ' w:customStyle="1"' if style.custom else ""
    parts = [
        f'<w:style w:type="{style.kind}"{default}{custom} w:styleId="{style.id}"><w:name w:val="{quoted(style.name)}"/>'
    ]
    if style.based_on and style.id != "Normal":
        parts.append(f'<w:basedOn w:val="{style.based_on}"/>')
    if style.next:
        parts.append(f'<w:next w:val="{style.next}"/>')
    parts.append('<w:uiPriority w:val="10"/>')
    parts.append("<w:semiHidden/><w:unhideWhenUsed/>" if style.hidden else "<w:qFormat/>")
    if style.paragraph:
        parts.append(f"<w:pPr>{style.paragraph}</w:pPr>")
    if style.run:
        parts.append(f"<w:rPr>{style.run}</w:rPr>")
    parts.append("</w:style>")
    return "".join(parts)


def _on_new_page(style: Style) -> Style:
    following = style.next or ("Normal" if style.id == "Normal" else style.id)
    return Style(
        f"{style.id}Page",
        f"{style.name} on New Page",
        based_on=style.id,
        next=following,
        paragraph="<w:pageBreakBefore/>",
        hidden=True,
    )


def _list_continuations() -> list[Style]:
    styles = []
    for level in range(1, _DEEPEST_LIST + 1):
        name = "List Continue" if level == 1 else f"List Continue {level}"
        indent = f'<w:spacing w:before="20" w:after="20"/><w:ind w:left="{LIST_STEP * level}"/>'
        styles.append(Style(f"ListContinue{level}", name, paragraph=indent, hidden=True, custom=level > 5))
    return styles


def _contents_rows(sheet: Page) -> list[Style]:
    styles = []
    for level in range(1, _DEEPEST_CONTENTS + 1):
        tab = f'<w:tabs><w:tab w:val="right" w:leader="dot" w:pos="{sheet.text_width}"/></w:tabs>'
        keep, before = ("<w:keepNext/>", 50) if level == 1 else ("", 0)
        spacing = f'<w:spacing w:before="{before}" w:after="0" w:line="232" w:lineRule="auto"/>'
        indent = f'{spacing}<w:ind w:left="{280 * (level - 1)}"/>'
        run = f"<w:b/><w:bCs/>{color('dk2')}" if level == 1 else ""
        styles.append(
            Style(f"TOC{level}", f"toc {level}", next="Normal", paragraph=keep + tab + indent, run=run, custom=False)
        )
    return styles


def _footer(sheet: Page) -> Style:
    tab = f'<w:tabs><w:tab w:val="right" w:pos="{sheet.text_width}"/></w:tabs>'
    spacing = '<w:spacing w:before="0" w:after="0"/>'
    return Style("Footer", "footer", paragraph=tab + spacing, run=color("accent5") + '<w:sz w:val="16"/>', custom=False)


def _joint_marks() -> list[Style]:
    """Return a style for every set of marks; "Strong Emphasis" would be LibreOffice's own name for Strong alone."""
    styles = [Style("DefaultParagraphFont", "Default Paragraph Font", "character", "", hidden=True, custom=False)]
    for count in range(1, len(MARKS) + 1):
        for names in combinations(MARKS, count):
            pieces = sorted((piece for name in names for piece in MARKS[name]), key=_run_place)
            title = " and ".join(_spaced(name) for name in names)
            joint = Style("".join(names), title, "character", "DefaultParagraphFont")
            single = count == 1
            builtin = single and names[0] != "CodeText"
            styles.append(
                Style(
                    joint.id,
                    joint.name,
                    joint.kind,
                    joint.based_on,
                    run="".join(pieces),
                    hidden=not single,
                    custom=not builtin,
                )
            )
    return styles


def _spaced(name: str) -> str:
    return "Code Text" if name == "CodeText" else name


def _run_place(piece: str) -> int:
    found = re.match(r"<w:(\w+)", piece)
    assert found is not None, piece
    return _RUN_ORDER.index(found[1])


def _margins(top: int, left: int, bottom: int, right: int) -> str:
    sides = (("top", top), ("left", left), ("bottom", bottom), ("right", right))
    return "<w:tblCellMar>" + "".join(f'<w:{s} w:w="{w}" w:type="dxa"/>' for s, w in sides) + "</w:tblCellMar>"


def _table_style(name: str, borders: str, margins: str, cell: str = "", regions: str = "") -> str:
    identifier = name.replace(" ", "")
    cell_properties = f"<w:tcPr>{cell}</w:tcPr>" if cell else ""
    return (
        f'<w:style w:type="table" w:customStyle="1" w:styleId="{identifier}"><w:name w:val="{name}"/>'
        '<w:basedOn w:val="TableNormal"/><w:uiPriority w:val="20"/><w:qFormat/>'
        f"<w:tblPr><w:tblBorders>{borders}</w:tblBorders>{margins}</w:tblPr>{cell_properties}{regions}</w:style>"
    )


def _region(kind: str, run: str = "", cell: str = "") -> str:
    run_properties = f"<w:rPr>{run}</w:rPr>" if run else ""
    cell_properties = f"<w:tcPr>{cell}</w:tcPr>" if cell else ""
    return f'<w:tblStylePr w:type="{kind}">{run_properties}{cell_properties}</w:tblStylePr>'


def _cell_borders(*lines: str) -> str:
    return f"<w:tcBorders>{''.join(lines)}</w:tcBorders>"


_SIDES = ("top", "left", "bottom", "right", "insideH", "insideV")
_PALE_LINES, _COPIED_LINES = ("".join(line(side, slot, 4) for side in _SIDES) for slot in ("accent6", "accent5"))
"""Lines around every cell, and such as a copying machine does not lose."""
_HAIRLINES = line("insideH", "accent6", 4)
_FIRST_ROW = _region("firstRow", color("accent2"), _cell_borders(line("bottom", "dk2", 8)))
_RULED = _cell_borders(line("bottom", "accent5", 4))
_FIRST_COLUMN = _region("firstCol", color("dk2"))

_TABLES = "".join(
    (
        '<w:style w:type="table" w:default="1" w:styleId="TableNormal"><w:name w:val="Normal Table"/>'
        '<w:uiPriority w:val="99"/><w:semiHidden/><w:unhideWhenUsed/><w:tblPr><w:tblInd w:w="0" w:type="dxa"/>'
        f"{_margins(0, 0, 0, 0)}</w:tblPr></w:style>",
        '<w:style w:type="numbering" w:default="1" w:styleId="NoList"><w:name w:val="No List"/>'
        '<w:uiPriority w:val="99"/><w:semiHidden/><w:unhideWhenUsed/></w:style>',
        _table_style("Open Table", _HAIRLINES, _margins(45, 0, 45, 170), regions=_FIRST_ROW + _FIRST_COLUMN),
        _table_style("Grid Table", _PALE_LINES, _margins(45, 90, 45, 90), regions=_FIRST_ROW + _FIRST_COLUMN),
        _table_style("Entry Table", _COPIED_LINES, _margins(15, 90, 15, 90), regions=_FIRST_ROW + _FIRST_COLUMN),
        _table_style("Plain Table", "", _margins(20, 0, 20, 200), regions=_FIRST_ROW + _FIRST_COLUMN),
        _table_style(
            "Fact Table",
            line("top", "dk2", 12),
            _margins(0, 0, 50, 170),
            regions=_region("firstRow", color("accent5")),
        ),
        _table_style("Note Table", line("left", "accent2", 36), _margins(40, 200, 60, 200), cell=shade("lt2")),
        _table_style(
            "Writing Table",
            line("top", "accent6", 6),
            _margins(0, 0, 0, 0),
            regions=_region("band1Horz", cell=_RULED) + _region("band2Horz", cell=_RULED),
        ),
    )
)
