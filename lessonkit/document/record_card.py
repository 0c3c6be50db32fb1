"""The record card: a page to copy for every child, with a line for each task that the child counts or times."""

from dataclasses import replace

from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, Heading, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, cell, sentence, words_cell
from lessonkit.document.row_heights import filled_up
from lessonkit.records.activity import Activity, Measured

ANCHOR = "record_card"
TITLE = "My record card"
_HEIGHTS = (66.0, 62.0, 58.0, 54.0, 50.0, 47.0, 44.0, 42.0, 40.0, 38.0, 36.0, 34.0, 32.0, 30.0, 28.0, 26.0, 24.0)


def record_card_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return the record card on a page of its own; nothing for a unit without measured tasks.

    With ``pages`` its rows are as tall as its pages hold.
    """
    tasks = measured_tasks(facts)
    if not tasks:
        return ()
    return filled_up(lambda height: _blocks(facts, tasks, height), _HEIGHTS, pages, facts.school.paper)


def _blocks(
    facts: PlanFacts, tasks: tuple[tuple[Activity, Measured, tuple[int, ...]], ...], height: float
) -> tuple[Block, ...]:
    titles = ("Task", "What I count", "Lesson", "First try", "My best")
    header = tuple(replace(words_cell(words), shaded=True) for words in titles)
    rows = tuple(
        (
            cell(Paragraph(text(activity.title))),
            cell(sentence(f"{measured.what}."), sentence(unit_says(measured), Role.SMALL)),
            words_cell(", ".join(str(number) for number in numbers)),
            cell(),
            cell(),
        )
        for activity, measured, numbers in tasks
    )
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence("I try to beat my own best. I compare with nobody else.", Role.SUMMARY),
        Table((_owner(facts),), (30, 25, 45), "Whose card this is", header_rows=0, row_height=26.0),
        Table((header, *rows), (21, 37, 10, 16, 16), "Record card", row_header=True, row_height=height),
    )


def _owner(facts: PlanFacts) -> tuple[Cell, ...]:
    return (
        cell(Paragraph(text(facts.school_class.title)), shaded=True),
        words_cell("My number:"),
        words_cell("My name:"),
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


def unit_says(measured: Measured) -> str:
    """Return what is counted or timed, with what the task itself does not say: that less is better, and how long."""
    less = "less" if measured.measure == "time" else "fewer"
    lower = f", {less} is better" if measured.better == "lower" else ""
    timed = measured.seconds is not None and not any(word in measured.what for word in ("second", "minute"))
    return f"{measured.unit}{lower}{f' {EN_DASH} {measured.seconds} seconds' if timed else ''}"
