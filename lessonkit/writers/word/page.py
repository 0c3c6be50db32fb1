"""Sheets of paper and the room that a page leaves for text, in twentieths of a point."""

from dataclasses import dataclass

TWIPS_PER_INCH = 1440
EMU_PER_TWIP = 635
_SHEETS = {"letter": (12240, 15840), "a4": (11906, 16838)}


@dataclass(frozen=True, slots=True)
class Page:
    """A page: its size, and its margins at the sides, the top and the bottom."""

    width: int
    height: int
    side: int
    top: int
    bottom: int
    landscape: bool

    @property
    def text_width(self) -> int:
        """The width that text and tables may take."""
        return self.width - 2 * self.side

    @property
    def text_height(self) -> int:
        """The height that text may take."""
        return self.height - self.top - self.bottom


def page(paper: str, landscape: bool) -> Page:
    """Return the page of a paper (``letter`` or ``a4``); raises KeyError for any other."""
    width, height = _SHEETS[paper]
    if landscape:
        width, height = height, width
    return Page(width, height, side=936, top=720, bottom=820, landscape=landscape)


def section(sheet: Page) -> str:
    """Return the section properties that end a document's body."""
    turned = ' w:orient="landscape"' if sheet.landscape else ""
    return (
        '<w:sectPr><w:footerReference w:type="default" r:id="rId6"/>'
        f'<w:pgSz w:w="{sheet.width}" w:h="{sheet.height}"{turned}/>'
        f'<w:pgMar w:top="{sheet.top}" w:right="{sheet.side}" w:bottom="{sheet.bottom}" w:left="{sheet.side}"'
        ' w:header="420" w:footer="420" w:gutter="0"/></w:sectPr>'
    )
