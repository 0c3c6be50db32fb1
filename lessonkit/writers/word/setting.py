"""What stands around the text of a Word file: page, styles, theme, fonts, headers and footers, ours or a school's."""

from dataclasses import dataclass, replace
from functools import lru_cache
from xml.etree import ElementTree as Xml

from lessonkit.writers.options import SchoolLook
from lessonkit.writers.palette import PALETTE
from lessonkit.writers.word.base import Base, read_base
from lessonkit.writers.word.furniture import Furniture
from lessonkit.writers.word.page import OWN_FOOTER, Page, page, section
from lessonkit.writers.word.pagination_looks import Looks, read_looks, w
from lessonkit.writers.word.pagination_pieces import Reader, stacked
from lessonkit.writers.word.properties import fonts_part, settings_part
from lessonkit.writers.word.school_colors import recolored
from lessonkit.writers.word.styles import SchoolStyles, styles_part
from lessonkit.writers.word.theme import FONT, theme_part

_AIR = 200
"""Twentieths of a point between a header or footer and the text."""
_NEAREST, _FARTHEST = 300, 1000
_MOST = 0.3
"""The share of the page that a header or a footer may take; a larger one is a picture behind the text."""
_FIRST_RELATION = 1
_PLACED = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}anchor"

_OURS = Base(PALETTE, FONT, FONT, {}, ())


@dataclass(frozen=True, slots=True)
class Setting:
    """Everything around a text: the page and the parts that it lies among."""

    sheet: Page
    base: Base
    styles: bytes
    looks: Looks
    language: str

    @property
    def furniture(self) -> Furniture:
        """The school's headers and footers; empty without a look of its own."""
        return self.base.furniture

    @property
    def theme(self) -> bytes:
        """The theme part."""
        return theme_part(self.base.colors, self.base.heading_font, self.base.font)

    @property
    def fonts(self) -> bytes:
        """The font table."""
        return fonts_part((self.base.heading_font, self.base.font))

    @property
    def settings(self) -> bytes:
        """The settings part."""
        return settings_part(self.language, self.furniture.even_pages)

    @property
    def relations(self) -> tuple[tuple[str, str, str], ...]:
        """The relation, kind and name below ``word/`` of each header and footer that is not ours."""
        shown = enumerate(self.furniture.shown, start=_FIRST_RELATION)
        return tuple((f"rIdSchool{number}", kind, file) for number, (kind, _, file) in shown)

    def section(self) -> str:
        """Return the section properties. Where the school has no footer for a kind of page, ours stands there."""
        shown = self.furniture.shown
        around = [
            (kind, side, identity) for (kind, side, _), (identity, _, _) in zip(shown, self.relations, strict=True)
        ]
        sides = ("default", *(("first",) if self.furniture.title_page else ()))
        if self.furniture.even_pages:
            sides = (*sides, "even")
        has = {side for kind, side, _ in around if kind == "footer"}
        own = [(OWN_FOOTER[0], side, OWN_FOOTER[2]) for side in sides if side not in has]
        return section(self.sheet, (*around, *own), title_page=self.furniture.title_page)

    def tinted(self, markup: str) -> str:
        """Return markup of ours in the school's colours."""
        return markup if self.base is _OURS else recolored(markup, self.base.colors)


@lru_cache(maxsize=16)
def setting(paper: str, landscape: bool, language: str, look: SchoolLook | None = None) -> Setting:
    """Return the setting of a document. Raises UnsafeFileError where a school's file cannot be used."""
    sheet = page(paper, landscape)
    if look is None:
        styles = styles_part(sheet, language)
        return Setting(sheet, _OURS, styles, read_looks(styles), language)
    base = read_base(look)
    school = SchoolStyles(tuple(sorted(base.styles.items())), base.further)
    styles = recolored(styles_part(sheet, language, school).decode(), base.colors).encode()
    looks = read_looks(styles, (base.heading_font, base.font))
    return Setting(_with_room(sheet, base.furniture, looks), base, styles, looks, language)


def _with_room(sheet: Page, around: Furniture, looks: Looks) -> Page:
    """Return a page whose margins leave room for the school's header and footer."""
    heights = {"header": 0, "footer": 0}
    files = {part.name: part.content for part in around.parts}
    for kind, _, file in around.shown:
        height = _height(files[f"word/{file}"], sheet, looks)
        heights[kind] = max(heights[kind], min(height, round(sheet.height * _MOST)))
    header_at, footer_at = (
        min(max(given, _NEAREST), _FARTHEST) if heights[kind] else 420
        for kind, given in (("header", around.header_at), ("footer", around.footer_at))
    )
    top = header_at + heights["header"] + _AIR if heights["header"] else 0
    bottom = footer_at + heights["footer"] + _AIR if heights["footer"] else 0
    return replace(
        sheet,
        top=max(sheet.top, top),
        bottom=max(sheet.bottom, bottom),
        header_at=header_at,
        footer_at=footer_at,
    )


def _height(part: bytes, sheet: Page, looks: Looks) -> int:
    """Return the height of a header or footer; pictures that stand behind the text take none."""
    root = Xml.fromstring(part)
    for run in list(root.iter(w("drawing"))):
        for anchor in run.findall(_PLACED):
            if anchor.get("behindDoc") == "1":
                run.remove(anchor)
    return stacked(list(Reader(looks).pieces(root, sheet.text_width)))
