"""The document tree: what a page says, whatever it is written to.

A document is a title, some properties and a sequence of blocks. The unions ``Inline`` and ``Block`` are closed: a
writer matches on them and ends in ``assert_never``.
"""

from dataclasses import dataclass
from enum import StrEnum

from lessonkit.document.scene import Scene


@dataclass(frozen=True, slots=True)
class Text:
    """Plain words."""

    text: str


@dataclass(frozen=True, slots=True)
class Strong:
    """Words that matter most."""

    content: "tuple[Inline, ...]"


@dataclass(frozen=True, slots=True)
class Emphasis:
    """Words with stress."""

    content: "tuple[Inline, ...]"


@dataclass(frozen=True, slots=True)
class CodeText:
    """Words to be read letter by letter."""

    text: str


@dataclass(frozen=True, slots=True)
class Link:
    """Words that lead to a web address, or to an anchor of the same document (``#name``)."""

    content: "tuple[Inline, ...]"
    target: str


@dataclass(frozen=True, slots=True)
class LineBreak:
    """A new line inside a paragraph."""


Inline = Text | Strong | Emphasis | CodeText | Link | LineBreak


class Role(StrEnum):
    """What a paragraph is for; a writer gives each its own style."""

    BODY = "body"
    TITLE = "title"
    KICKER = "kicker"
    SUMMARY = "summary"
    CUE = "cue"
    CAPTION = "caption"
    SMALL = "small"
    CODE = "code"
    QUOTE = "quote"
    LETTER = "letter"
    LETTER_SMALL = "letter-small"
    READING = "reading"
    POSTER_HUGE = "poster-huge"
    POSTER_LARGE = "poster-large"
    POSTER = "poster"
    POSTER_SMALL = "poster-small"
    POSTER_LEAST = "poster-least"
    BOARD = "board"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of level 1 (the document or lesson title) to 6; ``anchor`` names it for links, ``key`` its fields.

    Builders use levels 1 to 4; deeper ones come only from an author's Markdown. A cover's title is a paragraph of the
    role ``TITLE``, so that the contents do not list it. With ``poster`` it is read from across a room; with ``large``
    it stands over paragraphs of the role ``LETTER``.
    """

    level: int
    content: tuple[Inline, ...]
    anchor: str | None = None
    new_page: bool = False
    poster: bool = False
    large: bool = False
    key: str | None = None


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph. ``key`` names the record fields that its words came from, as ``keys`` spells them."""

    content: tuple[Inline, ...]
    role: Role = Role.BODY
    key: str | None = None


@dataclass(frozen=True, slots=True)
class ListBlock:
    """A list, numbered from ``start`` or with bullets when ``start`` is None. Every item is a sequence of blocks."""

    items: "tuple[tuple[Block, ...], ...]"
    start: int | None = None


@dataclass(frozen=True, slots=True)
class Cell:
    """A table cell: blocks, and how many columns it spans."""

    blocks: "tuple[Block, ...]"
    span: int = 1
    shaded: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table.

    ``shares`` are column widths in proportion; ``header_rows`` rows repeat on every page; ``title`` is for readers who
    cannot see it. With ``row_header`` the first cell of a row is its heading. ``row_height`` is the least height of a
    row below these in points, for rows that are written in by hand; their words then stand in the middle. ``large`` is
    for tables that are read at a desk, as paragraphs of the role ``READING`` are, and not fitted to a sheet.
    """

    rows: tuple[tuple[Cell, ...], ...]
    shares: tuple[float, ...]
    title: str
    header_rows: int = 1
    row_header: bool = False
    plain: bool = False
    row_height: float = 0.0
    large: bool = False


@dataclass(frozen=True, slots=True)
class KeyValues:
    """Short facts side by side: (name, value) pairs."""

    pairs: tuple[tuple[str, tuple[Inline, ...]], ...]


@dataclass(frozen=True, slots=True)
class CheckBoxes:
    """Boxes to tick, each with its words."""

    items: tuple[tuple[Inline, ...], ...]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A floor drawing. ``says`` describes it to those who cannot see it; ``width`` is its share of the text width."""

    scene: Scene
    says: str
    width: float = 1.0


@dataclass(frozen=True, slots=True)
class Note:
    """Words set apart: a safety note, or something a substitute must not miss."""

    title: str
    blocks: "tuple[Block, ...]"


@dataclass(frozen=True, slots=True)
class WritingSpace:
    """Room for handwriting: a number of ruled lines under a title."""

    title: str
    lines: int


@dataclass(frozen=True, slots=True)
class Contents:
    """The table of contents: (level, words, anchor, page) rows, page numbers as they will be printed (0: not known).

    ``gathers`` is the deepest level of headings that a program takes in when it renews the rows, where that is not the
    deepest level of the rows themselves.
    """

    rows: tuple[tuple[int, str, str, int], ...]
    gathers: int | None = None


@dataclass(frozen=True, slots=True)
class PageBreak:
    """The next block starts on a new page."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A line across the page; with ``cut`` a broken one, along which the sheet is cut."""

    cut: bool = False


Block = (
    Heading
    | Paragraph
    | ListBlock
    | Table
    | KeyValues
    | CheckBoxes
    | Drawing
    | Note
    | WritingSpace
    | Contents
    | PageBreak
    | Rule
)


@dataclass(frozen=True, slots=True)
class Document:
    """A whole document. ``footer`` stands at the left of every page's foot; the page number at the right.

    ``date`` is the ISO date that the document bears as its creation date; ``language`` an IETF tag; ``paper`` the sheet
    (``letter`` or ``a4``). ``pages`` is the number of pages it is known to print on, None when nobody has counted.
    ``about`` is the key of the record that the pages are made for, as ``keys`` spells it.
    """

    title: str
    subject: str
    author: str
    footer: str
    date: str
    blocks: tuple[Block, ...]
    language: str = "en-US"
    paper: str = "letter"
    landscape: bool = False
    keywords: tuple[str, ...] = ()
    pages: int | None = None
    about: str = ""


def text(words: str) -> tuple[Inline, ...]:
    """Return plain words as inline content."""
    return (Text(words),)


def strong(words: str) -> tuple[Inline, ...]:
    """Return plain words in strong type as inline content."""
    return (Strong((Text(words),)),)


def plain(content: tuple[Inline, ...]) -> str:
    """Return the words of inline content without their form."""
    words: list[str] = []
    for inline in content:
        match inline:
            case Text(text=value) | CodeText(text=value):
                words.append(value)
            case LineBreak():
                words.append(" ")
            case Strong(content=inner) | Emphasis(content=inner) | Link(content=inner):
                words.append(plain(inner))
    return "".join(words)
