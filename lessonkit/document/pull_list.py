"""The equipment pull list: what to fetch for the unit, for each lesson, and for a day on which several classes meet."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

from lessonkit.document.dates_in_words import short_day
from lessonkit.document.day_equipment import LEGEND, day_blocks, shared_days
from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.equipment_list import HEIGHTS, TITLE, by_name, unit_table
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, stations_of
from lessonkit.document.model import (
    Block,
    Cell,
    CheckBoxes,
    Document,
    Heading,
    Inline,
    PageBreak,
    Paragraph,
    Role,
    Rule,
    Table,
    text,
)
from lessonkit.document.pieces import EN_DASH, cell, sentence
from lessonkit.document.row_heights import filled_up
from lessonkit.document.too_few import short_says, too_few
from lessonkit.logistics.buying import to_buy
from lessonkit.logistics.equipment import Shortage, clash_says, clashes, in_sequence, shortages
from lessonkit.logistics.equipment_day import item_counted
from lessonkit.logistics.words import lessons_in_words, opened
from lessonkit.records.plan import Lesson


class _Way(NamedTuple):
    """How many lessons stand side by side, and whether they begin a page below the table of the unit."""

    beside: int
    new_page: bool


_WAYS = (_Way(3, new_page=False), _Way(4, new_page=False), _Way(3, new_page=True), _Way(4, new_page=True))
"""Ways to set out the lists of the lessons, the best first."""
_MANY = 1_000
"""More pages than any list has."""

Maker = Callable[[float], tuple[Block, ...]]
"""Makes the blocks of a day with rows of a least height."""


def pull_list(facts: PlanFacts, others: Sequence[PlanFacts] = (), pages: CountPages | None = None) -> Document:
    """Return the pull list of a plan; ``others`` are further plans of the school, whose lessons may share its days.

    With ``pages`` a day stays on one page, rows are as tall as pages hold, and a short list is a single page.
    """
    return Document(
        title=f"Equipment pull list: {facts.unit.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} equipment for {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=(*_unit_and_lessons(facts, pages), *_days(facts, others, pages)),
        paper=facts.school.paper,
    )


def _unit_and_lessons(facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    """Return the unit's table and the list of every lesson, in the way that takes the fewest pages."""
    if not any(lesson.equipment for lesson in facts.lessons):
        return (Heading(1, text(TITLE)), sentence("Nothing is needed."))

    def blocks_of(way: _Way, height: float) -> tuple[Block, ...]:
        below = Heading(1, text("Lesson by lesson"), new_page=way.new_page)
        apart = () if way.new_page else (Rule(),)
        return (*unit_table(facts, height), *_to_buy(facts), *apart, below, *_lessons(facts, way.beside))

    def count(way: _Way) -> int:
        """Return the pages of a way; one that shares a page must be that page."""
        taken = pages(_sheet(facts, blocks_of(way, HEIGHTS[-1]))) if pages is not None else 1
        return taken if way.new_page or taken == 1 else _MANY

    way = min(_WAYS, key=count) if pages is not None else _Way(3, new_page=True)
    return filled_up(partial(blocks_of, way), HEIGHTS, pages, facts.school.paper)


def _to_buy(facts: PlanFacts) -> tuple[Block, ...]:
    """Say what to buy for the lessons that need most."""
    most = in_sequence(dict(lesson.equipment) for lesson in facts.lessons)
    short = shortages(most, facts.school, facts.library.items, facts.school_class.grade)
    return tuple(Paragraph(text(purchase.says), Role.SMALL) for purchase in to_buy(short, facts.library.items))


def _lessons(facts: PlanFacts, beside: int) -> Iterator[Table]:
    """Yield the lists of the lessons, some side by side in a table each, so that a page may end below any of them."""
    for start in range(0, len(facts.lessons), beside):
        lessons = facts.lessons[start : start + beside]
        numbers = [lesson.lesson.lesson for lesson in lessons]
        cells = (*(_lesson(facts, lesson) for lesson in lessons), *[cell()] * (beside - len(lessons)))
        yield Table((cells,), (1.0,) * beside, opened(lessons_in_words(numbers)), header_rows=0, plain=True)


def _lesson(facts: PlanFacts, lesson: LessonFacts) -> Cell:
    needs = dict(lesson.equipment)
    short = too_few(facts, needs, facts.school_class.grade)
    items = tuple(_item(facts, item, needs[item], short.get(item)) for item in by_name(facts, needs))
    return cell(
        Heading(2, text(_title(facts, lesson.lesson))),
        CheckBoxes(items) if items else sentence("Nothing is needed."),
        *(sentence(says, Role.SMALL) for says in _clashes_say(facts, lesson)),
    )


def _title(facts: PlanFacts, lesson: Lesson) -> str:
    """Name a lesson, with its time where lessons begin at different times."""
    title = f"Lesson {lesson.lesson}, {short_day(lesson.date)}"
    return title if len({each.lesson.at for each in facts.lessons}) == 1 else f"{title}, {lesson.at}"


def _item(facts: PlanFacts, item: str, count: int, short: Shortage | None) -> tuple[Inline, ...]:
    says = item_counted(item, count, facts.library.items)
    return text(f"{says}, {short_says(facts, short)}" if short else says)


def _clashes_say(facts: PlanFacts, lesson: LessonFacts) -> Iterator[str]:
    """Say what several stations of a circuit use at once and of which there is too little."""
    for part in stations_of(lesson.slots):
        for clash in clashes([(slot.activity.title, slot.needs) for slot in part], facts.school):
            yield clash_says(clash, facts.item_name(clash.item, 2))


def _days(facts: PlanFacts, others: Sequence[PlanFacts], pages: CountPages | None) -> tuple[Block, ...]:
    """Return the days with several classes, as many on a page as it holds, nothing for none."""
    makers = [partial(day_blocks, facts, day, visits) for day, visits in shared_days(facts, others).items()]
    first: tuple[Block, ...] = (
        Heading(1, text("Days with several classes"), new_page=True),
        sentence(LEGEND, Role.SUMMARY),
    )
    later: tuple[Block, ...] = (PageBreak(), sentence(LEGEND, Role.SMALL))
    done: list[Block] = []
    while makers:
        head = later if done else first
        count, height = _page(facts, head, makers, pages)
        done += [*head, *(block for maker in makers[:count] for block in maker(height))]
        makers = makers[count:]
    return tuple(done)


def _page(
    facts: PlanFacts, head: tuple[Block, ...], makers: Sequence[Maker], pages: CountPages | None
) -> tuple[int, float]:
    """Return how many days stand on a page below its head, at least one, and how tall their rows may be."""
    if pages is None:
        return len(makers), HEIGHTS[-1]

    def fits(count: int, height: float) -> bool:
        below = (block for maker in makers[:count] for block in maker(height))
        return pages(_sheet(facts, (*head, *below))) == 1

    count = 1
    while count < len(makers) and fits(count + 1, HEIGHTS[-1]):
        count += 1
    return count, fullest(HEIGHTS, partial(fits, count))


def _sheet(facts: PlanFacts, blocks: tuple[Block, ...]) -> Document:
    return Document("", "", "", "", "", blocks, paper=facts.school.paper)
