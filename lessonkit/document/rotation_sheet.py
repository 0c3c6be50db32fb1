"""The rotation sheet of a lesson with a circuit: who is where and when, and the way round, for the gym wall."""

from collections.abc import Iterator

from lessonkit.document.circuit_table import circuit_tables
from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, stations_of
from lessonkit.document.model import Block, Document, Drawing, Heading, Role, text
from lessonkit.document.pieces import EN_DASH, sentence
from lessonkit.document.rotation_map import rotation_map

_MAP = 0.8
"""The map's share of the text width, so that the sheet keeps to one page."""


def rotation_sheets(facts: PlanFacts) -> Iterator[tuple[int, Document]]:
    """Yield the number of every lesson that has a circuit, with its sheet."""
    for lesson in facts.lessons:
        blocks = tuple(_blocks(lesson))
        if blocks:
            yield lesson.lesson.lesson, _sheet(facts, lesson, blocks)


def _sheet(facts: PlanFacts, lesson: LessonFacts, blocks: tuple[Block, ...]) -> Document:
    number = lesson.lesson.lesson
    title = f"Stations of lesson {number}"
    return Document(
        title=title,
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} lesson {number}",
        date=lesson.lesson.date,
        blocks=(
            Heading(1, text(title)),
            sentence(f"{facts.school_class.title}, {day_in_words(lesson.lesson.date)}", Role.SUMMARY),
            *blocks,
        ),
        paper=facts.school.paper,
    )


def _blocks(lesson: LessonFacts) -> Iterator[Block]:
    tables = list(circuit_tables(lesson))
    circuits = [part for part in stations_of(lesson.slots) if len(part) > 1]
    for place, part in enumerate(circuits):
        yield from tables[2 * place : 2 * place + 2]
        beginning = tuple((squad,) for squad in range(1, len(part) + 1))
        says = f"Map of {len(part)} stations: every squad begins at the station of its number and goes on to the next."
        yield Drawing(rotation_map(beginning, arrows=True), says, _MAP)
