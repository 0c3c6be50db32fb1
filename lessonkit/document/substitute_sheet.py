"""The substitute sheet: one sheet of paper with which somebody without training teaches a lesson safely."""

from collections.abc import Sequence
from dataclasses import replace

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages
from lessonkit.document.keys import field_key, joint_key, listed
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.model import (
    Block,
    Document,
    Heading,
    Paragraph,
    Role,
    Table,
    WritingSpace,
    plain,
    strong,
    text,
)
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, keyed_bullets, labelled, words_cell
from lessonkit.document.substitute_lesson import cuts_of, lesson_table, time_after
from lessonkit.document.substitute_sizes import USUAL, SheetSize, fitting_size
from lessonkit.document.too_few import to_fetch
from lessonkit.logistics.words import opened

_POLICY = "The school's own rules come before this sheet. Medical questions go to the nurse."
_UNSURE = "Done early, or not sure how it goes on? Do the last step again. "
_NOTES = "Please note: how far you came, what went well, who was hurt or left early"
_ROUTINES = "How this class works:"
_ACROSS, _LOST = 119, 5
"""Letters that stand on a line across the page, and those lost in a column to its margin and to words that turn."""
_MARK = " \u2022 "
GAP = f"{NO_BREAK} "
_A_LINE = Paragraph(text("."))
"""A line is kept free: a page full of words has many places where programs may break lines otherwise."""
_HAND = 22.0
"""Points of a row for handwriting."""


def substitute_document(facts: PlanFacts, number: int, pages: CountPages | None = None) -> Document:
    """Return the sheet of one lesson, on one page; ``number`` is the lesson's number, from 1.

    With ``pages`` it says as much as the page holds: of every activity of a full lesson what it is, and the beginnings
    of its steps. Without, it says a usual amount.
    """
    lesson = next(found for found in facts.lessons if found.lesson.lesson == number)
    if pages is None:
        return _document(facts, lesson, USUAL)

    def fits(size: SheetSize) -> bool:
        sheet = _document(facts, lesson, size)
        return pages(replace(sheet, blocks=(*sheet.blocks, _A_LINE))) <= 1

    return _document(facts, lesson, fitting_size(cuts_of(lesson), fits))


def never_sentences(facts: PlanFacts, lesson: LessonFacts) -> tuple[str, ...]:
    """Return what the equipment of a lesson must never be used for, as the catalogue says it, each sentence once."""
    said: dict[str, None] = {}
    for item in (facts.library.items[item] for item, _ in lesson.equipment if item in facts.library.items):
        if item.never:
            words = " ".join(item.never)
            said.setdefault(f"*{opened(item.title.partition(' (')[0])}:* {words[:1].lower()}{words[1:]}")
    return tuple(said)


def _document(facts: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Document:
    plan = lesson.lesson
    return Document(
        title=f"Substitute sheet, lesson {plan.lesson}: {lesson.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.school.title} {EN_DASH} substitute sheet, lesson {plan.lesson}",
        date=plan.date,
        blocks=(
            *_head(facts, lesson),
            _ask(),
            _before(facts, lesson, size),
            lesson_table(facts, lesson, size),
            _notes(size.lines),
        ),
        paper=facts.school.paper,
        about=field_key("plan", facts.plan.id),
    )


def _notes(lines: int) -> Block:
    """Return ruled lines for notes, or where there is no room for them a box beside its title."""
    if lines:
        return WritingSpace(_NOTES, lines)
    row = (replace(words_cell(_NOTES), shaded=True), cell())
    return Table((row,), (38, 62), "Notes", header_rows=0, row_height=26.0)


def _head(facts: PlanFacts, lesson: LessonFacts) -> tuple[Block, ...]:
    plan = lesson.lesson
    until = time_after(plan.at, plan.minutes)
    when = f"{day_in_words(plan.date)}, {plan.at}{EN_DASH}{until} ({plan.minutes}{NO_BREAK}minutes)"
    said = (f"{facts.school_class.title}, {facts.school_class.children} children", when, lesson.space.title)
    return (
        Paragraph(text(f"For the substitute teacher {EN_DASH} lesson {plan.lesson}"), Role.KICKER),
        Heading(1, text(lesson.title)),
        Paragraph(strong(f"{GAP}\u00b7{GAP}".join(said)), Role.SUMMARY),
    )


def _before(facts: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Table:
    """Put what the class is used to beside what is laid out and what must not be done, in columns of equal height."""
    routines, nevers = facts.school.routines, never_sentences(facts, lesson)
    right = (
        labelled("Have ready:", _lay_out(lesson, facts)),
        *([labelled("Never:", " ".join(nevers))] if nevers else []),
        (*text(_UNSURE), *strong(_POLICY)),
    )
    said = [_ROUTINES, *routines] if size.bullets else [f"{_ROUTINES} {_MARK.join(routines)}"]
    left = _left([len(each) + 4 for each in said], [len(plain(each)) for each in right])
    row = (cell(*_routines(facts, size)), cell(*map(Paragraph, right)))
    return Table((row,), (left, 100 - left), "Routines, equipment and safety", header_rows=0, plain=True)


def _left(left: Sequence[int], right: Sequence[int]) -> int:
    """Return the share for the first of two columns with which they are least tall, by the lengths of their texts."""

    def lines(lengths: Sequence[int], share: int) -> int:
        return sum(-(-length // (share * _ACROSS // 100 - _LOST)) for length in lengths)

    return min(range(40, 71, 2), key=lambda share: max(lines(left, share), lines(right, 100 - share)))


def _routines(facts: PlanFacts, size: SheetSize) -> tuple[Block, ...]:
    """Set what the class is used to one below the other, or one behind the other where room is short."""
    keyed = listed("school", facts.school.id, "routines", words=facts.school.routines)
    if size.bullets or not keyed:
        return (Paragraph(strong(_ROUTINES)), *keyed_bullets(keyed))
    return (Paragraph(labelled(_ROUTINES, _MARK.join(keyed)), key=joint_key(keyed.values())),)


def _lay_out(lesson: LessonFacts, facts: PlanFacts) -> str:
    items = ", ".join(to_fetch(facts, lesson).values())
    return f"{items}." if items else "nothing."


_WHO_SHARES = (7.5, 17.5, 7.0, 17.5, 10.5, 15.0, 9.5, 15.5)


def _ask() -> Table:
    """Return room for the names and numbers of those who help, to be filled in by hand before the sheet is needed."""
    who = ("Office", "Nurse", "Teacher next door", "Adult who helps")
    row = tuple(each for words in who for each in (replace(words_cell(words), shaded=True), cell()))
    return Table((row,), _WHO_SHARES, "Who helps", header_rows=0, row_height=_HAND)
