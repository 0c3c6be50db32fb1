"""The substitute sheet: one sheet of paper with which somebody without training teaches a lesson safely."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.keys import activity_key, field_key, joint_key, leaf_keyed, listed, slot_key
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, SlotFacts
from lessonkit.document.lesson_flow import CUE_MARK, groups_say, in_grade
from lessonkit.document.markdown import read_markdown
from lessonkit.document.model import (
    Block,
    Cell,
    Document,
    Heading,
    Inline,
    KeyValues,
    ListBlock,
    Paragraph,
    Role,
    Strong,
    Table,
    Text,
    WritingSpace,
    plain,
    text,
)
from lessonkit.document.pieces import (
    EN_DASH,
    NO_BREAK,
    bullets,
    cell,
    closed,
    keyed_bullets,
    labelled,
    sentence,
    words_cell,
)
from lessonkit.logistics.words import opened
from lessonkit.records.activity import CORE_PARTS, Activity

ELLIPSIS = "\u2026"
_WHOLE = "What to do and say: the steps speak to the children, and *the teacher* is you"
_CUT = f"{_WHOLE} ({ELLIPSIS} stands for further steps: go on as you are, or see the lesson plan)"
_POLICY = "Where the school's own rules differ from this sheet, follow the school. Medical questions go to the nurse."


_HAND = 22.0
"""Points of a row for handwriting."""


@dataclass(frozen=True, slots=True)
class SheetSize:
    """How roomy a sheet is.

    ``steps`` are the most that are printed in all, None for every one; with ``lists`` steps and routines stand one
    below the other, with ``apart`` cues, stop signal and cautions too; ``cautions`` are the most for an activity, and
    ``everyone`` the most changes that let everyone take part; with ``notes`` each item's place is said, and with every
    step at least what an activity uses;
    ``lines`` is the room for what the substitute notes.
    """

    steps: int | None = None
    lists: bool = True
    apart: bool = False
    cautions: int = 2
    everyone: int = 0
    notes: bool = True
    lines: int = 2


_MOST_LINES = 16
_ONE_SIDE = (
    *(SheetSize(everyone=4, lines=lines) for lines in (8, 7, 6, 5, 4, 3, 2)),
    *(SheetSize(everyone=most) for most in (2, 0)),
    SheetSize(cautions=1),
)
"""Sizes for one side, with every step on a line of its own, from the roomiest to the tightest."""
_TWO_SIDES = (
    *(SheetSize(apart=True, cautions=6, everyone=4, lines=lines) for lines in (16, 14, 12, 10, 9, 8, 7, 6, 5, 4, 3)),
    *(SheetSize(cautions=6, everyone=4, lines=lines) for lines in (3, 2)),
    *(SheetSize(cautions=6, everyone=most) for most in (3, 2, 1)),
    *(SheetSize(cautions=most, everyone=1) for most in (5, 4, 3, 2)),
    *(SheetSize(cautions=most) for most in (2, 1)),
    *(SheetSize(lists=False, cautions=1, lines=lines) for lines in (2, 1)),
    SheetSize(lists=False, cautions=1, notes=False, lines=1),
)
"""Sizes for both sides, with every step, from the roomiest to the tightest."""


def substitute_document(facts: PlanFacts, number: int, pages: CountPages | None = None) -> Document:
    """Return the sheet of one lesson; ``number`` is the lesson's number, from 1.

    Every step stands on one side where ``pages`` says that it can, else on both sides of one sheet; only a lesson too
    long for these is cut short. Without ``pages`` the sheet says a usual amount.
    """
    lesson = next(found for found in facts.lessons if found.lesson.lesson == number)
    if pages is None:
        return _document(facts, lesson, SheetSize())
    size = _fitting(_ONE_SIDE, 1, facts, lesson, pages)
    if size is None:
        size = _two_sides(facts, lesson, pages)
        roomier = [replace(size, lines=lines) for lines in range(_MOST_LINES, size.lines, -1)]
        size = _fitting((*roomier, size), 2, facts, lesson, pages) or size
    return _document(facts, lesson, size)


def _two_sides(facts: PlanFacts, lesson: LessonFacts, pages: CountPages) -> SheetSize:
    """Return the roomiest size for both sides of a sheet, the tightest of all where none fits."""
    tight = tuple(_tight(lesson))
    return _fitting((*_TWO_SIDES, *tight), 2, facts, lesson, pages) or tight[-1]


def _fitting(
    sizes: Sequence[SheetSize], sides: int, facts: PlanFacts, lesson: LessonFacts, pages: CountPages
) -> SheetSize | None:
    """Return the roomiest of sizes that fits so many sides, None where none does."""

    def fits(size: SheetSize) -> bool:
        return pages(_document(facts, lesson, size)) <= sides

    found = fullest(sizes, fits)
    return found if found != sizes[-1] or fits(found) else None


def _tight(lesson: LessonFacts) -> Iterator[SheetSize]:
    """Yield sizes with ever fewer steps, down to the first of every activity, and at the last without cautions."""
    total = sum(len(steps_of(slot)) for slot in lesson.slots)
    for steps in range(total - 1, len(lesson.slots) - 1, -1):
        yield SheetSize(steps, lists=False, cautions=1, notes=False, lines=1)
    yield SheetSize(len(lesson.slots), lists=False, cautions=0, notes=False, lines=1)


def share_steps(counts: Sequence[int], most: int | None) -> tuple[int, ...]:
    """Share out the steps to print, one for each activity in turn as long as it has more of them."""
    if most is None:
        return tuple(counts)
    given = [0] * len(counts)
    while sum(given) < min(most, sum(counts)):
        for place, count in enumerate(counts):
            if given[place] < count and sum(given) < most:
                given[place] += 1
    return tuple(given)


def never_sentences(facts: PlanFacts, lesson: LessonFacts) -> tuple[str, ...]:
    """Return what the equipment of a lesson must never be used for, as the catalogue says it, each sentence once."""
    said: dict[str, None] = {}
    for item in (facts.library.items[item] for item, _ in lesson.equipment if item in facts.library.items):
        if item.never:
            words = " ".join(item.never)
            said.setdefault(f"*{opened(item.title.partition(' (')[0])}:* {words[:1].lower()}{words[1:]}")
    return tuple(said)


def _document(facts: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Document:
    plan = lesson.lesson
    return Document(
        title=f"Substitute sheet, lesson {plan.lesson}: {lesson.title}",
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.school.title} {EN_DASH} substitute sheet, lesson {plan.lesson}",
        date=plan.date,
        blocks=(
            *_head(facts, lesson),
            _ask(),
            _before(facts, lesson, size),
            Heading(2, text("The lesson, step by step")),
            _steps(facts, lesson, size),
            WritingSpace("Please note: how far you came, what went well, who was hurt or left early", size.lines),
        ),
        paper=facts.school.paper,
        about=field_key("plan", facts.plan.id),
    )


def _head(facts: PlanFacts, lesson: LessonFacts) -> tuple[Block, ...]:
    plan = lesson.lesson
    pairs = (
        ("Class", f"{facts.school_class.title}, {facts.school_class.children} children"),
        ("When", f"{day_in_words(plan.date)}, {plan.at}"),
        ("Minutes", str(plan.minutes)),
        ("Where", lesson.space.title),
    )
    return (
        Paragraph(text(f"For the substitute teacher {EN_DASH} lesson {plan.lesson}"), Role.KICKER),
        Heading(1, text(lesson.title)),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
    )


def _before(facts: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Table:
    """Put what the class is used to beside what is laid out and what must not be done, in columns of equal height."""
    header = (words_cell("How this class works"), words_cell("Have ready before they come"))
    routines, nevers = facts.school.routines, never_sentences(facts, lesson)
    laid_out = _lay_out(facts, lesson)
    rules = (
        Heading(2, text("Rules for the equipment")),
        *_one_by_one(nevers, size),
        Paragraph((Strong(text(_POLICY)),)),
    )
    long = sum(map(len, routines)) + 60
    share = 100 * long / (long + sum(map(len, nevers)) + len(plain(laid_out.content)) + len(_POLICY) + 180)
    row = (cell(*_routines(facts, size)), cell(laid_out, *rules))
    left = min(max(share, 35.0), 62.0)
    return Table((header, row), (left, 100 - left), "Routines, equipment and safety")


def _routines(facts: PlanFacts, size: SheetSize) -> tuple[Block, ...]:
    """Set what the class is used to as ``_one_by_one`` does, with the keys of the school's record."""
    keyed = listed("school", facts.school.id, "routines", words=facts.school.routines)
    if size.lists or not keyed:
        return keyed_bullets(keyed)
    return (sentence(" ".join(keyed), key=joint_key(keyed.values())),)


def _one_by_one(sentences: Sequence[str], size: SheetSize) -> tuple[Block, ...]:
    """Set sentences one below the other, or one behind the other where room is short."""
    if size.lists or not sentences:
        return bullets(sentences)
    return (sentence(" ".join(sentences)),)


def _lay_out(facts: PlanFacts, lesson: LessonFacts) -> Paragraph:
    items = ", ".join(f"{count}{NO_BREAK}{facts.item_name(item, count)}" for item, count in lesson.equipment)
    return Paragraph((Strong(text(f"{items}." if items else "Nothing is needed.")),))


def _steps(facts: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Table:
    header = (words_cell("Minutes"), words_cell(_WHOLE if size.steps is None else _CUT))
    shares = share_steps([len(steps_of(slot)) for slot in lesson.slots], size.steps)
    rows = tuple(
        (_clock(slot, lesson.lesson.lesson, place), cell(*_slot(facts, slot, size, most)))
        for place, (slot, most) in enumerate(zip(lesson.slots, shares, strict=True))
    )
    return Table((header, *rows), (8.5, 91.5), "The lesson step by step", row_header=True)


def _clock(facts: SlotFacts, lesson: int, place: int) -> Cell:
    shown = [Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}"), key=slot_key(lesson, place, "minutes"))]
    if facts.slot.setup:
        words = text(f"set-up {facts.slot.setup}{NO_BREAK}min")
        shown.append(Paragraph(words, Role.SMALL, slot_key(lesson, place, "setup")))
    return cell(*shown)


def _slot(plan: PlanFacts, facts: SlotFacts, size: SheetSize, most: int) -> Iterator[Block]:
    activity = facts.activity
    whole = size.steps is None
    title = labelled(closed(activity.title), groups_say(facts) if whole else facts.grouping.says)
    needs = labelled("You need:", _needs(plan, facts, size)) if facts.needs and whole else ()
    own = activity.id
    if size.lists:
        yield Paragraph(_together((title, needs) if needs else (title,)), key=activity_key(own, "title"))
        yield from leaf_keyed(read_markdown(activity.steps), activity_key(own, "steps"))
    else:
        steps = _run_in(steps_of(facts), most)
        yield Paragraph(_together((title, needs, steps) if needs else (title, steps)))
    core = facts.slot.part in CORE_PARTS
    changes = listed("activity", own, "changes", words=facts.version.changes if facts.version and whole else ())
    safety = listed("activity", own, "safety", words=activity.safety[: size.cautions])
    everyone = dict(list(_changes(activity).items())[: size.everyone]) if core else {}
    cues = [activity_key(own, "cues", place) for place in range(len(activity.cues))]
    said = (
        (in_grade(facts.grade), " ".join(changes), [*changes.values()]),
        (
            "Waiting:",
            (activity.organisation.waiting or "") if whole else "",
            [activity_key(own, "organisation", "waiting")],
        ),
        ("Say:", f"{CUE_MARK.join(f'*{cue}*' for cue in activity.cues)}." if activity.cues else "", cues),
        ("Stop:", activity.stop_signal or "", [activity_key(own, "stop_signal")]),
        ("Keep safe:", " ".join(safety), [*safety.values()]),
        ("Everyone takes part:", " ".join(everyone), [*everyone.values()]),
    )
    shown = [(labelled(label, words), keys) for label, words, keys in said if words]
    if size.apart:
        yield from (Paragraph(words, key=joint_key(keys)) for words, keys in shown)
    else:
        yield Paragraph(
            _together([words for words, _ in shown]), key=joint_key(key for _, keys in shown for key in keys)
        )


def _needs(plan: PlanFacts, facts: SlotFacts, size: SheetSize) -> str:
    """Say what an activity uses and where it lies, a sentence for an item with a note."""
    notes = {need.item: need.note for need in facts.activity.equipment if need.note and size.notes}
    counted = {item: f"{count}{NO_BREAK}{plan.item_name(item, count)}" for item, count in facts.needs.items()}
    placed = [f"{counted[item]} {EN_DASH} {note[:1].lower()}{note[1:].rstrip('.')}." for item, note in notes.items()]
    others = ", ".join(said for item, said in counted.items() if item not in notes)
    return " ".join((*placed, *([f"{others}."] if others else [])))


def _changes(activity: Activity) -> dict[str, str]:
    """Return the first change of every kind that lets everyone take part, the place first, with their keys."""
    found: dict[str, str] = {}
    for kind in ("space", "equipment", "task", "people"):
        first = getattr(activity.inclusion, kind)[:1]
        found |= listed("activity", activity.id, "inclusion", kind, words=first)
    return found


def steps_of(facts: SlotFacts) -> tuple[tuple[Inline, ...], ...]:
    """Return the steps of an activity, each on one line."""
    steps: list[tuple[Inline, ...]] = []
    for block in read_markdown(facts.activity.steps):
        if isinstance(block, ListBlock):
            steps += [_of_item(item) for item in block.items]
        elif isinstance(block, Paragraph):
            steps.append(block.content)
    return tuple(steps)


def _run_in(steps: Sequence[tuple[Inline, ...]], most: int) -> tuple[Inline, ...]:
    """Return the first steps, numbered, one behind the other; three dots stand for the others."""
    shown = [(Strong(text(f"{number}.{NO_BREAK}")), *step) for number, step in enumerate(steps[:most], 1)]
    return (*_together(shown), *((Strong(text(f" {ELLIPSIS}")),) if most < len(steps) else ()))


def _together(pieces: Sequence[tuple[Inline, ...]]) -> tuple[Inline, ...]:
    return tuple(inline for place, piece in enumerate(pieces) for inline in (*((Text(" "),) if place else ()), *piece))


def _of_item(item: tuple[Block, ...]) -> tuple[Inline, ...]:
    """Return the words of a list's item, deeper lists run in."""
    words: list[Inline] = []
    for block in item:
        if isinstance(block, ListBlock):
            inner = [_of_item(each) for each in block.items]
        else:
            inner = [block.content] if isinstance(block, Paragraph) else []
        words += [*((Text(" "),) if words and inner else ()), *_together(inner)]
    return tuple(words)


def _ask() -> Table:
    """Return room for the names and numbers of those who help, to be filled in by hand before the sheet is needed."""
    who = ("The office", "The nurse", "The teacher next door", "An adult who helps")
    header = tuple(replace(words_cell(words), shaded=True) for words in who)
    return Table((header, tuple(cell() for _ in who)), (25, 25, 25, 25), "Who helps", row_height=_HAND)
