"""The minute-by-minute table of a lesson."""

from collections.abc import Iterator

from lessonkit.document.lesson_facts import LessonFacts, SlotFacts
from lessonkit.document.markdown import read_inline, read_markdown
from lessonkit.document.model import Block, Cell, Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, labelled, words_cell
from lessonkit.records.activity import LessonPart

PART_NAMES = {
    "warm-up": "Warm-up",
    "skill": "Skill",
    "practice": "Practice",
    "game": "Small-sided game",
    "closing": "Closing",
}
"""The parts of a lesson as a page names them."""

_MOST_FAULTS: dict[LessonPart, int] = {"warm-up": 0, "skill": 1, "practice": 1, "game": 1, "closing": 0}
_MOST_QUESTIONS: dict[LessonPart, int] = {"warm-up": 0, "skill": 1, "practice": 1, "game": 1, "closing": 1}


def flow_table(lesson: LessonFacts) -> Table:
    """Return what happens when: minutes, the activity with groups, cues and steps, and beside it how to change it."""
    header = tuple(words_cell(words) for words in ("Minutes", "What happens", "Say, ask, change"))
    rows = tuple((_clock(slot), _what(slot), _remarks(slot)) for slot in lesson.slots)
    return Table((header, *rows), (9.5, 61, 29.5), "The lesson minute by minute", row_header=True)


def _clock(facts: SlotFacts) -> Cell:
    shown = [Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}"))]
    shown.append(Paragraph(text(PART_NAMES[facts.slot.part].lower()), Role.SMALL))
    if facts.slot.setup:
        shown.append(Paragraph(text(f"set-up {facts.slot.setup}{NO_BREAK}min"), Role.SMALL))
    return cell(*shown)


def _what(facts: SlotFacts) -> Cell:
    activity = facts.activity
    blocks: list[Block] = [Paragraph(labelled(activity.title, _groups(facts)))]
    if activity.cues:
        blocks.append(Paragraph(read_inline(" \u00b7 ".join(activity.cues)), Role.CUE))
    blocks.extend(read_markdown(activity.steps))
    if activity.organisation.waiting:
        blocks.append(Paragraph(labelled("Waiting:", activity.organisation.waiting)))
    return cell(*blocks)


def _remarks(facts: SlotFacts) -> Cell:
    """Show what to say and how to change it; the activity's card in the binder has every version."""
    said = (*_sayings(facts), *_changes(facts))
    return cell(*(Paragraph(labelled(label, words)) for label, words in said))


def _groups(facts: SlotFacts) -> str:
    organisation = facts.activity.organisation
    says = facts.grouping.says
    if organisation.uneven and len(set(facts.grouping.sizes)) + facts.grouping.rotating_in > 1:
        says += f" {organisation.uneven.say}"
    return says


def _sayings(facts: SlotFacts) -> Iterator[tuple[str, str]]:
    activity = facts.activity
    if facts.slot.assess:
        yield "Check today:", f"{', '.join(facts.slot.assess)}."
    if activity.stop_signal:
        yield "Stop:", activity.stop_signal
    if activity.measured:
        yield "Beat your best:", f"{activity.measured.what}."
    for question in activity.questions[: _MOST_QUESTIONS[facts.slot.part]]:
        yield f"Ask: {question.ask}", f"*Listen for:* {question.listen_for}"


def _changes(facts: SlotFacts) -> Iterator[tuple[str, str]]:
    activity = facts.activity
    for change in facts.version.changes if facts.version else ():
        yield "This grade:", change
    if facts.slot.part == "closing":
        return
    for words in activity.easier[:1]:
        yield "Easier:", words
    for words in activity.harder[:1]:
        yield "Harder:", words
    for pair in activity.see_say[: _MOST_FAULTS[facts.slot.part]]:
        yield f"{pair.see.rstrip('.')}:", f"\u201c{pair.say}\u201d"
