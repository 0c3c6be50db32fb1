"""The styles of another Word file, each with all that it inherits, as markup for one of our own styles."""

from collections.abc import Mapping
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.markup import element_text
from lessonkit.writers.word.resolved import name, value

SPACE: Final = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_PREFIXES: Final = {SPACE: "w"}
_PARAGRAPH_ORDER: Final = [
    "keepNext",
    "keepLines",
    "widowControl",
    "suppressLineNumbers",
    "pBdr",
    "shd",
    "tabs",
    "suppressAutoHyphens",
    "kinsoku",
    "wordWrap",
    "overflowPunct",
    "topLinePunct",
    "autoSpaceDE",
    "autoSpaceDN",
    "bidi",
    "adjustRightInd",
    "snapToGrid",
    "spacing",
    "ind",
    "contextualSpacing",
    "mirrorIndents",
    "suppressOverlap",
    "jc",
    "textDirection",
    "textAlignment",
    "textboxTightWrap",
    "outlineLvl",
]
_RUN_ORDER: Final = [
    "rFonts",
    "b",
    "bCs",
    "i",
    "iCs",
    "caps",
    "smallCaps",
    "strike",
    "dstrike",
    "outline",
    "shadow",
    "emboss",
    "imprint",
    "noProof",
    "color",
    "spacing",
    "w",
    "kern",
    "position",
    "sz",
    "szCs",
    "highlight",
    "u",
    "effect",
    "bdr",
    "shd",
    "fitText",
    "vertAlign",
    "rtl",
    "cs",
    "em",
]
"""Properties that are taken over, in the order of the standard (ISO/IEC 29500-1, 17.3.1.26 and 17.3.2.28)."""
_JOINED: Final = ("spacing", "ind", "rFonts")
_THEMED: Final = {"ascii": "asciiTheme", "hAnsi": "hAnsiTheme", "eastAsia": "eastAsiaTheme", "cs": "cstheme"}
_START: Final = {
    "spacing": {"before": "0", "after": "0", "line": "240", "lineRule": "auto"},
}
_LETTERS: Final = {"sz": {"val": "20"}, "szCs": {"val": "20"}}

Properties = dict[str, Xml.Element]


class FlatStyles:
    """The styles of a file by id and by name."""

    def __init__(self, styles: Xml.Element | None) -> None:
        self._styles: dict[str, Xml.Element] = {}
        self._defaults: tuple[Xml.Element | None, Xml.Element | None] = (None, None)
        self.default = ""
        if styles is None:
            return
        defaults = styles.find(name("docDefaults"))
        if defaults is not None:
            self._defaults = (defaults.find(f".//{name('pPr')}"), defaults.find(f".//{name('rPr')}"))
        for style in styles.findall(name("style")):
            self._styles[value(style, "styleId")] = style
            if value(style, "type") == "paragraph" and value(style, "default") in ("1", "true", "on"):
                self.default = value(style, "styleId")

    def ids(self, kind: str) -> list[str]:
        """Return the ids of all styles of a kind, as they stand in the file."""
        return [identity for identity, style in self._styles.items() if value(style, "type") == kind]

    def title(self, identity: str) -> str:
        """Return a style's name."""
        return value(self._styles[identity].find(name("name")))

    def find(self, title: str, kind: str = "paragraph") -> str | None:
        """Return the id of the style with a name, whatever its capitals; None where there is none."""
        wanted = title.casefold()
        return next((each for each in self.ids(kind) if self.title(each).casefold() == wanted), None)

    def raw(self, identity: str) -> Xml.Element | None:
        """Return a style as it stands in the file."""
        return self._styles.get(identity)

    def properties(self, identity: str) -> tuple[Properties, Properties]:
        """Return what a style comes to for paragraphs and for letters, defaults of the file included."""
        chain: list[Xml.Element] = []
        while identity in self._styles and self._styles[identity] not in chain:
            chain.append(self._styles[identity])
            identity = value(chain[-1].find(name("basedOn")))
        whole = not chain or value(chain[0], "type") != "character"
        paragraph, run = (_made(_START), _made(_LETTERS)) if whole else ({}, {})
        if whole:
            _merge(paragraph, self._defaults[0])
            _merge(run, self._defaults[1])
        for style in reversed(chain):
            _merge(paragraph, style.find(name("pPr")))
            _merge(run, style.find(name("rPr")))
        return paragraph, run


def paragraph_markup(properties: Mapping[str, Xml.Element]) -> str:
    """Return paragraph properties in their order."""
    return _markup(properties, _PARAGRAPH_ORDER)


def run_markup(properties: Mapping[str, Xml.Element]) -> str:
    """Return letter properties in their order."""
    return _markup(properties, _RUN_ORDER)


def _markup(properties: Mapping[str, Xml.Element], order: list[str]) -> str:
    return "".join(element_text(_only_ours(properties[each]), _PREFIXES) for each in order if each in properties)


def _only_ours(element: Xml.Element) -> Xml.Element:
    """Return an element without what belongs to other namespaces, which a reader may ignore."""
    kept = Xml.Element(element.tag, {key: each for key, each in element.items() if key.startswith(f"{{{SPACE}}}")})
    kept.extend(_only_ours(child) for child in element if child.tag.startswith(f"{{{SPACE}}}"))
    return kept


def _made(values: Mapping[str, Mapping[str, str]]) -> Properties:
    return {
        tag: Xml.Element(name(tag), {name(key): each for key, each in given.items()}) for tag, given in values.items()
    }


def _merge(properties: Properties, more: Xml.Element | None) -> None:
    for element in () if more is None else more:
        if not element.tag.startswith(f"{{{SPACE}}}"):
            continue
        tag = element.tag.removeprefix(f"{{{SPACE}}}")
        if tag in _JOINED and tag in properties:
            joined = dict(properties[tag].items())
            for plain, theme in _THEMED.items():
                if tag == "rFonts" and name(plain) in element.attrib:
                    joined.pop(name(theme), None)
            if tag == "ind" and {name("hanging"), name("firstLine")} & element.keys():
                joined = {key: each for key, each in joined.items() if key not in (name("hanging"), name("firstLine"))}
            properties[tag] = Xml.Element(element.tag, {**joined, **dict(element.items())})
        else:
            properties[tag] = element
