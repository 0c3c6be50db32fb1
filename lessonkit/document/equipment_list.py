"""The pull list of a unit: the most of each item that any lesson needs, and how many each lesson needs."""

from dataclasses import replace

from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.model import Block, Cell, CheckBoxes, Heading, Role, Table, text
from lessonkit.document.pieces import cell, sentence, strong_cell, words_cell
from lessonkit.document.row_heights import filled_up

ANCHOR = "equipment"
TITLE = "Equipment for the unit"
_MOST_LESSONS = 12
"""Lessons side by side in one table; a longer unit takes another."""
_HEIGHTS = (26.0, 24.0, 22.0, 20.0, 18.0, 16.0, 14.0)


def equipment_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return the pull list on a page of its own; nothing for a unit that needs no equipment.

    With ``pages`` its rows are as tall as its pages hold.
    """
    items = sorted({item for lesson in facts.lessons for item, _ in lesson.equipment})
    if not items:
        return ()
    return filled_up(lambda height: _blocks(facts, items, height), _HEIGHTS, pages, facts.school.paper)


def _blocks(facts: PlanFacts, items: list[str], height: float) -> tuple[Block, ...]:
    lessons = facts.lessons
    parts = [lessons[start : start + _MOST_LESSONS] for start in range(0, len(lessons), _MOST_LESSONS)]
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence(
            f"For {facts.school_class.children} children. *Most* is the largest number that any one lesson needs; "
            "the parts of a lesson use the same items one after the other.",
            Role.SUMMARY,
        ),
        *(_table(facts, items, part, height) for part in parts),
    )


def _table(facts: PlanFacts, items: list[str], lessons: tuple[LessonFacts, ...], height: float) -> Table:
    numbers = [str(lesson.lesson.lesson) for lesson in lessons]
    titles = ("Packed", "Item", "Most", "In school", *numbers)
    header = tuple(replace(words_cell(words), shaded=True) for words in titles)
    needs = [dict(lesson.equipment) for lesson in lessons]
    rows = tuple(_row(facts, item, needs) for item in items)
    shares = (8.0, 31.0, 7.0, 10.0, *(44 / len(lessons) for _ in lessons))
    return Table((header, *rows), shares, "Equipment by lesson", row_height=height)


def _row(facts: PlanFacts, item: str, needs: list[dict[str, int]]) -> tuple[Cell, ...]:
    most = max(dict(lesson.equipment).get(item, 0) for lesson in facts.lessons)
    owned = facts.school.owned(item)
    return (
        cell(CheckBoxes(((),))),
        strong_cell(facts.item_name(item, 2)),
        strong_cell(str(most)),
        words_cell(str(owned)) if owned >= most else strong_cell(f"{owned}, too few"),
        *(words_cell(str(need[item]) if item in need else "") for need in needs),
    )
