"""What the styles of our Word files mean for the room that words take, read back from the styles part itself."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.font_sizes import font_size
from lessonkit.writers.word.resolved import whole

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_FIXED_FONT = "Consolas"
_SIDES = ("top", "left", "bottom", "right")


def w(name: str) -> str:
    """Return a name of WordprocessingML as the reader of XML spells it."""
    return _W + name


def value(element: Xml.Element | None, attribute: str = "val") -> str:
    """Return an attribute of WordprocessingML; empty where element or attribute is missing."""
    return "" if element is None else element.get(_W + attribute, "")


@dataclass(frozen=True, slots=True)
class Look:
    """A paragraph or character style resolved: letters in half points, everything else in twentieths of a point.

    ``line`` is in 240ths of the font's own line, or the height itself where it is ``exact``; ``above`` and ``below``
    are what borders take; ``fixed`` letters are a typewriter's.
    """

    size: int = 20
    bold: bool = False
    caps: bool = False
    fixed: bool = False
    wide: float = 1.0
    tall: float = 1.0
    apart: int = 0
    before: int = 0
    after: int = 0
    line: int = 240
    exact: bool = False
    left: int = 0
    right: int = 0
    hanging: int = 0
    above: int = 0
    below: int = 0
    keep_next: bool = False
    keep_lines: bool = False
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class TableLook:
    """A table style: the margins of its cells, and what the line between two rows and above the first takes."""

    top: int = 0
    left: int = 0
    bottom: int = 0
    right: int = 0
    between: int = 0
    first: int = 0


@dataclass(frozen=True, slots=True)
class Looks:
    """The styles of a file by their ids. ``marks`` are what character styles change."""

    paragraphs: Mapping[str, Look]
    marks: Mapping[str, Mapping[str, Any]]
    tables: Mapping[str, TableLook]


Fonts = tuple[str, str]
"""The fonts of headings and of all other words that the theme names."""
_OWN_FONTS: Fonts = ("Calibri", "Calibri")
_OFF = frozenset(("0", "false", "off"))


@lru_cache(maxsize=8)
def read_looks(styles: bytes, fonts: Fonts = _OWN_FONTS) -> Looks:
    """Return the styles that a styles part declares. A style stands behind the one that it is based on."""
    root = Xml.fromstring(styles)
    defaults = root.find(w("docDefaults"))
    plain = replace(Look(), **dict(_changes(defaults, fonts))) if defaults is not None else Look()
    paragraphs: dict[str, Look] = {}
    marks: dict[str, Mapping[str, Any]] = {}
    tables: dict[str, TableLook] = {}
    for style in root.iter(w("style")):
        name, kind = value(style, "styleId"), value(style, "type")
        if kind == "paragraph":
            parent = paragraphs.get(value(style.find(w("basedOn"))), plain)
            paragraphs[name] = replace(parent, **dict(_changes(style, fonts)))
        elif kind == "character":
            marks[name] = dict(_changes(style, fonts))
        elif kind == "table":
            tables[name] = _table(style)
    return Looks(paragraphs, marks, tables)


def _changes(style: Xml.Element, fonts: Fonts) -> Iterator[tuple[str, Any]]:
    for properties in style.iter(w("pPr")):
        for element in properties:
            yield from _of_paragraph(element)
    for properties in style.iter(w("rPr")):
        for element in properties:
            yield from _of_letters(element, fonts)


def _of_paragraph(element: Xml.Element) -> Iterator[tuple[str, Any]]:
    match element.tag.removeprefix(_W):
        case "keepNext":
            yield "keep_next", value(element) not in _OFF
        case "keepLines":
            yield "keep_lines", value(element) not in _OFF
        case "pageBreakBefore":
            yield "new_page", value(element) not in _OFF
        case "spacing":
            yield from (
                (name, whole(value(element, name))) for name in ("before", "after", "line") if value(element, name)
            )
            yield "exact", value(element, "lineRule") in ("exact", "atLeast")
        case "ind":
            names = ("left", "right", "hanging")
            yield from ((name, whole(value(element, name))) for name in names if value(element, name))
        case "pBdr":
            yield "above", _border(element.find(w("top")))
            yield "below", _border(element.find(w("bottom")))
        case _:
            return


def _of_letters(element: Xml.Element, fonts: Fonts) -> Iterator[tuple[str, Any]]:
    match element.tag.removeprefix(_W):
        case "sz":
            yield "size", whole(value(element))
        case "b":
            yield "bold", value(element) not in _OFF
        case "caps":
            yield "caps", value(element) not in _OFF
        case "spacing":
            yield "apart", whole(value(element))
        case "rFonts" if value(element, "ascii") == _FIXED_FONT:
            yield "fixed", True
            yield "wide", 1.0
        case "rFonts":
            theme = value(element, "asciiTheme")
            font = fonts[0 if theme.startswith("major") else 1] if theme else value(element, "ascii")
            if font:
                yield from zip(("wide", "tall"), font_size(font), strict=True)
        case _:
            return


def _border(line: Xml.Element | None) -> int:
    """Return what a border takes: its thickness in eighths of a point and its distance in points."""
    return 0 if line is None else round(whole(value(line, "sz")) * 2.5) + 20 * whole(value(line, "space"))


def _table(style: Xml.Element) -> TableLook:
    margins = style.find(f"{w('tblPr')}/{w('tblCellMar')}")
    sides = {}
    for side in _SIDES:
        found = None if margins is None else margins.find(w(side))
        sides[side] = whole(value(found, "w"))
    borders = style.find(f"{w('tblPr')}/{w('tblBorders')}")
    lines = {name: None if borders is None else borders.find(w(name)) for name in ("insideH", "top")}
    return TableLook(**sides, between=_border(lines["insideH"]), first=_border(lines["top"]))
