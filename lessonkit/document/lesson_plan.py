"""The lesson plan: everything a teacher needs for one lesson on a sheet of paper."""

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.floor_plan import describe, lesson_scene
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, SlotFacts, Target
from lessonkit.document.lesson_flow import flow_table
from lessonkit.document.model import (
    Block,
    Cell,
    Document,
    Drawing,
    Heading,
    Inline,
    KeyValues,
    Link,
    ListBlock,
    Note,
    Paragraph,
    Role,
    Table,
    WritingSpace,
    text,
)
from lessonkit.document.pieces import EN_DASH, bullets, cell, labelled, sentence, strong_cell, words_cell

_MAIN_PARTS = ("skill", "practice", "game")
_POLICY = (
    "Follow your school's own safety rules and plans where they differ from this sheet, "
    "and leave medical questions to licensed staff."
)


def lesson_document(facts: PlanFacts, number: int) -> Document:
    """Return one lesson of a plan as a document of its own. ``number`` is the lesson's number, from 1."""
    lesson = next(found for found in facts.lessons if found.lesson.lesson == number)
    return Document(
        title=f"Lesson {number}: {lesson.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.unit.title} {EN_DASH} lesson {number}",
        date=lesson.lesson.date,
        blocks=lesson_blocks(facts, lesson, links=False),
        paper=facts.school.paper,
        keywords=tuple(target.code for target in lesson.targets),
    )


def lesson_blocks(facts: PlanFacts, lesson: LessonFacts, *, links: bool, new_page: bool = False) -> tuple[Block, ...]:
    """Return the blocks of one lesson; ``links`` makes outcome codes lead to the coverage page of the same document."""
    return (
        *_head(facts, lesson, new_page),
        Heading(2, text("What we are learning")),
        _target_table(lesson, links),
        Heading(2, text("Minute by minute")),
        flow_table(lesson),
        Heading(2, text("Set up")),
        _equipment_table(facts, lesson),
        *_floor(facts, lesson),
        Heading(2, text("Change the challenge")),
        _challenge_table(lesson),
        Heading(2, text("You may see, you can say")),
        _see_say_table(lesson),
        Heading(2, text("Everyone takes part")),
        _inclusion_table(lesson),
        _safety(lesson),
        *_closing(lesson),
        WritingSpace("Notes for next time", 3),
    )


def lesson_anchor(number: int) -> str:
    """Return the anchor of a lesson's heading inside a binder."""
    return f"lesson_{number}"


def code_anchor(code: str) -> str:
    """Return the anchor of an outcome code on the coverage page."""
    return "outcome_" + "".join(letter if letter.isalnum() else "_" for letter in code)


def _head(facts: PlanFacts, lesson: LessonFacts, new_page: bool) -> tuple[Block, ...]:
    plan = lesson.lesson
    pairs = (
        ("Class", f"{facts.school_class.title}, {facts.school_class.children} children"),
        ("When", f"{day_in_words(plan.date)}, {plan.at}"),
        ("Minutes", f"{plan.minutes}, about {lesson.moving:.0f} of them moving"),
        ("Where", lesson.space.title),
    )
    count = len(facts.lessons)
    return (
        Paragraph(text(f"{facts.unit.title} {EN_DASH} lesson {plan.lesson} of {count}"), Role.KICKER),
        Heading(1, text(lesson.title), lesson_anchor(plan.lesson), new_page),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
    )


def _target_table(lesson: LessonFacts, links: bool) -> Table:
    header = tuple(words_cell(words) for words in ("Outcome", "In a child's words", "What to look for"))
    rows = tuple(_target_row(target, links) for target in lesson.targets)
    return Table((header, *rows), (17, 38, 45), "Outcomes of this lesson", row_header=True)


def _target_row(target: Target, links: bool) -> tuple[Cell, ...]:
    name: tuple[Inline, ...] = text(target.code)
    if links:
        name = (Link(name, f"#{code_anchor(target.code)}"),)
    code = cell(Paragraph(name), Paragraph(text(", ".join(target.ways)), Role.SMALL))
    if target.look_for:
        says = bullets(dict.fromkeys(criterion.i_can for criterion in target.look_for))
        look = bullets(criterion.criterion for criterion in target.look_for)
        return (code, cell(*says), cell(*look))
    asked = target.outcome.says if target.outcome else None
    return (code, words_cell(EN_DASH), words_cell(asked or "See the outcome page."))


def _equipment_table(facts: PlanFacts, lesson: LessonFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Number", "Item", "Where it goes"))
    rows = tuple(
        (strong_cell(str(count)), words_cell(facts.item_name(item, count)), words_cell(_notes(lesson, item)))
        for item, count in lesson.equipment
    )
    return Table((header, *rows), (12, 33, 55), "Equipment for this class")


def _notes(lesson: LessonFacts, item: str) -> str:
    notes = [
        f"{slot.activity.title}: {need.note}" if need.note else slot.activity.title
        for slot in lesson.slots
        for need in slot.activity.equipment
        if need.item == item
    ]
    return "; ".join(dict.fromkeys(notes))


def _floor(facts: PlanFacts, lesson: LessonFacts) -> tuple[Block, ...]:
    scene = lesson_scene(main_slot(lesson).activity, lesson.space, facts.school_class.children, facts.school.lengths)
    caption = f"{lesson.space.title} set up for {main_slot(lesson).activity.title}."
    return (Drawing(scene, describe(scene)), Paragraph(text(caption), Role.CAPTION))


def main_slot(lesson: LessonFacts) -> SlotFacts:
    """Return the activity whose floor the lesson's plan shows: the longest practice or game, or else the longest."""
    mains = [slot for slot in lesson.slots if slot.slot.part in ("practice", "game")] or list(lesson.slots)
    return max(mains, key=lambda slot: slot.slot.minutes)


def _main_slots(lesson: LessonFacts) -> tuple[SlotFacts, ...]:
    return tuple(slot for slot in lesson.slots if slot.slot.part in _MAIN_PARTS)


def _challenge_table(lesson: LessonFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Activity", "Easier", "Harder"))
    rows = tuple(
        (
            strong_cell(slot.activity.title),
            cell(*bullets(slot.activity.easier)),
            cell(*bullets(slot.activity.harder)),
        )
        for slot in _main_slots(lesson)
    )
    return Table((header, *rows), (20, 40, 40), "Easier and harder versions", row_header=True)


def _see_say_table(lesson: LessonFacts) -> Table:
    header = tuple(words_cell(words) for words in ("You may see", "You can say"))
    rows = tuple(
        (words_cell(pair.see), words_cell(f"\u201c{pair.say}\u201d"))
        for slot in _main_slots(lesson)
        for pair in slot.activity.see_say
    )
    return Table((header, *rows), (45, 55), "Common faults and what to say")


def _inclusion_table(lesson: LessonFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Change", "So that everyone can play a full part"))
    rows = []
    for name in ("space", "task", "equipment", "people"):
        changes = dict.fromkeys(
            change for slot in _main_slots(lesson) for change in getattr(slot.activity.inclusion, name)
        )
        if changes:
            rows.append((strong_cell(name.capitalize()), cell(*bullets(changes))))
    return Table((header, *rows), (15, 85), "Changes that let everyone take part", row_header=True)


def _safety(lesson: LessonFacts) -> Note:
    cautions = dict.fromkeys(caution for slot in lesson.slots for caution in slot.activity.safety)
    return Note("Safety", (*bullets(cautions), sentence(_POLICY)))


def _closing(lesson: LessonFacts) -> tuple[Block, ...]:
    asked = [question for slot in lesson.slots for question in slot.activity.questions]
    words = dict.fromkeys((word.word, word.means) for slot in lesson.slots for word in slot.activity.words)
    blocks: list[Block] = []
    if asked:
        blocks.append(Heading(2, text("Ask and listen for")))
        blocks.append(
            ListBlock(tuple((Paragraph((*labelled(question.ask, question.listen_for),)),) for question in asked))
        )
    if words:
        spoken = "; ".join(f"*{word}*: {means}" for word, means in words)
        blocks.append(Paragraph(labelled("Words to use:", spoken)))
    return tuple(blocks)
