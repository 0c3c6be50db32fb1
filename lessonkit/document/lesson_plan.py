"""The lesson plan: everything a teacher needs for one lesson on a sheet of paper."""

from collections.abc import Iterator

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
    PageBreak,
    Paragraph,
    Role,
    Strong,
    Table,
    Text,
    WritingSpace,
    text,
)
from lessonkit.document.pieces import EN_DASH, bullets, cell, labelled, sentence, words_cell

_MAIN_PARTS = ("skill", "practice", "game")
_MOST = 2
"""Changes of a kind that a lesson shows; the activity's card has them all."""
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
        *_targets(lesson, links),
        Heading(2, text("Minute by minute")),
        flow_table(lesson),
        Heading(2, text("Set up")),
        _set_up(facts, lesson),
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
        ("Minutes", f"{plan.minutes}: about {lesson.moving:.0f} moving, {lesson.brisk:.0f} of them briskly"),
        ("Where", lesson.space.title),
    )
    count = len(facts.lessons)
    return (
        *((PageBreak(),) if new_page else ()),
        Paragraph(text(f"{facts.unit.title} {EN_DASH} lesson {plan.lesson} of {count}"), Role.KICKER),
        Heading(1, text(lesson.title), lesson_anchor(plan.lesson)),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
    )


def _targets(lesson: LessonFacts, links: bool) -> tuple[Block, ...]:
    """Show the unit's aims that can be seen today in a table, the others in a line."""
    shown = tuple(target for target in lesson.targets if target.is_aim and target.look_for)
    others = tuple(target for target in lesson.targets if target not in shown)
    header = tuple(words_cell(words) for words in ("Outcome", "In a child's words", "What to look for"))
    rows = tuple(_target_row(target, links) for target in shown)
    blocks: list[Block] = [Heading(2, text("What we are learning"))]
    if rows:
        blocks.append(Table((header, *rows), (17, 38, 45), "Outcomes of this lesson", row_header=True))
    if others:
        blocks.append(Paragraph(tuple(_also(others, links)), Role.SMALL))
    return tuple(blocks)


def _also(targets: tuple[Target, ...], links: bool) -> Iterator[Inline]:
    yield Strong(text("Also practised: "))
    for number, target in enumerate(targets):
        name = _code(target.code, links)
        yield from name
        yield Text(f" {target.outcome.topic if target.outcome else ''}{'.' if number == len(targets) - 1 else '; '}")


def _code(code: str, links: bool) -> tuple[Inline, ...]:
    return (Link(text(code), f"#{code_anchor(code)}"),) if links else text(code)


def _target_row(target: Target, links: bool) -> tuple[Cell, ...]:
    code = cell(Paragraph(_code(target.code, links)), Paragraph(text(", ".join(target.ways)), Role.SMALL))
    says = dict.fromkeys(criterion.i_can for criterion in target.look_for)
    look = (criterion.criterion for criterion in target.look_for[:_MOST])
    return (code, cell(*bullets(tuple(says)[:_MOST])), cell(*bullets(look)))


def _set_up(facts: PlanFacts, lesson: LessonFacts) -> Table:
    """Put equipment and cautions beside the floor plan and what lets everyone take part."""
    main = main_slot(lesson).activity
    scene = lesson_scene(main, lesson.space, facts.school_class.children, facts.school.lengths)
    pull = tuple(
        (Paragraph(labelled(f"{count} {facts.item_name(item, count)}", _notes(lesson, item))),)
        for item, count in lesson.equipment
    )
    left = cell(
        ListBlock(pull),
        Heading(3, text("Safety")),
        *_safety(lesson),
        *_words(lesson),
        WritingSpace("Notes for next time", 1),
    )
    right = cell(
        Drawing(scene, describe(scene)),
        Heading(3, text("Everyone takes part")),
        *_everyone(lesson),
    )
    header = (words_cell("Equipment for this class"), words_cell(f"{lesson.space.title} set up for {main.title}"))
    return Table((header, (left, right)), (59, 41), "Equipment, safety and floor plan")


def _notes(lesson: LessonFacts, item: str) -> str:
    notes = [
        need.note
        for slot in lesson.slots
        for need in slot.activity.equipment
        if need.item == item and need.note is not None
    ]
    if not notes:
        return ""
    note = notes[0].rstrip(".")
    return f"({note[:1].lower()}{note[1:]})"


def main_slot(lesson: LessonFacts) -> SlotFacts:
    """Return the activity whose floor the lesson's plan shows: the longest practice or game, or else the longest."""
    mains = [slot for slot in lesson.slots if slot.slot.part in ("practice", "game")] or list(lesson.slots)
    return max(mains, key=lambda slot: slot.slot.minutes)


def _main_slots(lesson: LessonFacts) -> tuple[SlotFacts, ...]:
    return tuple(slot for slot in lesson.slots if slot.slot.part in _MAIN_PARTS)


def _everyone(lesson: LessonFacts) -> tuple[Block, ...]:
    """Name one change of each kind, from the main activity where it has one; the cards have them all."""
    mains = (main_slot(lesson), *_main_slots(lesson))
    changes = []
    for name in ("space", "task", "equipment", "people"):
        found = [change for slot in mains for change in getattr(slot.activity.inclusion, name)]
        if found:
            changes.append((f"{name.capitalize()}:", found[0]))
    return tuple(Paragraph(labelled(label, words)) for label, words in changes)


def _safety(lesson: LessonFacts) -> tuple[Block, ...]:
    """Give the first caution of every activity, and the word on local rules once for all; the cards have the rest."""
    cautions = dict.fromkeys(caution for slot in lesson.slots for caution in slot.activity.safety[:1])
    return (sentence(" ".join(cautions)), Paragraph((Strong(text(_POLICY)),)))


def _words(lesson: LessonFacts) -> tuple[Block, ...]:
    words = dict.fromkeys((word.word, word.means) for slot in lesson.slots for word in slot.activity.words)
    if not words:
        return ()
    spoken = "; ".join(f"*{word}*, {means}" for word, means in words)
    return (Paragraph(labelled("Words to use:", f"{spoken}.")),)
