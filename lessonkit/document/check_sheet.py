"""Assessment sheets: the class by number with not yet, nearly and yes for every criterion, and the record card."""

from dataclasses import dataclass

from lessonkit.document.check_list import Criterion, assessed_criteria
from lessonkit.document.detail import CountPages
from lessonkit.document.even_parts import even_parts
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
from lessonkit.document.row_heights import HEIGHTS, ROOMS, filled_up, notes

LEVELS = ("not yet", "nearly", "yes")
_MOST_COLUMNS = (6, 5, 4, 3)
"""Criteria side by side on one page, each with a box for every level; as many as leave every child on the page."""
_MOST_IN_WORDS = 4
"""Criteria side by side whose levels have room for their words; more have figures, which are explained above them."""
_NUMBER, _NAME, _WIDEST = 6.0, 18.0, 12.0
"""Hundredths of the page's width for a child's number and name, and the most for a box."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The criteria of a page, how many stand on the fullest page, and which page it is (``1 of 2``) of several."""

    criteria: tuple[Criterion, ...]
    wide: int
    page: str

    @property
    def title(self) -> str:
        """The title of the page."""
        return f"Class check list {self.page}".strip()

    @property
    def in_words(self) -> bool:
        """Whether the levels stand above their boxes in words."""
        return self.wide <= _MOST_IN_WORDS


def check_sheet(facts: PlanFacts, pages: CountPages | None = None) -> Document | None:
    """Return the sheets of a plan; None for one that neither checks nor measures anything.

    With ``pages`` rows are as tall as a page holds, and what a small class leaves free is room for notes.
    """
    criteria = assessed_criteria(facts)
    groups = _groups(facts, criteria, pages)
    wide = max((len(group) for group in groups), default=0)
    lists = [
        block
        for page, group in enumerate(groups, 1)
        for block in _fitted(facts, _Sheet(group, wide, f"{page} of {len(groups)}" if len(groups) > 1 else ""), pages)
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


def _groups(
    facts: PlanFacts, criteria: tuple[Criterion, ...], pages: CountPages | None
) -> tuple[tuple[Criterion, ...], ...]:
    """Share criteria out to as few sheets as hold the whole class each, about as many on every sheet."""
    if pages is None:
        return even_parts(criteria, _MOST_COLUMNS[0])

    def fits(most: int) -> bool:
        groups = even_parts(criteria, most)
        wide = max((len(group) for group in groups), default=0)
        sheets = (_page(facts, _Sheet(group, wide, "1 of 2"), HEIGHTS[-1]) for group in groups)
        return all(pages(Document("", "", "", "", "", sheet, paper=facts.school.paper)) == 1 for sheet in sheets)

    return even_parts(criteria, next(filter(fits, _MOST_COLUMNS), _MOST_COLUMNS[-1]))


def _fitted(facts: PlanFacts, sheet: _Sheet, pages: CountPages | None) -> tuple[Block, ...]:
    def blocks_of(room: tuple[float, int]) -> tuple[Block, ...]:
        height, lines = room
        return (*_page(facts, sheet, height), *notes(lines))

    return filled_up(blocks_of, ROOMS, pages, facts.school.paper)


def _page(facts: PlanFacts, sheet: _Sheet, height: float) -> tuple[Block, ...]:
    figures = ", ".join(f"{number} for {level}" for number, level in enumerate(LEVELS, 1))
    return (
        Heading(1, text(sheet.title), new_page=sheet.page[:2] not in ("", "1 ")),
        sentence(
            "Watch a few children at a time, over several lessons. Children are known by their numbers; "
            "write names in only where your school's rules on records allow it."
            + ("" if sheet.in_words else f" Tick {figures}."),
            Role.SUMMARY,
        ),
        _grid(facts, sheet, height),
    )


def _grid(facts: PlanFacts, sheet: _Sheet, height: float) -> Table:
    criteria = sheet.criteria
    width = min((100 - _NUMBER - _NAME) / sheet.wide / len(LEVELS), _WIDEST)
    boxes = tuple(width for _ in criteria for _ in LEVELS)
    levels = LEVELS if sheet.in_words else tuple(str(number) for number in range(1, len(LEVELS) + 1))
    first = (cell(span=2, shaded=True), *(_heading(criterion) for criterion in criteria))
    second = tuple(cell(sentence(words), shaded=True) for words in ("Child", "Name", *(levels * len(criteria))))
    tinted = [place // len(LEVELS) % 2 == 1 for place in range(len(boxes))]
    rows = tuple(
        (strong_cell(str(number)), cell(), *(cell(CheckBoxes(((),)), shaded=shaded) for shaded in tinted))
        for number in range(1, facts.school_class.children + 1)
    )
    shares = (_NUMBER, 100 - _NUMBER - sum(boxes), *boxes)
    return Table((first, second, *rows), shares, sheet.title, header_rows=2, row_header=True, row_height=height)


def _heading(criterion: Criterion) -> Cell:
    when = "; ".join(words.partition(",")[0] for words in criterion.when)
    return cell(
        Paragraph(text(criterion.code)),
        sentence(criterion.says, Role.SMALL),
        sentence(f"{when[:1].upper()}{when[1:]}", Role.SMALL),
        span=len(LEVELS),
        shaded=True,
    )
