"""The minute-by-minute table of a lesson."""

from lessonkit.document.lesson_facts import LessonFacts, SlotFacts
from lessonkit.document.markdown import read_markdown
from lessonkit.document.model import Block, Cell, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, bullets, cell, labelled, sentence, words_cell

PART_NAMES = {
    "warm-up": "Warm-up",
    "skill": "Skill",
    "practice": "Practice",
    "game": "Small-sided game",
    "closing": "Closing",
}
"""The parts of a lesson as a page names them."""


def flow_table(lesson: LessonFacts) -> Table:
    """Return what happens when: minutes, activity with its steps, cues, and how the class is grouped."""
    header = tuple(words_cell(words) for words in ("Minutes", "What happens", "Cues", "Groups"))
    rows = tuple(_row(slot) for slot in lesson.slots)
    return Table((header, *rows), (10, 52, 20, 18), "The lesson minute by minute", row_header=True)


def _row(facts: SlotFacts) -> tuple[Cell, ...]:
    return (_clock(facts), _what(facts), cell(*bullets(facts.activity.cues, Role.CUE)), _groups(facts))


def _clock(facts: SlotFacts) -> Cell:
    shown = [Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}"))]
    if facts.slot.setup:
        shown.append(Paragraph(text(f"set up {facts.slot.setup} min"), Role.SMALL))
    return cell(*shown)


def _what(facts: SlotFacts) -> Cell:
    activity = facts.activity
    blocks: list[Block] = [
        Paragraph(labelled(activity.title, f"({PART_NAMES[facts.slot.part].lower()})")),
        *read_markdown(activity.steps),
    ]
    if facts.version:
        blocks.extend(sentence(change) for change in facts.version.changes)
    if activity.stop_signal:
        blocks.append(Paragraph(labelled("Stop:", activity.stop_signal)))
    if activity.measured:
        blocks.append(Paragraph(labelled("Beat your best:", activity.measured.what)))
    if facts.slot.assess:
        blocks.append(Paragraph(labelled("Check today:", ", ".join(facts.slot.assess))))
    return cell(*blocks)


def _groups(facts: SlotFacts) -> Cell:
    organisation = facts.activity.organisation
    blocks: list[Block] = [sentence(facts.grouping.says)]
    if organisation.uneven and len(set(facts.grouping.sizes)) + facts.grouping.rotating_in > 1:
        blocks.append(sentence(organisation.uneven.say, Role.SMALL))
    if organisation.waiting:
        blocks.append(Paragraph(labelled("Waiting:", organisation.waiting), Role.SMALL))
    return cell(*blocks)
