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

_MOST_CHANGES: dict[LessonPart, int] = {"warm-up": 1, "skill": 2, "practice": 2, "game": 2, "closing": 1}
_MOST_QUESTIONS: dict[LessonPart, int] = {"warm-up": 0, "skill": 1, "practice": 1, "game": 1, "closing": 9}


def flow_table(lesson: LessonFacts) -> Table:
    """Return what happens when: minutes, the activity with groups, cues and steps, and beside it how to change it."""
    header = tuple(words_cell(words) for words in ("Minutes", "What happens", "Change it, mend it"))
    rows = tuple((_clock(slot), _what(slot), _changes(slot)) for slot in lesson.slots)
    return Table((header, *rows), (10, 60, 30), "The lesson minute by minute", row_header=True)


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
    blocks.extend(Paragraph(labelled(label, words)) for label, words in _remarks(facts))
    return cell(*blocks)


def _changes(facts: SlotFacts) -> Cell:
    """Show how to make it easier and harder, and what to say to what may be seen; the activity's card has the rest."""
    activity = facts.activity
    most = _MOST_CHANGES[facts.slot.part]
    said = [("Easier:", words) for words in activity.easier[:most]]
    said += [("Harder:", words) for words in activity.harder[:most]]
    said += [(f"{pair.see.rstrip('.')}:", f"\u201c{pair.say}\u201d") for pair in activity.see_say[:most]]
    return cell(*(Paragraph(labelled(label, words)) for label, words in said))


def _groups(facts: SlotFacts) -> str:
    organisation = facts.activity.organisation
    says = facts.grouping.says
    if organisation.uneven and len(set(facts.grouping.sizes)) + facts.grouping.rotating_in > 1:
        says += f" {organisation.uneven.say}"
    return says


def _remarks(facts: SlotFacts) -> Iterator[tuple[str, str]]:
    activity = facts.activity
    for change in facts.version.changes if facts.version else ():
        yield "This grade:", change
    if activity.organisation.waiting:
        yield "Waiting:", activity.organisation.waiting
    if activity.stop_signal:
        yield "Stop:", activity.stop_signal
    if activity.measured:
        yield "Beat your best:", f"{activity.measured.what}."
    for question in activity.questions[: _MOST_QUESTIONS[facts.slot.part]]:
        yield f"Ask: {question.ask}", f"*Listen for:* {question.listen_for}"
    if facts.slot.assess:
        yield "Check today:", ", ".join(facts.slot.assess)
