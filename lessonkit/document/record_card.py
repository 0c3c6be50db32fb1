"""The record card: to copy for every child, a row for each task that it counts or times, a place for each try."""

from dataclasses import replace

from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Block, Cell, Document, Heading, Paragraph, Role, Rule, Table, strong, text
from lessonkit.document.pieces import EN_DASH, cell, sentence, words_cell
from lessonkit.document.row_heights import filled_up
from lessonkit.logistics.words import number, opened
from lessonkit.records.activity import Activity, Measured

ANCHOR = "record_card"
TITLE = "My record card"
_MOTTO = "I try to beat my own best. I compare with nobody else."
_HEIGHTS = (66.0, 62.0, 58.0, 54.0, 50.0, 47.0, 44.0, 42.0, 40.0, 38.0, 36.0, 34.0, 32.0, 30.0, 28.0, 26.0, 24.0)
_LEAST_SHARED = 28.0
"""The least height of a row in points where cards share a page; only a single card may be closer."""
_MOST_CARDS = 4
"""Cards on a page, to cut apart."""
_TRIES = ("First try", "Second try", "Third try", "Fourth try", "Fifth try")
_TASK, _BEST = 21.0, (18.0, 16.5, 13.5, 11.5, 9.5)
"""Hundredths of a card's width for a task's name, and for a try and the best by how many tries there are."""

Task = tuple[Activity, Measured, tuple[int, ...]]
"""An activity, what children count in it, and the numbers of its lessons."""


def record_card_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return a page of record cards; nothing for a unit without measured tasks.

    With ``pages`` small cards share a page, to be cut apart, and rows are as tall as it holds.
    """
    tasks = measured_tasks(facts)
    if not tasks:
        return ()
    cards = next((count for count in range(_MOST_CARDS, 1, -1) if _share_a_page(facts, tasks, count, pages)), 1)
    if cards == 1:
        return filled_up(lambda height: _single(facts, tasks, height), _HEIGHTS, pages, facts.school.paper)
    heights = [height for height in _HEIGHTS if height >= _LEAST_SHARED]
    return filled_up(lambda height: _several(facts, tasks, cards, height), heights, pages, facts.school.paper)


def _share_a_page(facts: PlanFacts, tasks: tuple[Task, ...], cards: int, pages: CountPages | None) -> bool:
    if pages is None:
        return False
    blocks = _several(facts, tasks, cards, _LEAST_SHARED)
    return pages(Document("", "", "", "", "", blocks, paper=facts.school.paper)) == 1


def _single(facts: PlanFacts, tasks: tuple[Task, ...], height: float) -> tuple[Block, ...]:
    owner = _owner(cell(Paragraph(text(facts.school_class.title)), shaded=True))
    return (*_top(_MOTTO), owner, _table(tasks, height))


def _several(facts: PlanFacts, tasks: tuple[Task, ...], cards: int, height: float) -> tuple[Block, ...]:
    """Return equal cards below each other, a line to cut along above each."""
    words = f"{opened(number(cards))} cards to a page: cut along the broken lines."
    title = cell(Paragraph(strong(TITLE)), sentence(facts.school_class.title, Role.SMALL), shaded=True)
    card = (Rule(cut=True), _owner(title), sentence(_MOTTO), _table(tasks, height))
    return (*_top(words), *(card * cards))


def _top(words: str) -> tuple[Block, ...]:
    return (Heading(1, text(TITLE), ANCHOR, new_page=True), sentence(words, Role.SUMMARY))


def _owner(title: Cell) -> Table:
    row = (title, words_cell("My number:"), words_cell("My name:"))
    return Table((row,), (30, 25, 45), "Whose card this is", header_rows=0, row_height=26.0)


def _table(tasks: tuple[Task, ...], height: float) -> Table:
    """Return a row for each task, its lessons in the places for tries; a task of very many lessons has more rows.

    What places it has beyond its lessons are for further tries.
    """
    tries = min(max(len(numbers) for _, _, numbers in tasks), len(_TRIES))
    titles = ("Task", "What I count", *_TRIES[:tries], "My best")
    header = tuple(replace(words_cell(words), shaded=True) for words in titles)
    rows = tuple(
        _row(activity, measured, numbers[start : start + tries], tries)
        for activity, measured, numbers in tasks
        for start in range(0, len(numbers), tries)
    )
    width = _BEST[tries - 1]
    shares = (_TASK, 100 - _TASK - width * (tries + 1), *(width for _ in range(tries + 1)))
    return Table((header, *rows), shares, "Record card", row_header=True, row_height=height)


def _row(activity: Activity, measured: Measured, numbers: tuple[int, ...], tries: int) -> tuple[Cell, ...]:
    return (
        cell(Paragraph(text(activity.title))),
        cell(sentence(f"{measured.what}."), sentence(unit_says(measured), Role.SMALL)),
        *(words_cell(f"Lesson {lesson}", Role.SMALL) for lesson in numbers),
        *(cell() for _ in range(tries - len(numbers))),
        cell(),
    )


def measured_tasks(facts: PlanFacts) -> tuple[Task, ...]:
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
