"""The rotation sheet of a lesson with a circuit: who is where and when, and the way round, for the gym wall."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from lessonkit.document.circuit_table import circuit_says, circuit_table, circuits
from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, SlotFacts
from lessonkit.document.model import Block, Cell, Document, Drawing, Heading, Paragraph, Role, Strong, text
from lessonkit.document.pieces import EN_DASH
from lessonkit.document.poster_words import ACROSS, POINTS, width_of
from lessonkit.document.rotation_map import least_across, wall_map

_WIDTHS = (1.0, 0.94, 0.88, 0.82, 0.76, 0.7, 0.64, 0.58, 0.52, 0.46, 0.4)
"""Shares of the text width that the map may take, largest first."""
_NAMES = {2: 46.0, 3: 42.0, 4: 36.0}
_NAMES_OF_MANY = 29.0
"""The width of the column with the names of so many stations, in hundredths of the table; a usual one for more."""
_LETTERS = (Role.POSTER_SMALL, Role.POSTER_LEAST, Role.BOARD, Role.LETTER)
_GAP = 9.0
"""Points between two columns."""


class _Size(NamedTuple):
    """The letters of the table and of the sentence above it, and the share of the text width that the map takes."""

    table: Role
    says: Role
    map: float | None


def rotation_sheets(facts: PlanFacts, pages: CountPages | None = None) -> Iterator[tuple[int, Document]]:
    """Yield the number of every lesson that has a circuit, with its sheet: a page for every circuit.

    With ``pages`` letters and maps are as large as the page holds.
    """
    for lesson in facts.lessons:
        parts = circuits(lesson)
        if parts:
            blocks = [_fitted(facts, lesson, part, place, pages) for place, part in enumerate(parts)]
            yield lesson.lesson.lesson, _sheet(facts, lesson, [block for page in blocks for block in page])


def _sheet(facts: PlanFacts, lesson: LessonFacts, blocks: Sequence[Block]) -> Document:
    number = lesson.lesson.lesson
    return Document(
        title=_title(lesson),
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} lesson {number}",
        date=lesson.lesson.date,
        blocks=tuple(blocks),
        paper=facts.school.paper,
        landscape=True,
    )


def _title(lesson: LessonFacts) -> str:
    return f"Stations of lesson {lesson.lesson.lesson}"


def _fitted(
    facts: PlanFacts, lesson: LessonFacts, part: tuple[SlotFacts, ...], place: int, pages: CountPages | None
) -> tuple[Block, ...]:
    """Return the page of a circuit in the largest letters that leave its map large, and with the largest map.

    A map whose letters could not be read on a wall is left out: the table says the same.
    """
    if pages is None:
        return _page(facts, lesson, part, place, _Size(Role.LETTER, Role.LETTER, _WIDTHS[-1]))
    for size in _sizes(ACROSS[facts.school.paper], len(part)):
        blocks = _page(facts, lesson, part, place, size)
        if pages(_sheet(facts, lesson, blocks)) == 1:
            break
    return blocks


def _sizes(across: float, stations: int) -> Iterator[_Size]:
    """Yield the sizes of a page with so many stations, the best first: large letters in the map before large tables."""
    room = across * (1 - _names(stations) / 100) / stations - _GAP
    words = (f"squad {stations}", "minutes")
    roles = [role for role in _LETTERS if max(width_of(each, role) for each in words) <= room] or [_LETTERS[-1]]
    read, least = (points / across for points in least_across(stations)[:2])
    widths = sorted({*_WIDTHS, *(width for width in (read, least) if width <= 1)}, reverse=True)
    for role in roles:
        for says in dict.fromkeys((Role.BOARD, min(role, Role.BOARD, key=POINTS.__getitem__))):
            yield from (_Size(role, says, width) for width in widths if width >= read)
    role = roles[-1]
    yield from (_Size(role, role, width) for width in widths if least <= width < read)
    yield _Size(role, role, None)


def _page(
    facts: PlanFacts, lesson: LessonFacts, part: tuple[SlotFacts, ...], place: int, size: _Size
) -> tuple[Block, ...]:
    table = circuit_table(part, size.table, tall=size.table is not Role.LETTER)
    head, *rows = table.rows
    names = _names(len(part))
    shares = (names, *((100 - names) / len(part) for _ in part))
    table = replace(
        table, rows=(tuple(map(_strong, head)), *((_strong(row[0]), *row[1:]) for row in rows)), shares=shares
    )
    says = f"Map of {len(part)} stations: every squad begins at the station of its number and goes on to the next."
    when = f"{facts.school_class.title}, {day_in_words(lesson.lesson.date)}. {circuit_says(part)}"
    blocks = (
        Heading(1, text(_title(lesson)), new_page=place > 0, poster=True),
        Paragraph(text(when), size.says),
        table,
    )
    if size.map is None:
        return blocks
    return (*blocks, Drawing(wall_map(len(part), size.map * ACROSS[facts.school.paper]), says, size.map))


def _names(stations: int) -> float:
    return _NAMES.get(stations, _NAMES_OF_MANY)


def _strong(cell: Cell) -> Cell:
    """Return a cell whose words stand out."""
    return replace(
        cell,
        blocks=tuple(
            replace(block, content=(Strong(block.content),)) if isinstance(block, Paragraph) else block
            for block in cell.blocks
        ),
    )
