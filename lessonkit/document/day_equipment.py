"""The equipment of a day on which several classes meet: items down, the day's classes across by the clock."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.equipment_list import by_name, owned_cell, shares_of
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, CheckBoxes, Heading, Paragraph, Strong, Table, Text, text
from lessonkit.document.pieces import bullets, cell, sentence, strong_cell, words_cell
from lessonkit.document.too_few import day_short_says, too_few
from lessonkit.logistics.equipment import Counts
from lessonkit.logistics.equipment_day import Turn, changes, out_at_once
from lessonkit.logistics.words import lessons_in_words

LEGEND = (
    "The first number is what the class uses. *+6*: before it, bring out six. *\u22126*: before it, put six away. "
    "No sign: it lies there already. *Most* is what lies out at one time."
)
_MINUS, _NO_BREAK = "\u2212", "\u00a0"


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
    """Return a day's table below its heading, rows of a least height in points, and what is short of anything."""
    numbers = [lesson.lesson.lesson for lesson in facts.lessons if lesson.lesson.date == day]
    title = day_in_words(day)
    heading = Heading(2, text(f"{title} ({lessons_in_words(numbers)} of {facts.school_class.title})"))
    turns = [visit.turn for visit in visits]
    most = out_at_once(turns)
    if not most:
        return (heading, sentence("Nothing is needed."))
    header = (*(words_cell(words) for words in ("Item", "Ready", "Most", "In school")), *map(_head, visits))
    moves = changes(turns)
    rows = [
        (
            words_cell(facts.item_name(item, 2)),
            cell(CheckBoxes(((),))),
            strong_cell(str(most[item])),
            owned_cell(facts, item, most[item]),
            *(_count(visit.needs.get(item, 0), move.get(item, 0)) for visit, move in zip(visits, moves, strict=True)),
        )
        for item in by_name(facts, most)
    ]
    shares = shares_of(facts, most, len(visits), max(len(visits), 4))
    table = Table(
        (tuple(replace(each, shaded=True) for each in header), *rows),
        shares,
        f"Equipment of {title}",
        row_header=True,
        row_height=height,
    )
    said = (
        day_short_says(facts, f"{visit.title} at {visit.at}", too_few(facts, visit.needs, visit.grade).values())
        for visit in visits
    )
    return (heading, table, *bullets([each for each in said if each]))


def _head(visit: Visit) -> Cell:
    return cell(Paragraph(text(visit.at)), Paragraph(text(visit.title)))


def _count(uses: int, moves: int) -> Cell:
    """Return how many a class uses, and how many come out or go away before it."""
    sign = "" if not moves else f"{'+' if moves > 0 else _MINUS}{abs(moves)}"
    if not uses:
        return words_cell(sign)
    return cell(Paragraph((Strong(text(str(uses))), *((Text(f"{_NO_BREAK} {sign}"),) if sign else ()))))
