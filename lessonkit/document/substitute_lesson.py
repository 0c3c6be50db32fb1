"""The lesson of a substitute sheet: what to do by the clock, in the words of the activities."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lessonkit.document.circuit_table import circuit_says
from lessonkit.document.keys import activity_key, joint_key, leaf_keyed, listed, slot_key
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, SlotFacts, stations_of
from lessonkit.document.lesson_flow import CUE_MARK, groups_keys, groups_say, in_grade
from lessonkit.document.model import Block, Cell, Paragraph, Role, Table, text
from lessonkit.document.pieces import (
    EN_DASH,
    NO_BREAK,
    cell,
    closed,
    in_one,
    inline,
    labelled,
    markdown,
    together,
    words_cell,
)
from lessonkit.document.substitute_sizes import Needs, SheetSize, Told, cut_steps, most_cuts
from lessonkit.document.substitute_steps import run_in, shown_keys, steps_lengths
from lessonkit.records.activity import CORE_PARTS, Activity

_HEAD = "What to do: the steps speak to the children, and *the teacher* is you"
_REST = "\u2026 stands for more in the lesson plan"
_STOP_ALL = "the signal that this class knows; things go back to their places, and squads walk on."


def lesson_table(plan: PlanFacts, lesson: LessonFacts, size: SheetSize) -> Table:
    """Return the lesson as a table: the time of day, what to do, and beside it what to say and what keeps all safe."""
    header = (words_cell("Time"), words_cell(f"{_HEAD}; {_REST}." if size.cut else f"{_HEAD}."))
    rows: list[tuple[Cell, ...]] = [header]
    shown = iter(cut_steps(_told(lesson), size.cut))
    place = 0
    for part in stations_of(lesson.slots):
        if len(part) > 1:
            rows += _circuit(plan, lesson, part, size)
        else:
            rows.append(_row(plan, lesson, place, size, next(shown)))
        place += len(part)
    return Table(tuple(rows), (7.5, 92.5), "The lesson by the clock", row_header=True)


def cuts_of(lesson: LessonFacts) -> int:
    """Return how many sentences of a lesson's steps may be left out."""
    return most_cuts(_told(lesson))


def _told(lesson: LessonFacts) -> list[Told]:
    """Measure the steps of the activities that all do together."""
    return [Told(steps_lengths(facts.activity), facts.slot.minutes) for facts in _alone(lesson)]


def _alone(lesson: LessonFacts) -> list[SlotFacts]:
    """Return the activities that all do together; the steps of stations are on cards on the wall."""
    return [part[0] for part in stations_of(lesson.slots) if len(part) == 1]


def _row(plan: PlanFacts, lesson: LessonFacts, place: int, size: SheetSize, shown: tuple[int, ...]) -> tuple[Cell, ...]:
    facts = lesson.slots[place]
    what = _activity(plan, facts, size, shown)
    return _clock(lesson, facts, place), cell(*what, *_said(facts, size, stop=True))


def _clock(lesson: LessonFacts, facts: SlotFacts, place: int) -> Cell:
    number = lesson.lesson.lesson
    minutes = Paragraph(text(f"{facts.starts}{EN_DASH}{facts.ends}"), Role.SMALL, slot_key(number, place, "minutes"))
    shown = [Paragraph(text(time_after(lesson.lesson.at, facts.starts))), minutes]
    if facts.slot.setup:
        words = text(f"set-up {facts.slot.setup}{NO_BREAK}min")
        shown.append(Paragraph(words, Role.SMALL, slot_key(number, place, "setup")))
    return cell(*shown)


def time_after(at: str, minutes: int) -> str:
    """Return the time of day so many minutes after another, such as ``09:23``."""
    hour, minute = map(int, at.split(":"))
    hour, minute = divmod(hour * 60 + minute + minutes, 60)
    return f"{hour % 24:02}:{minute:02}"


def _activity(plan: PlanFacts, facts: SlotFacts, size: SheetSize, shown: tuple[int, ...]) -> Iterator[Block]:
    own, activity = facts.activity.id, facts.activity
    title, summary = _title(plan, facts, size.needs), activity_key(own, "summary")
    steps = shown_keys(activity, shown)
    if size.listed:
        yield title
        yield from leaf_keyed(markdown(activity.steps), activity_key(own, "steps"))
    elif not size.cut:
        yield from (title, Paragraph(run_in(activity, shown), key=joint_key(steps)))
    elif size.close:
        words = together((title.content, inline(activity.summary), run_in(activity, shown)))
        yield Paragraph(words, key=joint_key((*groups_keys(facts), summary, *steps)))
    else:
        words = together((inline(activity.summary), run_in(activity, shown)))
        yield from (title, Paragraph(words, key=joint_key((summary, *steps))))


def _title(plan: PlanFacts, facts: SlotFacts, needs: Needs) -> Paragraph:
    """Return the activity's name, its groups and what it uses."""
    label, words = _needs(plan, facts, needs)
    pieces = [labelled(closed(facts.activity.title), groups_say(facts)), *([labelled(label, words)] if words else [])]
    return Paragraph(together(pieces), key=joint_key(groups_keys(facts)))


def _needs(plan: PlanFacts, facts: SlotFacts, needs: Needs) -> tuple[str, str]:
    """Say what an activity uses and where it lies, a sentence for an item with a note, with a label; empty for none."""
    counted = {item: f"{count}{NO_BREAK}{plan.item_name(item, count)}" for item, count in facts.needs.items()}
    notes = {need.item: need.note for need in facts.activity.equipment if need.note and need.item in counted}
    if needs == "laid":
        notes = {item: note.partition(";")[0] for item, note in notes.items() if _lies_on_floor(plan, item)}
    placed = [f"{counted[item]} {EN_DASH} {note[:1].lower()}{note[1:].rstrip('.')}." for item, note in notes.items()]
    if needs == "laid":
        return "Lay out:", " ".join(placed)
    others = ", ".join(said for item, said in counted.items() if item not in notes or needs == "counted")
    sentences = (*(placed if needs == "placed" else ()), *([f"{others}."] if others else []))
    return "Uses:", " ".join(sentences) if needs != "none" else ""


def _lies_on_floor(plan: PlanFacts, item: str) -> bool:
    """Tell whether an item is one that plans of the floor show and nobody holds."""
    known = plan.library.items.get(item)
    return known is not None and known.symbol is not None and not (known.thrown or known.swung)


def _said(facts: SlotFacts, size: SheetSize, *, stop: bool) -> Iterator[Paragraph]:
    """Yield what is said and what keeps everybody safe: a paragraph for each where there is room, else one for all."""
    shown = [(labelled(label, words), keys) for label, words, keys in _remarks(facts, size, stop=stop) if words]
    if size.listed:
        yield from (Paragraph(words, key=joint_key(keys)) for words, keys in shown)
    elif shown:
        words = together(words for words, _ in shown)
        yield Paragraph(words, key=joint_key(key for _, keys in shown for key in keys))


def _remarks(facts: SlotFacts, size: SheetSize, *, stop: bool) -> Iterator[tuple[str, str, Iterable[str]]]:
    """Yield labels, their words (empty for none) and the fields of these."""
    activity, own = facts.activity, facts.activity.id
    if size.grade:
        changes = listed("activity", own, "changes", words=facts.version.changes if facts.version else ())
        yield in_grade(facts.grade), " ".join(changes), changes.values()
        yield "Waiting:", activity.organisation.waiting or "", [activity_key(own, "organisation", "waiting")]
    if stop:
        yield "Stop:", activity.stop_signal or "", [activity_key(own, "stop_signal")]
    safety = listed("activity", own, "safety", words=activity.safety[: size.cautions])
    yield "Keep safe:", " ".join(safety), safety.values()
    cues = activity.cues[: size.cues]
    keys = [activity_key(own, "cues", place) for place in range(len(cues))]
    yield "Say:", f"{CUE_MARK.join(f'*{cue}*' for cue in cues)}." if cues else "", keys
    everyone = dict(list(_changes(activity).items())[: size.everyone]) if facts.slot.part in CORE_PARTS else {}
    yield "Everyone takes part:", " ".join(everyone), everyone.values()


def _changes(activity: Activity) -> dict[str, str]:
    """Return the first change of every kind that lets everyone take part, the place first, with their keys."""
    found: dict[str, str] = {}
    for kind in ("space", "equipment", "task", "people"):
        first = getattr(activity.inclusion, kind)[:1]
        found |= listed("activity", activity.id, "inclusion", kind, words=first)
    return found


def _circuit(
    plan: PlanFacts, lesson: LessonFacts, part: tuple[SlotFacts, ...], size: SheetSize
) -> Iterator[tuple[Cell, ...]]:
    """Yield a row for a circuit and, if there is room, one for each station; their steps are on cards on the wall."""
    clock = cell(
        Paragraph(text(time_after(lesson.lesson.at, part[0].starts))),
        Paragraph(text(f"{part[0].starts}{EN_DASH}{part[-1].ends}"), Role.SMALL),
    )
    squads = -(-plan.school_class.children // len(part)), plan.school_class.children // len(part)
    sizes = " or ".join(map(str, sorted(set(squads))))
    says = f"{circuit_says(part)} Squads of {sizes} children; a card at each station shows what to do."
    stop = labelled("Stop, for all stations at once:", _STOP_ALL)
    stations = [_station(plan, facts, size) for facts in part]
    if not size.stations:
        numbered = [in_one((Paragraph(text(f"{number}")), *said)) for number, said in enumerate(stations, 1)]
        yield clock, cell(Paragraph(inline(says)), Paragraph(stop), *numbered)
        return
    yield clock, cell(Paragraph(inline(says)), Paragraph(stop))
    for number, said in enumerate(stations, 1):
        name = cell(Paragraph(text(f"station{NO_BREAK}{number}")))
        yield name, cell(*([in_one(said)] if size.close else said))


def _station(plan: PlanFacts, facts: SlotFacts, size: SheetSize) -> tuple[Paragraph, ...]:
    """Say who does what at a station, and what keeps them safe; where room is short without what the card shows."""
    title = _title(plan, facts, "counted" if size.stations else "none")
    safe = _said(facts, replace(size, cues=0, listed=False), stop=False)
    if not size.stations:
        return title, *safe
    words = together((title.content, inline(facts.activity.summary)))
    keys = (*groups_keys(facts), activity_key(facts.activity.id, "summary"))
    return Paragraph(words, key=joint_key(keys)), *safe
