"""The minute-by-minute table of a lesson."""

from collections.abc import Iterator

from lessonkit.document.lesson_facts import LessonFacts, SlotFacts
from lessonkit.document.model import Block, Cell, Inline, Paragraph, Role, Table, Text, text
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, inline, labelled, markdown, words_cell
from lessonkit.records.activity import LessonPart

PART_NAMES: dict[LessonPart, str] = {
    "warm-up": "Warm-up",
    "skill": "Skill",
    "practice": "Practice",
    "game": "Small-sided game",
    "closing": "Closing",
}
"""The parts of a lesson as a page names them."""

_MAIN_PARTS = ("skill", "practice", "game")
Remark = tuple[str, str]
"""A label and what is said."""


def flow_table(lesson: LessonFacts, remarks: int) -> Table:
    """Return what happens when: minutes, and beside them the activity with groups, cues, steps and remarks.

    ``remarks`` is the most for an activity of a main part beyond what must be said.
    """
    header = (words_cell("Minutes"), words_cell("What happens, what to say, how to change it"))
    rows = tuple((_clock(slot), cell(*_what(slot), *_remarks(slot, remarks))) for slot in lesson.slots)
    return Table((header, *rows), (8.5, 91.5), "The lesson minute by minute", row_header=True)


def _clock(facts: SlotFacts) -> Cell:
    shown = [Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}"))]
    shown.append(Paragraph(text(PART_NAMES[facts.slot.part].lower()), Role.SMALL))
    if facts.slot.setup:
        shown.append(Paragraph(text(f"set-up {facts.slot.setup}{NO_BREAK}min"), Role.SMALL))
    return cell(*shown)


def _what(facts: SlotFacts) -> tuple[Block, ...]:
    activity = facts.activity
    blocks: list[Block] = [Paragraph(labelled(activity.title, _groups(facts)))]
    if activity.cues:
        blocks.append(Paragraph(inline(" \u00b7 ".join(activity.cues)), Role.CUE))
    blocks.extend(markdown(activity.steps))
    if activity.organisation.waiting:
        blocks.append(Paragraph(labelled("Waiting:", activity.organisation.waiting)))
    return tuple(blocks)


def _groups(facts: SlotFacts) -> str:
    organisation = facts.activity.organisation
    says = facts.grouping.says
    if organisation.uneven and len(set(facts.grouping.sizes)) + facts.grouping.rotating_in > 1:
        says += f" {organisation.uneven.say}"
    return says


def _remarks(facts: SlotFacts, most: int) -> Iterator[Block]:
    """Say what must be said, and what helps most of the rest; the activity's card has it all."""
    if facts.slot.part not in _MAIN_PARTS:
        most = max(most - 2, 0)
    lines: dict[int, dict[str, str]] = {}
    for line, (label, said) in (*_needed(facts), *list(_offered(facts))[:most]):
        words = lines.setdefault(line, {})
        words[label] = f"{words[label]} {said}" if label in words else said
    for line in sorted(lines):
        yield Paragraph(_run_in(lines[line]))


def _run_in(said: dict[str, str]) -> tuple[Inline, ...]:
    """Put labels and what they say one behind the other."""
    parts = [labelled(label, words) for label, words in said.items()]
    return tuple(piece for place, part in enumerate(parts) for piece in (*_SPACE[: place > 0], *part))


_SPACE = (Text(" "),)


def _needed(facts: SlotFacts) -> Iterator[tuple[int, Remark]]:
    """Yield what must not be left out, each with its line."""
    activity = facts.activity
    if facts.slot.assess:
        yield 0, ("Check today:", f"{', '.join(facts.slot.assess)}.")
    if activity.stop_signal:
        yield 1, ("Stop:", activity.stop_signal)
    for change in facts.version.changes if facts.version else ():
        yield 2, ("This grade:", change)


def _offered(facts: SlotFacts) -> Iterator[tuple[int, Remark]]:
    """Yield what may be left out, what helps most first, each with its line."""
    activity = facts.activity
    measured = [("Beat your best:", f"{activity.measured.what}.")] if activity.measured else []
    questions = [(f"Ask: {each.ask}", f"*Listen for:* {each.listen_for}") for each in activity.questions]
    easier = [("Easier:", words) for words in activity.easier]
    harder = [("Harder:", words) for words in activity.harder]
    faults = [(f"{pair.see.rstrip('.')}:", f"\u201c{pair.say}\u201d") for pair in activity.see_say]
    columns = [(4, questions), (3, measured), (6, faults)]
    if facts.slot.part != "closing":
        columns = [(5, easier), (5, harder), *reversed(columns[:2]), columns[2]]
    for turn in range(3):
        yield from ((line, column[turn]) for line, column in columns if turn < len(column))
