"""The record card: a page to copy for every child, with a line for each task that the child counts or times."""

from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Heading, KeyValues, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, cell, sentence, words_cell
from lessonkit.records.activity import Activity, Measured

ANCHOR = "record_card"
TITLE = "My record card"


def record_card_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the record card on a page of its own; nothing for a unit without measured tasks."""
    tasks = measured_tasks(facts)
    if not tasks:
        return ()
    header = tuple(words_cell(words) for words in ("Task", "What I count", "Lesson", "First try", "My best"))
    rows = tuple(
        (
            cell(Paragraph(text(activity.title))),
            cell(sentence(f"{measured.what}."), sentence(_unit(measured), Role.SMALL)),
            words_cell(", ".join(str(number) for number in numbers)),
            cell(),
            cell(),
        )
        for activity, measured, numbers in tasks
    )
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence("I try to beat my own best. I compare with nobody else.", Role.SUMMARY),
        KeyValues((("Class", text(facts.school_class.title)), ("My number", ()), ("My name", ()))),
        Table((header, *rows), (22, 38, 10, 15, 15), "Record card", row_header=True),
    )


def measured_tasks(facts: PlanFacts) -> tuple[tuple[Activity, Measured, tuple[int, ...]], ...]:
    """Return the activities in which children beat their own best, with the numbers of their lessons."""
    numbers: dict[str, list[int]] = {}
    found: dict[str, tuple[Activity, Measured]] = {}
    for lesson in facts.lessons:
        for slot in lesson.slots:
            if slot.activity.measured is not None:
                found[slot.activity.id] = slot.activity, slot.activity.measured
                numbers.setdefault(slot.activity.id, []).append(lesson.lesson.lesson)
    return tuple((activity, measured, tuple(numbers[key])) for key, (activity, measured) in found.items())


def _unit(measured: Measured) -> str:
    timed = f" {EN_DASH} {measured.seconds} seconds" if measured.seconds else ""
    return f"{measured.unit}, {'more' if measured.better == 'higher' else 'fewer'} is better{timed}"
