"""Assessment sheets: the class by number with not yet, nearly and yes for every criterion, and the record card."""

from lessonkit.document.check_list import Criterion, assessed_criteria
from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import (
    Block,
    Cell,
    CheckBoxes,
    Document,
    Heading,
    Paragraph,
    Role,
    Table,
    text,
)
from lessonkit.document.pieces import EN_DASH, cell, sentence, strong_cell
from lessonkit.document.record_card import record_card_blocks
from lessonkit.document.row_heights import ROOMS, filled_up, notes

LEVELS = ("not yet", "nearly", "yes")
_MOST_COLUMNS = 3
"""Criteria side by side on one page, each with a box for every level."""
_NUMBER, _NAME, _CRITERION = 7.0, 21.0, 24.0


def check_sheet(facts: PlanFacts, pages: CountPages | None = None) -> Document | None:
    """Return the sheets of a plan; None for one that neither checks nor measures anything.

    With ``pages`` rows are as tall as a page holds, and what a small class leaves free is room for notes.
    """
    criteria = assessed_criteria(facts)
    starts = range(0, len(criteria), _MOST_COLUMNS)
    groups = [criteria[start : start + _MOST_COLUMNS] for start in starts]
    lists = [
        block
        for page, group in enumerate(groups, 1)
        for block in _fitted(facts, group, f"{page} of {len(groups)}" if len(groups) > 1 else "", pages)
    ]
    blocks = (*lists, *record_card_blocks(facts, pages))
    if not blocks:
        return None
    return Document(
        title=f"Check list: {facts.unit.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=blocks,
        paper=facts.school.paper,
        keywords=tuple(dict.fromkeys(criterion.code for criterion in criteria)),
    )


def _fitted(
    facts: PlanFacts, criteria: tuple[Criterion, ...], page: str, pages: CountPages | None
) -> tuple[Block, ...]:
    def blocks_of(room: tuple[float, int]) -> tuple[Block, ...]:
        height, lines = room
        return (*_page(facts, criteria, page, height), *notes(lines))

    return filled_up(blocks_of, ROOMS, pages, facts.school.paper)


def _page(facts: PlanFacts, criteria: tuple[Criterion, ...], page: str, height: float) -> tuple[Block, ...]:
    title = f"Class check list {page}".strip()
    return (
        Heading(1, text(title), new_page=page[:2] not in ("", "1 ")),
        sentence(
            "Watch a few children at a time, over several lessons. Children are known by their numbers; "
            "write names in only where your school's rules on records allow it.",
            Role.SUMMARY,
        ),
        _grid(facts, criteria, title, height),
    )


def _grid(facts: PlanFacts, criteria: tuple[Criterion, ...], title: str, height: float) -> Table:
    width = (100 - _NUMBER - _NAME) / max(2, len(criteria)) / len(LEVELS)
    boxes = tuple(min(width, _CRITERION * 1.5 / len(LEVELS)) for _ in criteria for _ in LEVELS)
    first = (cell(span=2, shaded=True), *(_heading(criterion) for criterion in criteria))
    second = tuple(cell(sentence(words), shaded=True) for words in ("Child", "Name", *(LEVELS * len(criteria))))
    tinted = [place // len(LEVELS) % 2 == 1 for place in range(len(boxes))]
    rows = tuple(
        (strong_cell(str(number)), cell(), *(cell(CheckBoxes(((),)), shaded=shaded) for shaded in tinted))
        for number in range(1, facts.school_class.children + 1)
    )
    shares = (_NUMBER, 100 - _NUMBER - sum(boxes), *boxes)
    return Table((first, second, *rows), shares, title, header_rows=2, row_header=True, row_height=height)


def _heading(criterion: Criterion) -> Cell:
    when = "; ".join(words.partition(",")[0] for words in criterion.when)
    return cell(
        Paragraph(text(criterion.code)),
        sentence(criterion.says, Role.SMALL),
        sentence(f"{when[:1].upper()}{when[1:]}", Role.SMALL),
        span=len(LEVELS),
        shaded=True,
    )
