"""Sheets of paper and the room that a page leaves for text, in twentieths of a point."""

from dataclasses import dataclass

TWIPS_PER_INCH = 1440
EMU_PER_TWIP = 635
_SHEETS = {"letter": (12240, 15840), "a4": (11906, 16838)}


@dataclass(frozen=True, slots=True)
class Page:
    """A page: its size, its margins at the sides, the top and the bottom, and how far header and footer stand in."""

    width: int
    height: int
    side: int
    top: int
    bottom: int
    landscape: bool
    header_at: int = 420
    footer_at: int = 420

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


OWN_FOOTER = ("footer", "default", "rId6")
"""The kind, the pages and the relation of the footer that we make ourselves."""


def section(sheet: Page, around: tuple[tuple[str, str, str], ...] = (OWN_FOOTER,), *, title_page: bool = False) -> str:
    """Return the section properties that end a document's body.

    ``around`` are the headers and footers: kind, which pages (``default``, ``first``, ``even``), relation.
    """
    turned = ' w:orient="landscape"' if sheet.landscape else ""
    references = "".join(f'<w:{kind}Reference w:type="{side}" r:id="{identity}"/>' for kind, side, identity in around)
    return (
        f'<w:sectPr>{references}<w:pgSz w:w="{sheet.width}" w:h="{sheet.height}"{turned}/>'
        f'<w:pgMar w:top="{sheet.top}" w:right="{sheet.side}" w:bottom="{sheet.bottom}" w:left="{sheet.side}"'
        f' w:header="{sheet.header_at}" w:footer="{sheet.footer_at}" w:gutter="0"/>'
        f"{'<w:titlePg/>' if title_page else ''}</w:sectPr>"
    )
