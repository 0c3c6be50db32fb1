"""Page breaks that settle how many pages a part of a document takes, where programs could come to different numbers.

Two programs break lines a little differently, and over some pages this may add up to a line or two. Where a part ends
so near to the foot of a page that this decides whether it takes one page more, its last blocks are put on a page of
their own, or the last rows of a table: then every program turns the page at the same place, and the contents stay
right.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from lessonkit.document.model import Block, Heading, PageBreak, Paragraph, Table
from lessonkit.writers.word.pagination import fill_pages
from lessonkit.writers.word.pagination_pieces import Piece

SPARE = 9.0
"""Points at the foot of each page that lessons and cards leave free: a line of theirs."""

_SPARE_OF_LONG_PARTS = 30.0
"""The same for parts of more than two pages, in which small differences add up."""

_WELL_FILLED = 0.75
"""The share of a page that should be filled before a break."""
_FEWEST_ROWS, _MOST_ROWS = 3, 15
"""Rows of a parted table that stand together at the least, and that go over to the next page at the most."""

PiecesOf = Callable[[tuple[Block, ...]], Sequence[Piece]]
Part = tuple[Block, ...]


def settled(blocks: Part, pieces: Sequence[Piece], pieces_of: PiecesOf, room: int) -> Part:
    """Return the blocks with a page break added in each part whose number of pages is in doubt.

    ``pieces`` are those of the blocks, and ``pieces_of`` gives those of some of them; ``room`` is the height of a page
    in twentieths of a point.
    """
    parts = _parts(blocks)
    of_parts = _parts_of(pieces)
    if len(parts) != len(of_parts):
        of_parts = [pieces_of(part) for part in parts]
    found: list[Block] = []
    for part, of_part in zip(parts, of_parts, strict=True):
        fewest, most = _range(of_part, room)
        found.extend(part if fewest == most else _settled(part, most, pieces_of, room))
    return tuple(found)


def _parts(blocks: Part) -> list[Part]:
    starts = [place for place, block in enumerate(blocks) if place and _begins(blocks[place - 1], block)]
    return [blocks[start:end] for start, end in pairwise([0, *starts, len(blocks)])]


def _begins(before: Block, block: Block) -> bool:
    """Tell whether a block begins a page; a heading after a page break belongs to the break."""
    if isinstance(before, PageBreak):
        return False
    return isinstance(block, PageBreak) or (isinstance(block, Heading) and block.new_page)


def _parts_of(pieces: Sequence[Piece]) -> list[Sequence[Piece]]:
    starts = [place for place, piece in enumerate(pieces) if place and piece.new_page]
    return [pieces[start:end] for start, end in pairwise([0, *starts, len(pieces)])]


def _range(pieces: Sequence[Piece], room: int) -> tuple[int, int]:
    """Return the fewest and the most pages that pieces may take."""
    spare = SPARE if fill_pages(pieces, room).total <= 2 else _SPARE_OF_LONG_PARTS
    fewest, most = (fill_pages(pieces, room - round(points * 20)).total for points in (-spare, spare))
    return fewest, most


def _in_doubt(pieces: Sequence[Piece], room: int) -> bool:
    fewest, most = _range(pieces, room)
    return fewest != most


def _settled(part: Part, most: int, pieces_of: PiecesOf, room: int) -> Part:
    """Break a part at the latest place that leaves no doubt, so that it takes ``most`` pages and no more.

    The later the place, the less of the page before the break stays empty. Where much of it would, before a heading, a
    table is parted instead.
    """
    least = round(_WELL_FILLED * room)
    for places, filled in ((_before(part, (Heading,)), least), (_between_rows(part), least), (_before(part), 0)):
        for first, rest in places:
            pieces = pieces_of(first), pieces_of((PageBreak(), *rest))
            if not any(_in_doubt(each, room) for each in pieces):
                pages = [fill_pages(each, room) for each in pieces]
                if pages[0].filled >= filled and sum(each.total for each in pages) <= most:
                    return (*first, PageBreak(), *rest)
    return part


def _before(part: Part, kinds: tuple[type[Block], ...] = ()) -> Iterator[tuple[Part, Part]]:
    """Yield a part in two, the latest place first: before blocks of these kinds, or of any, headings sooner."""
    for wanted in (kinds,) if kinds else ((Heading,), (Heading, Table, Paragraph)):
        for place in reversed(_places(part, wanted)):
            yield part[:place], part[place:]


def _between_rows(part: Part) -> Iterator[tuple[Part, Part]]:
    """Yield a part in two, the latest place first: between two rows of a table, whose head stands above both."""
    for place in reversed(range(len(part))):
        table = part[place]
        if isinstance(table, Table):
            head, body = table.rows[: table.header_rows], table.rows[table.header_rows :]
            for end in range(len(body) - _FEWEST_ROWS, max(_FEWEST_ROWS, len(body) - _MOST_ROWS) - 1, -1):
                begun, rest = (replace(table, rows=(*head, *rows)) for rows in (body[:end], body[end:]))
                yield (*part[:place], begun), (rest, *part[place + 1 :])


def _places(part: Part, kinds: tuple[type[Block], ...]) -> list[int]:
    """Return where a part may be broken: before blocks of these kinds, but not between a heading and its words."""
    return [
        place
        for place, (before, block) in enumerate(pairwise(part), start=1)
        if isinstance(block, kinds) and not isinstance(before, Heading | PageBreak)
    ]
