"""How words and paragraphs of a Word file look in the end: its styles, lists, theme fonts and direct marks as one.

Programs that save a file again write the same look in other places; the look in the end stays the same.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from xml.etree import ElementTree as Xml

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_OFF = frozenset(("0", "false", "off", "none"))
_TOGGLES = {
    **{"b": "bold", "i": "italic", "strike": "struck", "dstrike": "struck", "caps": "caps", "smallCaps": "small"},
    **{"vanish": "hidden", "outline": "outline", "shadow": "shadow", "emboss": "relief", "imprint": "relief"},
}
_DISTANCES = ("left", "right", "first", "before", "after", "line")

Look = Mapping[str, str]
"""Properties by name; one that is missing or empty is as usual."""


def name(tag: str) -> str:
    """Return a name of WordprocessingML as the reader of XML spells it."""
    return _W + tag


def value(element: Xml.Element | None, attribute: str = "val") -> str:
    """Return an attribute of WordprocessingML; empty where element or attribute is missing."""
    return "" if element is None else element.get(_W + attribute, "")


@dataclass(frozen=True, slots=True)
class _Style:
    title: str
    parent: str
    run: Look
    paragraph: Look


class Styles:
    """The styles, lists and theme fonts of a file; each answer is a look or a name."""

    def __init__(self, styles: Xml.Element | None, numbering: Xml.Element | None, theme: Xml.Element | None) -> None:
        self._fonts = dict(_theme_fonts(theme))
        self._styles: dict[str, _Style] = {}
        self._default = ""
        self._base: tuple[dict[str, str], dict[str, str]] = ({}, {})
        self._resolved: dict[str, tuple[dict[str, str], dict[str, str]]] = {}
        self._levels: dict[tuple[str, str], tuple[str, Look]] = {}
        self._grounds: dict[str, str] = {}
        if styles is not None:
            self._read_styles(styles)
        if numbering is not None:
            self._read_lists(numbering)

    def ground(self, table: Xml.Element) -> str:
        """Return the colour of the ground that a table's style gives to its cells; empty for none."""
        return self._grounds.get(value(table.find(f"{name('tblPr')}/{name('tblStyle')}")), "")

    def title(self, style: str) -> str:
        """Return the name of a style, by which all programs know it; that of plain paragraphs for the empty id."""
        found = self._styles.get(style or self._default)
        return found.title if found else style

    def paragraph(self, properties: Xml.Element | None) -> tuple[dict[str, str], dict[str, str]]:
        """Return the look of a paragraph and of the words in it, from its properties."""
        style = value(properties.find(name("pStyle"))) if properties is not None else ""
        run, paragraph = self._style(style or self._default)
        look = dict(paragraph)
        if properties is not None:
            number = properties.find(name("numPr"))
            if number is not None:
                look.update(self._level(value(number.find(name("numId"))), value(number.find(name("ilvl"))) or "0"))
            look.update(_paragraph_look(properties))
        return run, look

    def words(self, around: Look, properties: Xml.Element | None) -> dict[str, str]:
        """Return the look of a run in a paragraph whose words look like ``around``."""
        look = dict(around)
        if properties is not None:
            style = value(properties.find(name("rStyle")))
            if style:
                look.update(self._style(style, inherit=False)[0])
            look.update(self._run_look(properties))
        return {key: found for key, found in look.items() if found}

    def _style(self, style: str, *, inherit: bool = True) -> tuple[dict[str, str], dict[str, str]]:
        key = f"{style}|{inherit}"
        if key not in self._resolved:
            self._resolved[key] = self._chain(style, inherit)
        return self._resolved[key]

    def _chain(self, style: str, inherit: bool) -> tuple[dict[str, str], dict[str, str]]:
        chain: list[_Style] = []
        seen: set[str] = set()
        while style in self._styles and style not in seen:
            seen.add(style)
            chain.append(self._styles[style])
            style = chain[-1].parent
        run, paragraph = (dict(part) for part in self._base) if inherit else ({}, {})
        for each in reversed(chain):
            run.update(each.run)
            paragraph.update(each.paragraph)
        return run, paragraph

    def _read_styles(self, styles: Xml.Element) -> None:
        defaults = styles.find(name("docDefaults"))
        if defaults is not None:
            run, paragraph = defaults.find(f".//{name('rPr')}"), defaults.find(f".//{name('pPr')}")
            self._base = (
                {} if run is None else dict(self._run_look(run)),
                {} if paragraph is None else dict(_paragraph_look(paragraph)),
            )
        for style in styles.iter(name("style")):
            identity = value(style, "styleId")
            run, paragraph = style.find(name("rPr")), style.find(name("pPr"))
            self._grounds[identity] = fill(value(style.find(f"{name('tcPr')}/{name('shd')}"), "fill"))
            self._styles[identity] = _Style(
                value(style.find(name("name"))).lower(),
                value(style.find(name("basedOn"))),
                {} if run is None else dict(self._run_look(run)),
                {} if paragraph is None else dict(_paragraph_look(paragraph)),
            )
            if value(style, "type") == "paragraph" and value(style, "default") not in ("", *_OFF):
                self._default = identity

    def _read_lists(self, numbering: Xml.Element) -> None:
        kinds = {value(each, "abstractNumId"): each for each in numbering.iter(name("abstractNum"))}
        for number in numbering.iter(name("num")):
            kind = kinds.get(value(number.find(name("abstractNumId"))))
            for level in () if kind is None else kind.iter(name("lvl")):
                properties = level.find(name("pPr"))
                look = {} if properties is None else dict(_paragraph_look(properties))
                form = value(level.find(name("numFmt")))
                place = value(level, "ilvl")
                self._levels[value(number, "numId"), place] = (form, look)

    def _level(self, number: str, place: str) -> dict[str, str]:
        form, look = self._levels.get((number, place), ("", {}))
        return {**look, "list": f"{form} {place}"} if form and form != "none" else {"list": ""}

    def _run_look(self, properties: Xml.Element) -> Iterator[tuple[str, str]]:
        for element in properties:
            tag = element.tag.removeprefix(_W)
            if tag in _TOGGLES:
                yield _TOGGLES[tag], "" if value(element) in _OFF else "yes"
            elif tag == "u":
                yield "underlined", "" if value(element) in _OFF else "yes"
            elif tag == "color":
                yield "colour", value(element).upper().replace("AUTO", "")
            elif tag == "sz":
                yield "size", value(element)
            elif tag == "vertAlign":
                yield "raised", value(element).replace("baseline", "")
            elif tag in ("highlight", "shd"):
                yield "marked", fill(value(element) if tag == "highlight" else value(element, "fill"))
            elif tag == "rFonts":
                theme = self._fonts.get(value(element, "asciiTheme")[:5], "")
                font = theme or value(element, "ascii")
                if font:
                    yield "font", font


def _paragraph_look(properties: Xml.Element) -> Iterator[tuple[str, str]]:
    for element in properties:
        tag = element.tag.removeprefix(_W)
        if tag == "jc":
            yield "align", {"left": "", "start": "", "end": "right"}.get(value(element), value(element))
        elif tag == "pageBreakBefore":
            yield "new page", "" if value(element) in _OFF else "yes"
        elif tag == "shd":
            yield "shaded", fill(value(element, "fill"))
        elif tag == "ind":
            yield from _indents(element)
        elif tag == "spacing":
            for side in ("before", "after", "line"):
                if value(element, side):
                    yield side, value(element, side)


def _indents(element: Xml.Element) -> Iterator[tuple[str, str]]:
    left, right = value(element, "left") or value(element, "start"), value(element, "right") or value(element, "end")
    if left:
        yield "left", left
    if right:
        yield "right", right
    if value(element, "hanging") not in ("", "0"):
        yield "first", f"-{value(element, 'hanging')}"
    elif value(element, "firstLine"):
        yield "first", value(element, "firstLine")


def distances(look: Look) -> tuple[int, ...]:
    """Return indents and spacing of a paragraph in twentieths of a point, zero where nothing is said."""
    return tuple(whole(look.get(side, "")) for side in _DISTANCES)


def whole(written: str) -> int:
    """Return a measure as a whole number; 0 for what is none."""
    try:
        return round(float(written or 0))
    except (ValueError, OverflowError):
        return 0


def fill(color: str) -> str:
    """Return the colour of a ground; empty for none."""
    return "" if color.lower() in ("", "auto", "none") else color.upper()


def _theme_fonts(theme: Xml.Element | None) -> Iterator[tuple[str, str]]:
    for kind in ("major", "minor"):
        found = None if theme is None else theme.find(f".//{_A}{kind}Font/{_A}latin")
        if found is not None and found.get("typeface"):
            yield kind, found.get("typeface", "")
