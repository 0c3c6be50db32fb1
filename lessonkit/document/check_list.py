"""The class check list: children by number, and a box for every criterion that the unit checks."""

from dataclasses import dataclass, replace

from lessonkit.document.dates_in_words import short_day
from lessonkit.document.detail import CountPages
from lessonkit.document.even_parts import even_parts
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import code_anchor
from lessonkit.document.model import Block, Cell, CheckBoxes, Heading, Link, Paragraph, Role, Table, text
from lessonkit.document.pieces import cell, sentence, strong_cell, words_cell
from lessonkit.document.row_heights import ROOMS, filled_up, notes

ANCHOR = "check_list"
TITLE = "Class check list"
_MOST_COLUMNS = 8
"""Criteria side by side in one table; more take another."""


@dataclass(frozen=True, slots=True)
class Criterion:
    """Something to look for, the outcome it belongs to, and when it is looked for."""

    code: str
    says: str
    when: tuple[str, ...]


def check_list_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return the check list on a page of its own; nothing for a unit that checks nothing.

    With ``pages`` its rows are as tall as its pages hold, and a small class leaves room for notes.
    """
    criteria = assessed_criteria(facts)
    if not criteria:
        return ()

    def blocks_of(room: tuple[float, int]) -> tuple[Block, ...]:
        height, lines = room
        return (*_blocks(facts, criteria, height), *notes(lines))

    return filled_up(blocks_of, ROOMS, pages, facts.school.paper)


def _blocks(facts: PlanFacts, criteria: tuple[Criterion, ...], height: float) -> tuple[Block, ...]:
    parts = even_parts(range(len(criteria)), _MOST_COLUMNS)
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence(
            "Children are known by their numbers; write names in only where your school's rules on records allow it. "
            "Tick what you have seen.",
            Role.SUMMARY,
        ),
        _key(criteria),
        *(_grid(facts, part, height) for part in parts),
    )


def assessed_criteria(facts: PlanFacts) -> tuple[Criterion, ...]:
    """Return the criteria of the outcomes that lessons check, in the order of the lessons."""
    found: dict[tuple[str, str], list[str]] = {}
    for lesson in facts.lessons:
        for slot in lesson.slots:
            when = f"lesson {lesson.lesson.lesson}, {short_day(lesson.lesson.date)}: *{slot.activity.title}*"
            for code in slot.slot.assess:
                says = [entry.criterion for entry in slot.activity.look_for if entry.outcome == code]
                for criterion in says or [_topic(facts, code)]:
                    found.setdefault((code, criterion), []).append(when)
    return tuple(Criterion(code, says, tuple(when)) for (code, says), when in found.items())


def _topic(facts: PlanFacts, code: str) -> str:
    outcome = facts.outcomes.get(code)
    return (outcome.says or outcome.topic) if outcome else code


def _key(criteria: tuple[Criterion, ...]) -> Table:
    header = tuple(words_cell(words) for words in ("No", "Outcome", "What to look for", "When"))
    rows = tuple(
        (
            words_cell(str(number)),
            cell(Paragraph((Link(text(criterion.code), f"#{code_anchor(criterion.code)}"),))),
            words_cell(criterion.says),
            cell(*(sentence(f"{when[:1].upper()}{when[1:]}") for when in criterion.when)),
        )
        for number, criterion in enumerate(criteria, 1)
    )
    return Table((header, *rows), (5, 14, 46, 35), "What the columns of the check list stand for", row_header=True)


def _grid(facts: PlanFacts, places: tuple[int, ...], height: float) -> Table:
    numbers = (words_cell(str(place + 1)) for place in places)
    header = tuple(replace(each, shaded=True) for each in (words_cell("Child"), words_cell("Name"), *numbers))
    rows = tuple(_child(number, len(places)) for number in range(1, facts.school_class.children + 1))
    boxes = tuple(62 / _MOST_COLUMNS for _ in places)
    shares = (8.0, 92 - sum(boxes), *boxes)
    return Table((header, *rows), shares, "Class check list", row_header=True, row_height=height)


def _child(number: int, boxes: int) -> tuple[Cell, ...]:
    return (strong_cell(str(number)), cell(), *(cell(CheckBoxes(((),))) for _ in range(boxes)))
