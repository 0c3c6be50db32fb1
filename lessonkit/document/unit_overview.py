"""The unit at a glance: aims, block plan, calendar, assessment, words, and which lesson serves which outcome."""

from lessonkit.document.dates_in_words import day_in_words, short_day
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts
from lessonkit.document.lesson_flow import PART_NAMES
from lessonkit.document.lesson_plan import code_anchor, lesson_anchor
from lessonkit.document.model import Block, Cell, Heading, Link, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, bullets, cell, labelled, sentence, strong_cell, words_cell
from lessonkit.records.activity import LESSON_PARTS, How

_MARKS: dict[How, str] = {"introduced": "I", "practised": "P", "assessed": "A"}


def overview_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the overview of a unit as it stands in a binder."""
    return (
        Heading(1, text("The unit at a glance"), "overview", new_page=True),
        sentence(facts.unit.summary, Role.SUMMARY),
        Heading(2, text("What the children will reach")),
        _aims(facts),
        Heading(2, text("Lesson by lesson")),
        _block_plan(facts),
        Heading(2, text("Which lesson serves which outcome")),
        _coverage(facts),
        Paragraph(text("I = introduced, P = practised, A = assessed."), Role.CAPTION),
        Heading(2, text("The skill, step by step")),
        _steps(facts),
        Heading(2, text("How learning is checked")),
        *_assessment(facts),
        *_words(facts),
    )


def _aims(facts: PlanFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Outcome", "What it asks", "In this unit"))
    rows = []
    for aim in facts.unit.aims:
        outcome = facts.outcomes.get(aim.code)
        counts = [_lesson_numbers(facts, aim.code, "practised"), _lesson_numbers(facts, aim.code, "assessed")]
        said = f"Practised in {_in_lessons(counts[0])}"
        said += f"; assessed in {_in_lessons(counts[1])}." if counts[1] else "."
        link = Link(text(aim.code), f"#{code_anchor(aim.code)}")
        rows.append(
            (cell(Paragraph((link,))), words_cell(outcome.says or outcome.topic if outcome else ""), words_cell(said))
        )
    return Table((header, *rows), (15, 50, 35), "The aims of the unit", row_header=True)


def _lesson_numbers(facts: PlanFacts, code: str, way: How) -> tuple[int, ...]:
    return tuple(
        lesson.lesson.lesson
        for lesson in facts.lessons
        for target in lesson.targets
        if target.code == code and way in target.ways
    )


def _in_lessons(numbers: tuple[int, ...]) -> str:
    if not numbers:
        return "no lesson"
    if len(numbers) == 1:
        return f"lesson {numbers[0]}"
    return f"lessons {', '.join(str(number) for number in numbers[:-1])} and {numbers[-1]}"


def _block_plan(facts: PlanFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Lesson", *(PART_NAMES[part] for part in LESSON_PARTS)))
    rows = tuple(_block_row(lesson) for lesson in facts.lessons)
    return Table((header, *rows), (16, 15, 18, 19, 17, 15), "Block plan of the unit", row_header=True)


def _block_row(lesson: LessonFacts) -> tuple[Cell, ...]:
    number = lesson.lesson.lesson
    first = cell(
        Paragraph((Link(text(f"{number}. {lesson.title}"), f"#{lesson_anchor(number)}"),)),
        Paragraph(text(short_day(lesson.lesson.date)), Role.SMALL),
    )
    parts = []
    for part in LESSON_PARTS:
        titles = [slot.activity.title for slot in lesson.slots if slot.slot.part == part]
        parts.append(cell(*(Paragraph(text(title), Role.SMALL) for title in titles)))
    return (first, *parts)


def _coverage(facts: PlanFacts) -> Table:
    codes = coverage_codes(facts)
    header = (words_cell("Outcome"), *(words_cell(str(lesson.lesson.lesson)) for lesson in facts.lessons))
    rows = []
    for code in codes:
        marks = []
        for lesson in facts.lessons:
            ways = next((target.ways for target in lesson.targets if target.code == code), ())
            marks.append(words_cell(" ".join(_MARKS[way] for way in ways), Role.SMALL))
        rows.append((cell(Paragraph((Link(text(code), f"#{code_anchor(code)}"),))), *marks))
    shares = (20.0, *(80 / max(1, len(facts.lessons)) for _ in facts.lessons))
    return Table((header, *rows), shares, "Outcomes by lesson", row_header=True)


def coverage_codes(facts: PlanFacts) -> tuple[str, ...]:
    """Return every outcome code that a plan serves: the unit's aims first, then the others in the framework's order."""
    order = {outcome.code: number for number, outcome in enumerate(facts.framework.outcomes)}
    aims = [aim.code for aim in facts.unit.aims]
    served = {target.code for lesson in facts.lessons for target in lesson.targets}
    others = sorted(served - set(aims), key=lambda code: (order.get(code, len(order)), code))
    return (*(code for code in aims), *others)


def _steps(facts: PlanFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Step", "A child who is there", "Worked on in"))
    rows = []
    for skill_id in facts.unit.skills:
        skill = facts.library.skills[skill_id]
        for number, step in enumerate(skill.steps, 1):
            numbers = tuple(
                lesson.lesson.lesson
                for lesson in facts.lessons
                if any((s.skill, s.step) == (skill_id, step.id) for slot in lesson.slots for s in slot.activity.skills)
            )
            worked = _in_lessons(numbers).capitalize() if numbers else EN_DASH
            rows.append((strong_cell(f"{number}. {step.title}"), words_cell(step.means), words_cell(worked)))
    return Table((header, *rows), (30, 48, 22), "Steps of the skill", row_header=True)


def _assessment(facts: PlanFacts) -> tuple[Block, ...]:
    checks = [
        f"{day_in_words(lesson.lesson.date)} (lesson {lesson.lesson.lesson}), during *{slot.activity.title}*: "
        + ", ".join(slot.slot.assess)
        for lesson in facts.lessons
        for slot in lesson.slots
        if slot.slot.assess
    ]
    measured: dict[str, list[int]] = {}
    for lesson in facts.lessons:
        for slot in lesson.slots:
            if slot.activity.measured:
                measured.setdefault(slot.activity.title, []).append(lesson.lesson.lesson)
    lines = [f"*{title}*: {_in_lessons(tuple(numbers))}" for title, numbers in measured.items()]
    blocks: list[Block] = [*bullets(checks)]
    if lines:
        blocks.append(Paragraph(text("Children count and try to beat their own best in:")))
        blocks.extend(bullets(lines))
    return tuple(blocks)


def _words(facts: PlanFacts) -> tuple[Block, ...]:
    words = sorted(
        {(word.word, word.means) for lesson in facts.lessons for slot in lesson.slots for word in slot.activity.words}
    )
    if not words:
        return ()
    items = tuple(Paragraph(labelled(f"{word}:", means)) for word, means in words)
    return (Heading(2, text("Words to learn")), *items)
