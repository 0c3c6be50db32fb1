"""The minute-by-minute table of a lesson."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import NamedTuple

from lessonkit.document.circuit_table import circuit_says, circuit_table, circuits
from lessonkit.document.detail import ROOMY, Cut, Packing
from lessonkit.document.keys import activity_key, joint_key, leaf_keyed, slot_key
from lessonkit.document.lesson_facts import LessonFacts, SlotFacts
from lessonkit.document.model import Block, Cell, Emphasis, Inline, ListBlock, Paragraph, Role, Table, Text, text
from lessonkit.document.pieces import EN_DASH, NO_BREAK, cell, closed, inline, labelled, markdown, words_cell
from lessonkit.document.run_in import ELLIPSIS, items_of, length_of, run_in, without_last
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
_WHOLE = "What happens, what to say, how to change it"
_CUT = f"{_WHOLE} ({ELLIPSIS} stands for further steps: see the activity's card in the binder)"
_FEWEST_STEPS = 3
"""Steps that every station keeps."""


class Remark(NamedTuple):
    """A label, what is said, and the record fields of both."""

    label: str
    said: str
    fields: tuple[str, ...] = ()


class Flow:
    """The table of what happens when: minutes, and beside them the activity with groups, cues, steps, remarks."""

    def __init__(self, lesson: LessonFacts) -> None:
        number = lesson.lesson.lesson
        self._fixed = [(_clock(slot, number, place), _what(slot), slot) for place, slot in enumerate(lesson.slots)]
        self._left_out = cache(self._steps_left_out)
        self._circuits = {lesson.slots.index(part[0]): part for part in circuits(lesson)}

    def table(
        self, remarks: int, cut: Cut | None = None, packing: Packing = ROOMY, *, until: Cut | None = None
    ) -> Table:
        """Return the table with the most remarks for an activity of a main part beyond what must be said.

        With ``cut`` an activity goes on in a row of its own; with ``until`` the table ends there.
        """
        says = _CUT if self._left_out(packing) else _WHOLE
        rows = [(words_cell("Minutes"), words_cell(says))]
        for place, (clock, _, slot) in enumerate(self._fixed):
            if place in self._circuits:
                rows.append(_circuit(self._circuits[place], packing))
            packed = run_in if _is_run_in(slot, packing) else tuple
            blocks = self._blocks(place, remarks, packing)
            if until is not None and place == until.place:
                rows.append((clock, cell(*packed(_parted(blocks, until.after)[0]))))
                break
            first, rest = _parted(blocks, cut.after) if cut and place == cut.place else (blocks, ())
            rows.append((clock, cell(*packed(first))))
            if rest:
                rows.append((_goes_on(slot), cell(*packed(rest))))
        return Table(tuple(rows), (8.5, 91.5), "The lesson minute by minute", row_header=True)

    def cuts(self, remarks: int, packing: Packing = ROOMY) -> list[Cut]:
        """Return where a page may end, from the first place to the last: inside of activities and behind them."""
        found: list[Cut] = []
        before = _FEWEST_BEFORE - packing.close
        for place in range(len(self._fixed)):
            count = self._count(place, remarks, packing)
            found.extend(Cut(place, after) for after in range(before, count - _FEWEST_BEHIND + 1))
            found.append(Cut(place, count))
        return found

    def is_inside(self, cut: Cut, remarks: int, packing: Packing = ROOMY) -> bool:
        """Tell whether a cut parts its activity."""
        return cut.after < self._count(cut.place, remarks, packing)

    def _steps_left_out(self, packing: Packing) -> Counter[int]:
        """Return how many steps of every place are left out, each the last one of the station that is longest then."""
        left_out: Counter[int] = Counter()
        stations = {place: what for place, (_, what, slot) in enumerate(self._fixed) if slot.slot.station is not None}
        for _ in range(packing.left_out):
            long = {
                place: length_of(without_last(what, left_out[place]))
                for place, what in stations.items()
                if items_of(what) - left_out[place] > _FEWEST_STEPS
            }
            if long:
                left_out[max(long, key=long.__getitem__)] += 1
        return left_out

    def _count(self, place: int, remarks: int, packing: Packing) -> int:
        return sum(map(_paragraphs, self._blocks(place, remarks, packing)))

    def _blocks(self, place: int, remarks: int, packing: Packing) -> tuple[Block, ...]:
        """Return what stands beside a clock, steps in lists however they are set."""
        _, what, slot = self._fixed[place]
        if packing.close:
            what = _cues_behind_groups(what)
        if left_out := self._left_out(packing)[place]:
            what = without_last(what, left_out)
        return (*what, *_remarks(slot, remarks))


_FEWEST_BEFORE, _FEWEST_BEHIND = 3, 2
"""Fewest paragraphs of an activity at the foot and at the head of a page."""


def _paragraphs(block: Block) -> int:
    return len(block.items) if isinstance(block, ListBlock) else 1


def _parted(blocks: tuple[Block, ...], after: int) -> tuple[tuple[Block, ...], tuple[Block, ...]]:
    """Return the first blocks, the items of a list counted as such, and the others; a parted list counts on."""
    first: list[Block] = []
    rest: list[Block] = []
    for block in blocks:
        here = min(max(after, 0), _paragraphs(block))
        after -= _paragraphs(block)
        if not isinstance(block, ListBlock):
            (first if here else rest).append(block)
            continue
        start = None if block.start is None else block.start + here
        first.extend([replace(block, items=block.items[:here])] if here else [])
        rest.extend([replace(block, items=block.items[here:], start=start)] if here < len(block.items) else [])
    return tuple(first), tuple(rest)


def _is_run_in(facts: SlotFacts, packing: Packing) -> bool:
    return packing.close or (packing.stations and facts.slot.station is not None)


def _circuit(part: tuple[SlotFacts, ...], packing: Packing) -> tuple[Cell, Cell]:
    """Return the row above the stations of a circuit: how it goes, and where there is room who is where and when."""
    clock = Paragraph(text(f"{part[0].starts}{EN_DASH}{part[-1].ends}"))
    says = f"{circuit_says(part)} The minutes beside the stations are those of squad{NO_BREAK}1."
    timetable = (circuit_table(part, Role.SMALL),) if packing.timetable else ()
    what = cell(Paragraph(text(says)), *timetable)
    return cell(clock, Paragraph(text(part[0].slot.part), Role.SMALL)), what


def _cues_behind_groups(what: tuple[Block, ...]) -> tuple[Block, ...]:
    """Return what stands beside a clock with its cues in the paragraph of the title and the groups."""
    title, *rest = what
    cues = rest[0] if rest else None
    if not (isinstance(title, Paragraph) and isinstance(cues, Paragraph) and cues.role is Role.CUE):
        return what
    said = (*title.content, Text(" "), *labelled("Say:", ""), Emphasis(cues.content))
    return (Paragraph(said, key=joint_key(each.key for each in (title, cues) if each.key)), *rest[1:])


def _goes_on(facts: SlotFacts) -> Cell:
    """Return the clock of an activity that began on the page before."""
    return cell(Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}")), Paragraph(text("goes on"), Role.SMALL))


def _clock(facts: SlotFacts, lesson: int, place: int) -> Cell:
    clock = text(f"{facts.starts}{EN_DASH}{facts.ends}")
    shown = [Paragraph(clock, key=slot_key(lesson, place, "minutes"))]
    part = facts.slot.part if facts.slot.station is None else f"station{NO_BREAK}{facts.slot.station}"
    shown.append(Paragraph(text(part), Role.SMALL))
    if facts.slot.setup:
        words = text(f"set-up {facts.slot.setup}{NO_BREAK}min")
        shown.append(Paragraph(words, Role.SMALL, slot_key(lesson, place, "setup")))
    return cell(*shown)


def _what(facts: SlotFacts) -> tuple[Block, ...]:
    activity = facts.activity
    own = activity.id
    keys = joint_key(groups_keys(facts))
    blocks: list[Block] = [Paragraph(labelled(closed(activity.title), groups_say(facts)), key=keys)]
    if activity.cues:
        keys = joint_key(activity_key(own, "cues", place) for place in range(len(activity.cues)))
        blocks.append(Paragraph(inline(CUE_MARK.join(activity.cues)), Role.CUE, keys))
    blocks.extend(leaf_keyed(markdown(activity.steps), activity_key(own, "steps")))
    return tuple(blocks)


CUE_MARK = " \u00b7 "
"""What stands between two cues."""


def groups_say(facts: SlotFacts) -> str:
    """Say how the class divides, who is left over, how they share the floor, and from when they know the activity."""
    uneven = facts.activity.organisation.uneven
    left_over = f" {uneven.say}" if uneven and _says_uneven(facts) else ""
    turns = f" {facts.by_turns}" if facts.by_turns else ""
    known = f" Known from lesson {facts.known_from}." if facts.known_from else ""
    return f"{facts.grouping.says}{left_over}{turns}{known}"


def groups_keys(facts: SlotFacts) -> Iterator[str]:
    """Yield the keys of an activity's title and of what ``groups_say`` takes from its record."""
    own = facts.activity.id
    yield activity_key(own, "title")
    if _says_uneven(facts):
        yield activity_key(own, "organisation", "uneven", "say")
    if facts.by_turns and facts.activity.floor.if_more:
        yield activity_key(own, "floor", "if_more")


def in_grade(grade: str) -> str:
    """Return the label of what holds for one grade, such as ``In grade 3:``."""
    return "In kindergarten:" if grade == "K" else f"In grade {grade}:"


def _says_uneven(facts: SlotFacts) -> bool:
    """Tell whether a page says what happens with the children left over."""
    uneven = facts.activity.organisation.uneven
    return uneven is not None and len(set(facts.grouping.sizes)) + facts.grouping.rotating_in > 1


def _remarks(facts: SlotFacts, most: int) -> Iterator[Block]:
    """Say what must be said, and what helps most of the rest; the activity's card has it all.

    Where nothing of the rest is said, what must be said stands in one paragraph.
    """
    needed = [(line if most else 0, remark) for line, remark in _needed(facts)]
    if facts.slot.part not in _MAIN_PARTS:
        most = max(most - 2, 0)
    lines: dict[int, dict[str, list[Remark]]] = {}
    for line, remark in (*needed, *list(_offered(facts))[:most]):
        lines.setdefault(line, {}).setdefault(remark.label, []).append(remark)
    for line in sorted(lines):
        said = {label: " ".join(remark.said for remark in remarks) for label, remarks in lines[line].items()}
        fields = (field for remarks in lines[line].values() for remark in remarks for field in remark.fields)
        yield Paragraph(_run_in(said), key=joint_key(fields))


def _run_in(said: dict[str, str]) -> tuple[Inline, ...]:
    """Put labels and what they say one behind the other."""
    parts = [labelled(label, words) for label, words in said.items()]
    return tuple(piece for place, part in enumerate(parts) for piece in (*_SPACE[: place > 0], *part))


_SPACE = (Text(" "),)


def _needed(facts: SlotFacts) -> Iterator[tuple[int, Remark]]:
    """Yield what must not be left out, each with its line."""
    activity, own = facts.activity, facts.activity.id
    if activity.organisation.waiting:
        yield 0, Remark("Waiting:", activity.organisation.waiting, (activity_key(own, "organisation", "waiting"),))
    if facts.slot.assess:
        yield 1, Remark("Check today:", f"{', '.join(facts.slot.assess)}.")
    if activity.stop_signal:
        yield 2, Remark("Stop:", activity.stop_signal, (activity_key(own, "stop_signal"),))
    for place, change in enumerate(facts.version.changes if facts.version else ()):
        yield 3, Remark(in_grade(facts.grade), change, (activity_key(own, "changes", place),))


def _offered(facts: SlotFacts) -> Iterator[tuple[int, Remark]]:
    """Yield what may be left out, what helps most first, each with its line."""
    activity = facts.activity
    measured = [_measured(activity.id, activity.measured.what)] if activity.measured else []
    questions = [
        Remark(f"Ask: {each.ask}", f"*Listen for:* {each.listen_for}", _pair(activity.id, "questions", place))
        for place, each in enumerate(activity.questions)
    ]
    easier, harder = (
        [Remark(label, words, (activity_key(activity.id, field, place),)) for place, words in enumerate(listed)]
        for label, field, listed in (("Easier:", "easier", activity.easier), ("Harder:", "harder", activity.harder))
    )
    faults = [
        Remark(f"{pair.see.rstrip('.')}:", f"\u201c{pair.say}\u201d", _pair(activity.id, "see_say", place))
        for place, pair in enumerate(activity.see_say)
    ]
    columns = [(5, questions), (4, measured), (7, faults)]
    if facts.slot.part != "closing":
        columns = [(6, easier), (6, harder), *reversed(columns[:2]), columns[2]]
    for turn in range(3):
        yield from ((line, column[turn]) for line, column in columns if turn < len(column))


def _measured(activity: str, what: str) -> Remark:
    return Remark("Beat your best:", f"{what}.", (activity_key(activity, "measured", "what"),))


def _pair(activity: str, field: str, place: int) -> tuple[str, str]:
    """Return the keys of the two halves of a question and its answer, or of a fault and what to say."""
    first, second = {"questions": ("ask", "listen_for"), "see_say": ("see", "say")}[field]
    return activity_key(activity, field, place, first), activity_key(activity, field, place, second)
