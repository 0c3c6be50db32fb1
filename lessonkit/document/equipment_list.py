"""The equipment of a unit as one table, items down and lessons across: what to fetch for the unit and for each."""

from collections.abc import Iterable
from dataclasses import replace

from lessonkit.document.detail import CountPages
from lessonkit.document.even_parts import even_parts
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.model import Block, Cell, CheckBoxes, Heading, Role, Table, text
from lessonkit.document.pieces import cell, sentence, strong_cell, words_cell
from lessonkit.document.row_heights import filled_up
from lessonkit.logistics.equipment import Counts, in_sequence

ANCHOR = "equipment"
TITLE = "Equipment for the unit"
_MOST_LESSONS = 12
"""Lessons side by side in one table; a longer unit takes another."""
_COLUMNS = 50.0
"""Hundredths of the page's width for the lessons; the rest is for items, boxes and numbers."""
HEIGHTS = (26.0, 24.0, 22.0, 20.0, 18.0, 16.0, 14.0)
"""Least heights of a row in points, tallest first."""


def equipment_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return the table on a page of its own; nothing for a unit that needs no equipment.

    With ``pages`` its rows are as tall as its pages hold.
    """
    if not any(lesson.equipment for lesson in facts.lessons):
        return ()
    return filled_up(lambda height: unit_table(facts, height), HEIGHTS, pages, facts.school.paper)


def unit_table(facts: PlanFacts, height: float = HEIGHTS[-1]) -> tuple[Block, ...]:
    """Return the table below its heading, its rows of a least height in points; a long unit has more than one."""
    parts = even_parts(facts.lessons, _MOST_LESSONS)
    most = max(len(part) for part in parts)
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence(
            f"For {facts.school_class.children} children. *Most* is the largest number that any one lesson needs; "
            "the parts of a lesson use the same items one after the other.",
            Role.SUMMARY,
        ),
        *(_table(facts, part, height, most) for part in parts if any(lesson.equipment for lesson in part)),
    )


def by_name(facts: PlanFacts, items: Iterable[str]) -> list[str]:
    """Return items, each once, in the order of their names."""
    return sorted(set(items), key=lambda item: (facts.item_name(item, 2).lower(), item))


def owned_cell(facts: PlanFacts, item: str, needed: int) -> Cell:
    """Return how many of an item the school has, and say where that is too few."""
    owned = facts.school.owned(item)
    return words_cell(str(owned)) if owned >= needed else strong_cell(f"{owned}, too few")


def shares_of(facts: PlanFacts, most: Counts, columns: int, width: float) -> tuple[float, ...]:
    """Return the widths of item, box, most, in school and so many columns of a width, in hundredths of the page's."""
    short = any(count > facts.school.owned(item) for item, count in most.items())
    ready, number, owned = 7.0, 6.0, 11.5 if short else 9.0
    return (100 - ready - number - owned - width * columns, ready, number, owned, *(width for _ in range(columns)))


def _table(facts: PlanFacts, lessons: tuple[LessonFacts, ...], height: float, columns: int) -> Table:
    """Return the table of some lessons, its columns as wide as if there were ``columns`` lessons."""
    numbers = [str(lesson.lesson.lesson) for lesson in lessons]
    above = (cell(span=4), replace(words_cell("Lesson"), span=len(lessons)))
    titles = (words_cell(words) for words in ("Item", "Ready", "Most", "In school", *numbers))
    header = tuple(tuple(replace(each, shaded=True) for each in row) for row in (above, titles))
    needs = [dict(lesson.equipment) for lesson in lessons]
    rows = tuple(_row(facts, item, needs) for item in by_name(facts, (item for need in needs for item in need)))
    shares = shares_of(facts, _most(lessons), len(lessons), _COLUMNS / max(columns, 6))
    return Table((*header, *rows), shares, _name(lessons), header_rows=2, row_header=True, row_height=height)


def _most(lessons: tuple[LessonFacts, ...]) -> Counts:
    return in_sequence(dict(lesson.equipment) for lesson in lessons)


def _name(lessons: tuple[LessonFacts, ...]) -> str:
    first, last = lessons[0].lesson.lesson, lessons[-1].lesson.lesson
    return f"Equipment by lesson, lessons {first} to {last}" if last > first else f"Equipment of lesson {first}"


def _row(facts: PlanFacts, item: str, needs: list[dict[str, int]]) -> tuple[Cell, ...]:
    most = _most(facts.lessons)[item]
    return (
        words_cell(facts.item_name(item, 2)),
        cell(CheckBoxes(((),))),
        strong_cell(str(most)),
        owned_cell(facts, item, most),
        *(_count(facts, item, need.get(item, 0)) for need in needs),
    )


def _count(facts: PlanFacts, item: str, count: int) -> Cell:
    """Return how many a lesson needs, nothing for none; more than there are stand out."""
    words = str(count or "")
    return words_cell(words) if count <= facts.school.owned(item) else strong_cell(words)
