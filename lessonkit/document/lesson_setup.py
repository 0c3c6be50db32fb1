"""What a lesson needs before it begins: equipment, the floor, cautions; and what lets everyone take part."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from lessonkit.document.circuit_table import circuits
from lessonkit.document.detail import Ready
from lessonkit.document.floor_plan import describe, lesson_scene
from lessonkit.document.keys import activity_key, joint_key
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, SlotFacts
from lessonkit.document.model import Block, Drawing, Heading, ListBlock, Paragraph, Strong, Table, Text, text
from lessonkit.document.pieces import EN_DASH, cell, inline, labelled, sentence, words_cell
from lessonkit.document.same import Same
from lessonkit.document.station_map import station_says, station_scene
from lessonkit.document.too_few import to_fetch
from lessonkit.logistics.stations import StationsAnswer, stations
from lessonkit.logistics.words import listed

_KEPT = 32
"""How many circuits' places are kept; pages are tried in many sizes with the same drawing."""
_MAIN_PARTS = ("skill", "practice", "game")
_KINDS = ("space", "task", "equipment", "people")
_POLICY = (
    "Follow your school's own safety rules and plans where they differ from this sheet, "
    "and leave medical questions to licensed staff."
)


def setup_blocks(facts: PlanFacts, lesson: LessonFacts, ready: Ready) -> tuple[Block, ...]:
    """Return equipment and cautions beside the floor plan, and below them what lets everyone take part."""
    left = cell(*_equipment(facts, lesson, ready), *_safety(lesson, ready))
    circuit = circuit_drawing(facts, lesson, ready.drawing)
    right = cell(circuit or floor_drawing(facts, lesson, ready.drawing))
    shown = "the circuit" if circuit else main_slot(lesson).activity.title
    header = (words_cell("Equipment for this class"), words_cell(f"{lesson.space.title} set up for {shown}"))
    return (
        Table((header, (left, right)), (100 - ready.column, ready.column), "Equipment, safety and floor plan"),
        *_everyone(lesson, ready),
        *(_words(lesson) if ready.words else ()),
    )


def floor_drawing(facts: PlanFacts, lesson: LessonFacts, width: float = 1.0) -> Drawing:
    """Return the floor plan of a lesson's main activity, ``width`` being its share of the text's width."""
    scene = lesson_scene(main_slot(lesson).activity, lesson.space, facts.school_class.children, facts.school.lengths)
    return Drawing(scene, describe(scene), width)


def circuit_drawing(facts: PlanFacts, lesson: LessonFacts, width: float = 1.0) -> Drawing | None:
    """Return the map of a lesson's first circuit; None without one, or where its stations do not stand side by side."""
    parts = circuits(lesson)
    answer = _side_by_side(Same(lesson), facts.school_class.children) if parts else None
    if answer is None:
        return None
    scene = station_scene(answer, lesson.space, facts.school.lengths)
    return Drawing(scene, station_says(answer, lesson.space), width)


@lru_cache(maxsize=_KEPT)
def _side_by_side(of: Same[LessonFacts], children: int) -> StationsAnswer | None:
    """Place the stations of a lesson's first circuit, with the numbers that its plan gives them."""
    part = circuits(of.record)[0]
    answer = stations([facts.activity for facts in part], children, of.record.space)
    if not answer.fits:
        return None
    placed = {station.activity.id: station for station in answer.stations}
    numbered = (replace(placed[facts.activity.id], number=number) for number, facts in enumerate(part, 1))
    return replace(answer, stations=tuple(numbered))


def main_slot(lesson: LessonFacts) -> SlotFacts:
    """Return the activity whose floor the lesson's plan shows: the longest practice or game, or else the longest.

    Of two that are as long it is the game, which the lesson leads to.
    """
    mains = [slot for slot in lesson.slots if slot.slot.part in ("practice", "game")] or list(lesson.slots)
    return max(mains, key=lambda slot: (slot.slot.minutes, slot.slot.part == "game"))


def _equipment(facts: PlanFacts, lesson: LessonFacts, ready: Ready) -> tuple[Block, ...]:
    """List the items with their notes, or name them in one line where room is short."""
    if not lesson.equipment:
        return (sentence("Nothing is needed."),)
    counted = to_fetch(facts, lesson)
    if not ready.notes:
        return (Paragraph((Strong(text(", ".join(counted.values()))),)),)
    return (ListBlock(tuple((_placed(said, _notes(lesson, item)),) for item, said in counted.items())),)


def _placed(counted: str, notes: str) -> Paragraph:
    return Paragraph(labelled(counted, f"{EN_DASH} {notes}") if notes else (Strong(text(counted)),))


def _notes(lesson: LessonFacts, item: str) -> str:
    """Say where an item lies, for every activity that says so; their titles stand before it where others use it too."""
    users = [slot.activity for slot in lesson.slots if item in slot.needs]
    titles: dict[str, list[str]] = {}
    for activity in users:
        for need in activity.equipment:
            if need.item == item and need.note:
                note = need.note.rstrip(".")
                titles.setdefault(f"{note[:1].lower()}{note[1:]}", []).append(f"*{activity.title}*")
    if all(len(those) == len(users) for those in titles.values()):
        return " ".join(f"{note}." for note in titles)
    return " ".join(f"{listed(those)}, {note}." for note, those in titles.items())


def _safety(lesson: LessonFacts, ready: Ready) -> tuple[Block, ...]:
    """Give the first cautions of every activity, and the word on local rules once for all; the cards have the rest."""
    keys: dict[str, str] = {}
    said: list[str] = []
    for slot in lesson.slots:
        shown = slot.activity.safety[: ready.cautions]
        new = {each: activity_key(slot.activity.id, "safety", place) for place, each in enumerate(shown)}
        new = {caution: key for caution, key in new.items() if caution not in keys}
        title = slot.activity.title
        said += [f"*{title}{'' if title.endswith(('?', '!')) else ':'}* {' '.join(new)}"] if new else []
        keys |= new
    cautions = Paragraph(inline(" ".join(said)), key=joint_key(keys.values()))
    policy = Paragraph((Strong(text(_POLICY)),))
    if ready.close:
        return (_joined("Safety.", [cautions, policy]),)
    return (_joined("Safety.", [cautions]), policy) if ready.run_in else (Heading(3, text("Safety")), cautions, policy)


def _everyone(lesson: LessonFacts, ready: Ready) -> Iterator[Block]:
    """Name changes of each kind, those of the main activity first; the cards have them all."""
    mains = (main_slot(lesson), *(slot for slot in lesson.slots if slot.slot.part in _MAIN_PARTS))
    changes: list[Paragraph] = []
    for kind in _KINDS:
        found: dict[str, str] = {}
        for slot in mains:
            for place, change in enumerate(getattr(slot.activity.inclusion, kind)):
                found.setdefault(change, activity_key(slot.activity.id, "inclusion", kind, place))
        most = ready.inclusion or int(ready.close and not changes)
        if found and most:
            shown = list(found.items())[:most]
            words = labelled(f"{kind.capitalize()}:", " ".join(change for change, _ in shown))
            changes.append(Paragraph(words, key=joint_key(key for _, key in shown)))
    if changes and ready.run_in:
        yield _joined("Everyone takes part.", changes)
    elif changes:
        yield Heading(3, text("Everyone takes part"))
        yield from changes


def _joined(title: str, said: list[Paragraph]) -> Paragraph:
    """Put paragraphs behind a title and one behind the other."""
    words = (piece for each in said for piece in (Text(" "), *each.content))
    return Paragraph((Strong(text(title)), *words), key=joint_key(each.key for each in said if each.key))


def _words(lesson: LessonFacts) -> tuple[Block, ...]:
    words: dict[tuple[str, str], tuple[str, str]] = {}
    for slot in lesson.slots:
        for place, word in enumerate(slot.activity.words):
            keys = [activity_key(slot.activity.id, "words", place, part) for part in ("word", "means")]
            words.setdefault((word.word, word.means), (keys[0], keys[1]))
    if not words:
        return ()
    spoken = "; ".join(f"*{word}*, {means}" for word, means in words)
    key = joint_key(each for keys in words.values() for each in keys)
    return (Paragraph(labelled("Words to use:", f"{spoken}."), key=key),)
