"""The equipment of a day on which several classes meet: items down, the day's classes across by the clock."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.equipment_list import by_name, owned_cell, shares_of
from lessonkit.document.even_parts import even_parts
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, CheckBoxes, Heading, Paragraph, Strong, Table, Text, text
from lessonkit.document.pieces import NO_BREAK, bullets, cell, sentence, strong_cell, words_cell
from lessonkit.document.too_few import day_short_says, too_few
from lessonkit.logistics.equipment import Counts
from lessonkit.logistics.equipment_day import Turn, changes, out_at_once
from lessonkit.logistics.words import lessons_in_words

LEGEND = (
    "The first number is what the class uses. *+6*: before it, bring out six. *\u22126*: before it, put six away. "
    "No sign: it lies there already. *Most* is what lies out at one time."
)
_MOST_CLASSES, _MOST_FEW = 7, 6
"""Classes side by side in one table, and how many of them leave the items' names a good deal of room."""
_FEW, _MANY = 50.0, 57.0
"""Hundredths of the page's width for a few classes, and for more."""
_MINUS = "\u2212"


@dataclass(frozen=True, slots=True)
class Visit:
    """A class in a lesson of a day: when it begins and how many minutes it lasts, its name, grade and needs."""

    at: str
    minutes: int
    title: str
    grade: str
    needs: Counts

    @property
    def turn(self) -> Turn:
        """The lesson by the minutes of its day."""
        hour, minute = map(int, self.at.split(":"))
        begins = 60 * hour + minute
        return Turn(begins, begins + self.minutes, self.needs)


def shared_days(facts: PlanFacts, others: Sequence[PlanFacts]) -> Mapping[str, tuple[Visit, ...]]:
    """Return the days (ISO dates) of a plan on which other plans of its school meet too, with the day's lessons."""
    days: dict[str, list[Visit]] = {}
    for plan in (facts, *(other for other in others if other.school.id == facts.school.id)):
        for lesson in plan.lessons:
            when = lesson.lesson
            visit = Visit(
                when.at, when.minutes, plan.school_class.title, plan.school_class.grade, dict(lesson.equipment)
            )
            days.setdefault(when.date, []).append(visit)
    own = sorted({lesson.lesson.date for lesson in facts.lessons})
    return {day: tuple(sorted(days[day], key=lambda v: (v.turn.begins, v.title))) for day in own if len(days[day]) > 1}


def day_blocks(facts: PlanFacts, day: str, visits: Sequence[Visit], height: float) -> tuple[Block, ...]:
    """Return a day's table below its heading, rows of a least height in points, and what is short of anything.

    A day of very many classes has more than one table.
    """
    numbers = [lesson.lesson.lesson for lesson in facts.lessons if lesson.lesson.date == day]
    title = day_in_words(day)
    heading = Heading(2, text(f"{title} ({lessons_in_words(numbers)} of {facts.school_class.title})"))
    turns = [visit.turn for visit in visits]
    most = out_at_once(turns)
    if not most:
        return (heading, sentence("Nothing is needed."))
    parts = even_parts(tuple(zip(visits, changes(turns), strict=True)), _MOST_CLASSES)
    tables = (_table(facts, f"Equipment of {title}", part, most, height) for part in parts)
    said = (
        day_short_says(facts, f"{visit.title} at {visit.at}", too_few(facts, visit.needs, visit.grade).values())
        for visit in visits
    )
    return (heading, *tables, *bullets([each for each in said if each]))


def _table(facts: PlanFacts, title: str, part: Sequence[tuple[Visit, Counts]], most: Counts, height: float) -> Table:
    """Return the table of some classes: what they use, and what comes out or goes away before each of them."""
    header = (*(words_cell(words) for words in ("Item", "Ready", "Most", "In school")), *(_head(v) for v, _ in part))
    rows = [
        (
            words_cell(facts.item_name(item, 2)),
            cell(CheckBoxes(((),))),
            strong_cell(str(most[item])),
            owned_cell(facts, item, most[item]),
            *(_count(visit.needs.get(item, 0), moves.get(item, 0)) for visit, moves in part),
        )
        for item in by_name(facts, (item for visit, moves in part for item in (*visit.needs, *moves)))
    ]
    room = _FEW if len(part) <= _MOST_FEW else _MANY
    shares = shares_of(facts, most, len(part), room / max(len(part), 4))
    head = tuple(replace(each, shaded=True) for each in header)
    return Table((head, *rows), shares, title, row_header=True, row_height=height)


def _head(visit: Visit) -> Cell:
    return cell(Paragraph(text(visit.at)), Paragraph(text(visit.title)))


def _count(uses: int, moves: int) -> Cell:
    """Return how many a class uses, and how many come out or go away before it."""
    sign = "" if not moves else f"{'+' if moves > 0 else _MINUS}{abs(moves)}"
    if not uses:
        return words_cell(sign)
    return cell(Paragraph((Strong(text(str(uses))), *((Text(f"{NO_BREAK} {sign}"),) if sign else ()))))
