"""What a planned or impossible unit looks like in the terminal."""

from collections.abc import Callable, Mapping, Sequence
from math import ceil
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call
from lessonkit.commands.grid import grid
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.lesson_facts import PlanFacts
    from lessonkit.planning.reasons import Reasons, Unused
    from lessonkit.planning.replan import Replanned
    from lessonkit.planning.said import Said
    from lessonkit.planning.sequence import Impossible, Planned
    from lessonkit.planning.solve import Progress
    from lessonkit.records.library import Library
    from lessonkit.records.record import Record


def show_planned(
    planned: "Planned", library: "Library", terminal: Terminal, why: "Asking | None", like: "Replanned | None" = None
) -> None:
    """Show a plan as a table, how good it is, and with ``why`` the reasons; ``like`` if it was made like another's."""
    from lessonkit.document.lesson_facts import work_out

    facts = work_out(planned.plan, library)
    terminal.line(planned.plan.title)
    show_table(facts, terminal)
    terminal.tell(_worth(planned) if like is None else _likeness(like))
    for note in planned.notes:
        terminal.tell(f"Note: {note.says}")
    tell_unfinished(facts, terminal)
    if why and (like is None or any(change.swapped for change in like.changes)):
        show_reasons(planned.reasons, titles_of(library), terminal, why)


def tell_unfinished(facts: "PlanFacts", terminal: Terminal) -> None:
    """Say which activities of a plan would be printed with words of the skeleton that ``new`` wrote."""
    from lessonkit.rules.placeholder_left import left_in

    for used in sorted({slot.activity.id for lesson in facts.lessons for slot in lesson.slots}):
        activity = facts.library.activities[used]
        for _, words in left_in(activity)[:1]:
            terminal.tell(f"Note: {activity.title} still says {words!r}, as the skeleton did; finish it, then print.")


Asking = Callable[[str], str]
"""Gives the command that asks about an activity, by its id."""


def asking(plan: str, folder: str | None) -> Asking:
    """Return what gives the command that asks about an activity of a plan in a curriculum's folder."""
    return lambda activity: call(f"why {plan} --activity {activity}", folder)


def titles_of(library: "Library") -> dict[str, str]:
    """Return the titles of all activities by id."""
    return {key: record.title for key, record in library.activities.items()}


def at_most_better(gap: float) -> str:
    """Say how much better a plan or map could at most be, in whole percent rounded up: a promise never too small."""
    return f"at most {max(1, ceil(100 * gap))}% better"


def how_it_ended(stopped: bool) -> str:
    """Say how a search without a proof came to its end: a person ``stopped`` it, or it had its time or usual effort."""
    return "You stopped the search." if stopped else "The search ended before the proof."


def watching(terminal: Terminal) -> "Callable[[Progress], None]":
    """Return a watcher that shows how far a search is."""

    def watch(progress: "Progress") -> None:
        better = f"{at_most_better(progress.gap)} possible"
        terminal.status(f"Searching, {progress.seconds:.0f} s: a plan is found, {better}. Ctrl-C stops.")

    return watch


def show_table(facts: "PlanFacts", terminal: Terminal) -> None:
    """Show lesson, date, parts, outcomes and minutes moving."""
    from lessonkit.document.dates_in_words import short_day
    from lessonkit.document.unit_overview import minutes_say

    rows = []
    for lesson in facts.lessons:
        activities = "; ".join(slot.activity.title for slot in lesson.slots)
        assessed = [target.code for target in lesson.targets if "assessed" in target.ways]
        outcomes = f"{len(lesson.targets)}" + (f", checks {', '.join(assessed)}" if assessed else "")
        moving = f"{lesson.moving:.0f} of {lesson.lesson.minutes}"
        rows.append((str(lesson.lesson.lesson), short_day(lesson.lesson.date), activities, outcomes, moving))
    for line in grid(("No", "Date", "Activities", "Outcomes", "Moving"), rows, terminal.width, flexible=(2, 3)):
        terminal.line(line)
    for says in minutes_say(facts):
        terminal.tell(says)


def _likeness(like: "Replanned") -> str:
    """Say how a plan made like another class's differs from it."""
    lessons = [str(change.lesson) for change in like.changes if change.swapped]
    if not lessons:
        return "The same activities as the first class of the unit. Every requirement was checked again."
    where = f"lesson {lessons[0]}" if len(lessons) == 1 else f"lessons {', '.join(lessons[:-1])} and {lessons[-1]}"
    how = "No plan is nearer to" if like.fewest else "A plan may be nearer to"
    return (
        f"Planned like the first class of the unit, but for {where}. {how} it and meets every requirement. "
        "Plan the classes each for itself with: --apart"
    )


def _worth(planned: "Planned") -> str:
    made = planned.plan.made
    if made is None:
        return ""
    if made.status == "proven":
        return f"Proven: no plan meets your wishes better (cost {made.cost}). Every requirement was checked again."
    gap = (made.cost - made.bound) / max(1, abs(made.cost))
    better = at_most_better(gap) if made.bound > 0 else "how much better was not yet known"
    return (
        f"{how_it_ended(planned.stopped)} The plan meets every requirement; a better one may exist, "
        f"{better} (cost {made.cost}, no plan below {made.bound})."
    )


def show_reasons(
    reasons: "Reasons", titles: "Mapping[str, str]", terminal: Terminal, ask: Asking, lesson: int | None = None
) -> None:
    """Show why each activity is where it is, then what was given up and what is left out; or only one lesson's."""
    shown = -1
    for why in reasons.places:
        if lesson not in (None, why.lesson):
            continue
        if why.lesson != shown:
            shown = why.lesson
            terminal.line(f"Lesson {shown + 1}")
        terminal.tell(f"{titles[why.activity]}: {' '.join(why.says)}", "  ")
    if lesson is not None:
        return
    if reasons.wishes:
        terminal.line("What was given up")
    for wish in reasons.wishes:
        terminal.tell(f"{wish.wish} (cost {wish.cost}): {' '.join(wish.says)}", "  ")
    _show_left_out(reasons.unused, titles, terminal, ask)


def _show_left_out(unused: "Sequence[Unused]", titles: "Mapping[str, str]", terminal: Terminal, ask: Asking) -> None:
    """Show what a plan does not have: what could be in it, what something is in the way of, and how many are others."""
    if unused:
        terminal.line("Left out")
    fitting = [titles[each.activity] for each in unused if each.fits]
    if fitting:
        terminal.tell(f"Could be used, but the others serve the wishes better: {'; '.join(fitting)}.", "  ")
    for each in unused:
        if not each.fits and not each.elsewhere:
            terminal.tell(each.says, "  ")
    others = [each.activity for each in unused if each.elsewhere]
    if others:
        what = "1 more is" if len(others) == 1 else f"{len(others)} more are"
        how = f"Ask about one by its id, as in: {ask(others[0])}"
        terminal.tell(f"{what} for other grades, skills or parts of a lesson. {how}", "  ")


def show_impossible(outcome: "Impossible", opening: str, library: "Library", terminal: Terminal) -> None:
    """Show why a unit cannot be planned, each reason at its line, and the ways out, below an opening line."""
    terminal.tell(opening)
    for said in outcome.because:
        show_sentence(f"- {said.says}", place_of(said, library), terminal)
    single = [way for way in outcome.ways_out if not way.also]
    if single:
        terminal.line("Any one of these would make it possible, the smallest change first:")
    for way in single:
        show_sentence(f"- {way.said.says}", place_of(way.said, library), terminal)
    for number, way in enumerate(way for way in outcome.ways_out if way.also):
        first = "These changes together" if single else "No single change is enough, but these together"
        terminal.line(f"{'Or these together' if number else first} would make it possible:")
        for said in (way.said, *way.also):
            show_sentence(f"- {said.says}", place_of(said, library), terminal)


def show_sentence(words: str, place: str | None, terminal: Terminal) -> None:
    """Show a sentence, below its place in a file where it has one."""
    if place:
        terminal.line(f"{place}:")
    terminal.tell(words, "  ")


def place_of(said: "Said", library: "Library") -> str | None:
    """Return the place in a file that a sentence rests on, None where there is none."""
    from lessonkit.loading.places import locate

    record: Record | None = next((r for r in library.records() if (r.kind, r.id) == (said.kind, said.record)), None)
    if record is None or not record.path:
        return None
    start = str(locate(record.path, ()))
    fields = (said.field, *((near,) for near in _NEAR.get(str(said.field[0]) if said.field else "", ())))
    places = [str(locate(record.path, field)) for field in fields]
    return next((place for place in places if place != start), start)


_NEAR = {"repeats": ("lessons", "weeks"), "moving": ("shapes",), "mastered": ("skills",)}
"""Where a sentence about a field of a request stands that the request does not have: at a field it has."""
