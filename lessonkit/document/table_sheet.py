"""A page for the gym wall: a title, some sentences and one table, in the largest letters that its sheet holds."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lessonkit.document.model import Block, Cell, Document, Heading, Paragraph, Role, Strong, Table, text
from lessonkit.document.pieces import cell, words_cell
from lessonkit.document.poster_words import ACROSS, POINTS, lines_of, width_of

_LETTERS = (Role.POSTER_SMALL, Role.POSTER_LEAST, Role.BOARD, Role.LETTER)
"""Letters of the table, largest first; the sentences above it are never larger than a board's."""
_DOWN, _UPRIGHT = 490.0, 650.0
"""Points that a sheet laid across, and an upright one, surely leave from the top to the foot."""
_NARROW = 490.0
"""Points that an upright sheet surely leaves for words."""
_LINE, _APART, _CLOSE, _GAP = 1.35, 16.0, 10.0, 9.0
"""The height of a line in its letters' size, points between two rows, two of a board's, and two columns."""

Rows = Sequence[Sequence[str]]


@dataclass(frozen=True, slots=True)
class _Part:
    """One table of the page: its name, its head and rows, and its columns' widths in proportion."""

    title: str
    header: Sequence[str]
    rows: Rows
    shares: tuple[float, ...]

    @property
    def all_rows(self) -> Iterator[Sequence[str]]:
        """The head and the rows."""
        yield self.header
        yield from self.rows


def table_sheet(
    title: str,
    says: Sequence[str],
    header: Sequence[str],
    rows: Rows,
    *,
    shares: Sequence[float] | None = None,
    further: Sequence[tuple[Sequence[str], Rows]] = (),
    paper: str = "letter",
) -> Document:
    """Return the page, which carries no date; ``shares`` are the widths of the columns in proportion.

    ``further`` are more tables (header and rows) below the first. A table of more than seven columns is laid across
    the page.
    """
    parts = [_Part(title, header, rows, tuple(shares or _shares(header, rows)))]
    parts += [_Part(f"{title}: {words[0]}", words, below, tuple(_shares(words, below))) for words, below in further]
    across = len(header) > 7
    width, height = (ACROSS[paper], _DOWN) if across else (_NARROW, _UPRIGHT)
    role = Role.BODY
    for letters in _LETTERS:
        widened = [_widened(part, letters, width) for part in parts]
        if _height(title, says, widened, letters, width) <= height:
            role, parts = letters, widened
            break
    blocks: tuple[Block, ...] = (
        Heading(1, text(title), poster=_is_large(role)),
        *(Paragraph(text(sentence), _of_sentences(role)) for sentence in says),
        *(_table(part, role) for part in parts),
    )
    return Document(title, title, "", title, "", blocks, paper=paper, landscape=across)


def _widened(part: _Part, role: Role, width: float) -> _Part:
    """Give every column room for its widest word, and share what is left as the longest entries want it."""
    columns = [[row[place] for row in part.all_rows] for place in range(len(part.header))]
    least = [max(width_of(word, role) for entry in column for word in entry.split(" ")) + _GAP for column in columns]
    most = [max(width_of(entry, role) for entry in column) + _GAP for column in columns]
    wish = [max(0.0, longest - room) for longest, room in zip(most, least, strict=True)]
    left = max(0.0, width - sum(least))
    part_of = left / sum(wish) if sum(wish) > left else 1.0
    widths = [room + part_of * more for room, more in zip(least, wish, strict=True)]
    even = max(0.0, width - sum(widths)) / len(widths)
    return replace(part, shares=tuple(room + even for room in widths))


def _is_large(role: Role) -> bool:
    return role not in (Role.LETTER, Role.BODY)


def _of_sentences(role: Role) -> Role:
    return Role.BOARD if _is_large(role) else role


def _height(title: str, says: Sequence[str], parts: Sequence[_Part], role: Role, width: float) -> float:
    """Return about how tall a page is in the letters of a role, rather too tall; infinite where a word is torn."""
    heading = Role.POSTER if _is_large(role) else Role.BOARD
    words = [(title, heading), *((sentence, _of_sentences(role)) for sentence in says)]
    above = sum(_tall(sentence, letters, width) for sentence, letters in words)
    rows = (
        max(
            _tall(entry, role, width * share / sum(part.shares) - _GAP)
            for entry, share in zip(row, part.shares, strict=True)
        )
        for part in parts
        for row in part.all_rows
    )
    between = _CLOSE if role is Role.BOARD else _APART
    return above + sum(tall + between for tall in rows)


def _tall(words: str, role: Role, room: float) -> float:
    lines = lines_of(words, role, room)
    return float("inf") if lines is None else lines * POINTS[role] * _LINE


def _table(part: _Part, role: Role) -> Table:
    head = tuple(_strong(words, role) for words in part.header)
    rows = ((_strong(row[0], role), *(words_cell(words, role) for words in row[1:])) for row in part.rows)
    return Table((head, *rows), part.shares, part.title, row_header=True)


def _strong(words: str, role: Role) -> Cell:
    return cell(Paragraph((Strong(text(words)),), role))


def _shares(header: Sequence[str], rows: Rows) -> list[float]:
    """Give every column room by its longest words, the narrowest not less than a third of the widest."""
    longest = [max(len(row[column]) for row in (header, *rows)) for column in range(len(header))]
    return [float(max(size, max(longest) / 3)) for size in longest]
