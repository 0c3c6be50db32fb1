"""The pages of a Word file, counted before any program opens it.

Word keeps page numbers as fields and works them out only when asked; a table of contents that is right from the start
needs them counted here. The counter reads the markup that the writer made: its styles, widths and breaks. It knows no
kerning and no hyphenation and is meant for whole pages, not for the place of a line.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from lessonkit.document.model import Block, Contents, Document
from lessonkit.writers.word.ledger import anchor_bookmark
from lessonkit.writers.word.pagination_pieces import Piece

_FEWEST = 2
"""Fewest lines of a paragraph at the foot or the head of a page."""


@dataclass(frozen=True, slots=True)
class Pages:
    """How many pages a body takes, the page on which each bookmark stands, from 1, and how full the last one is."""

    total: int
    places: Mapping[str, int]
    filled: int = 0


def with_pages(document: Document, pages: Pages) -> Document:
    """Return a document whose total and whose contents, where nobody has counted, are filled in."""
    blocks = tuple(_filled(block, pages) for block in document.blocks)
    return replace(document, blocks=blocks, pages=document.pages or pages.total)


def _filled(block: Block, pages: Pages) -> Block:
    if not isinstance(block, Contents):
        return block
    rows = tuple(
        (level, words, anchor, page or pages.places.get(anchor_bookmark(anchor), 0))
        for level, words, anchor, page in block.rows
    )
    return replace(block, rows=rows)


def fill_pages(pieces: Sequence[Piece], room: int) -> Pages:
    """Return the pages that pieces fill one after the other, each page with the same room."""
    press = _Press(room)
    for piece, need in zip(pieces, _needs(pieces, room), strict=True):
        press.put(piece, need)
    return Pages(press.page, press.places, press.filled)


def _needs(pieces: Sequence[Piece], room: int) -> list[int]:
    """Return for each piece how much room it needs to begin on a page: for itself and for what it keeps together."""
    needs: list[int] = []
    following: Piece | None = None
    for piece in reversed(pieces):
        own = sum(piece.lines if _is_whole(piece) else piece.lines[:_FEWEST])
        if piece.keep_next and following is not None and not following.new_page:
            joined = own + max(piece.after, following.before) + needs[-1]
            own = joined if joined <= room else own
        needs.append(own)
        following = piece
    return needs[::-1]


def _is_whole(piece: Piece) -> bool:
    return piece.whole or piece.keep_next or len(piece.lines) < 2 * _FEWEST


@dataclass(slots=True)
class _Press:
    """Pages being filled: the page, how far it is filled, and the head of the table that is being set.

    ``after`` is the distance that the last piece asks for; it may hang out of the page.
    """

    room: int
    page: int = 1
    filled: int = 0
    after: int = 0
    table: int = 0
    head: int = 0
    places: dict[str, int] = field(default_factory=dict)

    def put(self, piece: Piece, need: int) -> None:
        """Set a piece on this page, or on the next where it does not fit."""
        if piece.table != self.table:
            self.table, self.head = piece.table, 0
        distance = max(self.after, piece.before)
        if self.filled and (piece.new_page or self.filled + distance + need > self.room):
            self._turn(piece)
            distance = piece.before if piece.new_page else 0
        self.filled += distance
        if piece.head:
            self.head += sum(piece.lines)
        for name in piece.names:
            self.places.setdefault(name, self.page)
        self._set(piece)
        self.after = piece.after

    def _turn(self, piece: Piece) -> None:
        self.page += 1
        self.filled = 0 if piece.head else self.head

    def _set(self, piece: Piece) -> None:
        """Set the lines; those of a whole piece stay together, and go over only where no page can hold them."""
        if _is_whole(piece) and sum(piece.lines) <= self.room:
            self.filled += sum(piece.lines)
            return
        for line in piece.lines:
            if self.filled and self.filled + line > self.room:
                self._turn(piece)
            self.filled += line
            while self.filled > self.room:
                self.page += 1
                self.filled -= self.room
