"""Which lesson serves which outcome, how learning is checked, and the words to learn."""

from lessonkit.document.dates_in_words import short_day
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.lesson_plan import code_anchor
from lessonkit.document.model import Block, Heading, Link, Paragraph, Role, Strong, Table, Text, text
from lessonkit.document.pieces import cell, labelled, words_cell
from lessonkit.document.record_card import ANCHOR as RECORD_CARD_ANCHOR
from lessonkit.document.record_card import TITLE as RECORD_CARD
from lessonkit.document.record_card import measured_tasks
from lessonkit.logistics.words import lessons_in_words, listed
from lessonkit.records.activity import How

_MARKS: dict[How, str] = {"introduced": "I", "practised": "P", "assessed": "C"}
_MOST_LESSONS = 12
"""Lessons side by side in one table; a longer unit takes another."""


def coverage_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the tables of outcomes by lesson, with what their letters mean."""
    lessons = facts.lessons
    parts = [lessons[start : start + _MOST_LESSONS] for start in range(0, len(lessons), _MOST_LESSONS)]
    return (
        Heading(2, text("Which lesson serves which outcome")),
        *(_coverage(facts, part) for part in parts),
        Paragraph(text("I = introduced, P = practiced, C = checked."), Role.CAPTION),
    )


def coverage_codes(facts: PlanFacts) -> tuple[str, ...]:
    """Return every outcome code that a plan serves: the unit's aims first, then the others in the framework's order."""
    order = {outcome.code: number for number, outcome in enumerate(facts.framework.outcomes)}
    aims = [aim.code for aim in facts.unit.aims]
    served = {target.code for lesson in facts.lessons for target in lesson.targets}
    others = sorted(served - set(aims), key=lambda code: (order.get(code, len(order)), code))
    return (*(code for code in aims), *others)


def lessons_of(facts: PlanFacts, code: str, way: How) -> tuple[int, ...]:
    """Return the numbers of the lessons that serve an outcome in a way."""
    return tuple(
        lesson.lesson.lesson
        for lesson in facts.lessons
        for target in lesson.targets
        if target.code == code and way in target.ways
    )


def in_lessons(numbers: tuple[int, ...]) -> str:
    """Return ``lessons 1 to 4, 6 and 8``; three or more in a row are named by the first and the last."""
    return lessons_in_words(numbers) if numbers else "no lesson"


def assessment_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return when which outcome is checked, and in which activities children count; the record card says what."""
    checks = tuple(
        (
            words_cell(f"Lesson {lesson.lesson.lesson}, {short_day(lesson.lesson.date)}"),
            words_cell(slot.activity.title),
            words_cell(", ".join(slot.slot.assess)),
        )
        for lesson in facts.lessons
        for slot in lesson.slots
        if slot.slot.assess
    )
    tasks = [f"{activity.title} ({in_lessons(numbers)})" for activity, _, numbers in measured_tasks(facts)]
    blocks: list[Block] = []
    if checks or tasks:
        blocks.append(Heading(2, text("How learning is checked")))
    if checks:
        header = tuple(words_cell(words) for words in ("When", "During", "Outcomes"))
        blocks.append(Table((header, *checks), (26, 34, 40), "What is checked when", row_header=True, large=True))
    if tasks:
        says = f"Children count or time themselves, to beat their own best, in {listed(tasks)}. "
        card = Link(text(f"\u201c{RECORD_CARD}\u201d"), f"#{RECORD_CARD_ANCHOR}")
        blocks.append(Paragraph((Text(says), card, Text(" says what they count.")), Role.READING))
    return tuple(blocks)


def word_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the words to learn by alphabet, two in a row; a word with several meanings names them all."""
    meanings: dict[str, dict[str, None]] = {}
    for lesson in facts.lessons:
        for slot in lesson.slots:
            for word in slot.activity.words:
                meanings.setdefault(word.word, {}).setdefault(word.means)
    said = [Paragraph(labelled(f"{word}:", "; or ".join(meanings[word]))) for word in sorted(meanings, key=str.lower)]
    if not said:
        return ()
    said.extend([Paragraph(())] * (len(said) % 2))
    rows = tuple((cell(said[place]), cell(said[place + 1])) for place in range(0, len(said), 2))
    table = Table(rows, (50, 50), "Words to learn", header_rows=0, plain=True, large=True)
    return (Heading(2, text("Words to learn")), table)


def _coverage(facts: PlanFacts, lessons: tuple[LessonFacts, ...]) -> Table:
    header = (words_cell("Outcome"), *(words_cell(str(lesson.lesson.lesson)) for lesson in lessons))
    rows = []
    for code in coverage_codes(facts):
        outcome = facts.outcomes.get(code)
        topic = (Text(f"  {outcome.topic}"),) if outcome else ()
        named = Paragraph((Link((Strong(text(code)),), f"#{code_anchor(code)}"), *topic))
        rows.append((cell(named), *(words_cell(_marks(lesson, code)) for lesson in lessons)))
    shares = (42.0, *(58 / max(len(lessons), 8) for _ in lessons))
    return Table((header, *rows), shares, "Outcomes by lesson", large=True)


def _marks(lesson: LessonFacts, code: str) -> str:
    ways = next((target.ways for target in lesson.targets if target.code == code), ())
    return "".join(_MARKS[way] for way in ways)
