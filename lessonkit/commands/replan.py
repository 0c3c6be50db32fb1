"""``replan``: put a plan right after something has happened, changing no more than is needed."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import seconds
from lessonkit.commands.calls import call, pasted
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import refuse_folder
from lessonkit.commands.plan_words import at_most_better, how_it_ended
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded
    from lessonkit.planning.changes import Change
    from lessonkit.planning.edits import Edits, Held
    from lessonkit.planning.replan import Replanned
    from lessonkit.planning.sequence import Planned
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan

NAME = "replan"
HELP = "Put a plan right after a lost lesson, other news, or a change by hand."
EXAMPLES = (
    ("lessonkit replan --taught 3 --lost 2027-01-14", "a lesson fell out; show what changes"),
    ("lessonkit replan --taught 3 --lost 2027-01-14 --write", "and write the new plan; the old file is kept"),
    ("lessonkit replan --lost 2027-01-14 --same-end", "the unit still ends on the same day"),
    ("lessonkit replan --short 2027-01-14=20", "a lesson of 20 minutes"),
    ("lessonkit replan --children 28", "the class has grown"),
    ("lessonkit replan --broken short-paddle=4", "four paddles are broken"),
    ("lessonkit replan --room 2027-01-14=field", "another room that day; --room field: from now on"),
    ("lessonkit replan", "the records or the plan were changed by hand: put the rest right"),
)


_ALWAYS = 2
"""Columns of the table of changes that are shown even where they are empty."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("plan", nargs="?", help="the id of the plan (default: the only one there is)")
    parser.add_argument("--in", dest="folder", metavar="FOLDER", help="the curriculum it is in")
    parser.add_argument("--taught", type=int, metavar="N", help="lessons 1 to N are over and stay as they were")
    parser.add_argument("--lost", action="append", default=[], metavar="DAY", help="the lesson of this day fell out")
    parser.add_argument("--same-end", action="store_true", help="a lost lesson is not made up for: keep the last day")
    parser.add_argument(
        "--short", action="append", default=[], metavar="DAY=MINUTES", help="the lesson of this day has another length"
    )
    parser.add_argument("--children", type=int, metavar="N", help="how many children the class has now")
    parser.add_argument(
        "--broken", action="append", default=[], metavar="ITEM=COUNT", help="so many of an item cannot be used any more"
    )
    parser.add_argument(
        "--room", action="append", default=[], metavar="SPACE", help="the space from now on; DAY=SPACE: on that day"
    )
    parser.add_argument("--best", action="store_true", help="the best plan from here, however much it changes")
    parser.add_argument(
        "--seconds", type=seconds, metavar="N", help="search for N seconds at most, instead of the usual effort"
    )
    parser.add_argument("--write", action="store_true", help="write the new plan; the old file is kept beside it")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Plan again and show what changes. Returns 0, or 1 where there is no way on."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.plans import wanted_plan
    from lessonkit.commands.refusing import refuse_errors

    refuse_folder(args.plan)
    loaded = open_curriculum(args.folder, terminal)
    plans = loaded.library.plans
    units = {plan.unit for plan in plans.values() if args.plan is None or args.plan in (plan.id, plan.path)}
    if refuse_errors(loaded, terminal, leave_out=("plan", "year-map"), units=units, named=True):
        return 1
    old = wanted_plan(loaded, args.plan, args.folder)
    return _again(loaded, old, args, terminal)


def _again(loaded: "Loaded", old: "Plan", args: argparse.Namespace, terminal: Terminal) -> int:
    from lessonkit import __version__
    from lessonkit.commands.news import with_news
    from lessonkit.commands.plan_words import show_impossible, watching
    from lessonkit.planning.replan import replan
    from lessonkit.planning.sequence import Impossible, Options, Stopped

    library = loaded.library
    plan = with_news(old, library, args)
    terminal.status(f"{old.title}: searching ...")
    options = Options(seconds=args.seconds, progress=watching(terminal), version=__version__)
    try:
        answer = replan(library, plan, options, best=args.best)
    except KeyError as missing:
        see = call(f"check {pasted(old.path)}", None)
        raise CannotRunError(f"the plan names {missing}, which is not there; see: {see}") from None
    terminal.status("")
    outcome = answer.outcome
    _show_edits(answer.edits, library, terminal)
    if isinstance(outcome, Impossible):
        show_impossible(outcome, f"There is no way on for {old.title}:", library, terminal)
        return 1
    if isinstance(outcome, Stopped):
        terminal.error(outcome.says)
        return 1
    _show(answer, outcome, args.best, terminal)
    return _write(old, outcome, library, args.write, terminal)


def _show_edits(changed: "Edits", library: "Library", terminal: Terminal) -> None:
    for held in changed.held:
        where = f"{library.activities[held.slot.activity].title} in lesson {held.lesson + 1}"
        minutes = f" for {held.minutes} minutes" if held.minutes else ""
        terminal.tell(f"Kept as you changed it: {where}{minutes}{_taken_back(held)}.")
    for lesson, activity in changed.taken_out:
        title = library.activities[activity].title if activity in library.activities else activity
        terminal.tell(f"Kept as you changed it: no {title} in lesson {lesson + 1}.")


def _taken_back(held: "Held") -> str:
    """Say where minutes chosen by hand are beyond what the activity's record allows."""
    if held.minutes in (None, held.slot.minutes):
        return ""
    limit = "most" if held.minutes < held.slot.minutes else "least"
    return f", the {limit} that its record allows, not {held.slot.minutes}"


def _show(answer: "Replanned", planned: "Planned", best: bool, terminal: Terminal) -> None:
    from lessonkit.commands.grid import grid

    terminal.line(planned.plan.title)
    if not answer.changes:
        terminal.line("Nothing changes.")
        return
    rows = [("No", "Day", "Out", "In", "What else changes"), *(_row(change) for change in answer.changes)]
    told = [column for column in range(len(rows[0])) if column < _ALWAYS or any(row[column] for row in rows[1:])]
    header, *body = [tuple(row[column] for column in told) for row in rows]
    for line in grid(header, body, terminal.width, flexible=tuple(range(_ALWAYS, len(told)))):
        terminal.line(line)
    terminal.tell(f"{_counted(answer)} {_worth(planned, answer, best)}")


def _row(change: "Change") -> tuple[str, str, str, str, str]:
    from lessonkit.document.dates_in_words import short_day

    before, after = (short_day(day) if day else "" for day in (change.date_before, change.date_after))
    day = after or f"gone (was {before})"
    else_ = [f"was {before}"] if before and after and before != after else []
    else_ += [f"{title} {minutes} min, was {was}" for title, was, minutes in change.retimed]
    return str(change.lesson), day, "; ".join(change.out), "; ".join(change.new), "; ".join([*else_, *change.frame])


def _counted(answer: "Replanned") -> str:
    swapped = sum(max(len(change.out), len(change.new)) for change in answer.changes)
    lessons = sum(bool(change.swapped) for change in answer.changes)
    if not swapped:
        return "No activity changes."
    activities = "1 activity changes" if swapped == 1 else f"{swapped} activities change"
    return f"{activities}, in {'1 lesson' if lessons == 1 else f'{lessons} lessons'}."


def _worth(planned: "Planned", answer: "Replanned", best: bool) -> str:
    made = planned.plan.made
    if made is None:
        return ""
    better = at_most_better((made.cost - made.bound) / max(1, made.cost))
    ended = how_it_ended(planned.stopped)
    if best:
        proven = "Proven: no plan from here meets your wishes better."
        return proven if made.status == "proven" else f"{ended} A plan could be {better}."
    fewest = "No plan changes less" if answer.fewest else f"{ended} A plan may change less"
    if made.status == "proven":
        return f"{fewest}, and none meets your wishes better."
    if made.bound <= 0:
        return f"{fewest}. How much better the rest could be planned anew is not known: see with --best."
    return f"{fewest}. Planned anew the rest could meet your wishes {better}: see with --best."


def _write(old: "Plan", planned: "Planned", library: "Library", write: bool, terminal: Terminal) -> int:
    from lessonkit.commands.kept import keep_beside
    from lessonkit.planning.write_plan import plan_text
    from lessonkit.source.safe_file import write_whole

    if not write:
        terminal.line("Nothing is written yet; add --write to write the new plan and keep the old file.")
        return 0
    path = Path(old.path)
    content = plan_text(planned.plan, library).encode()
    if path.read_bytes() == content:
        terminal.tell(f"{path.as_posix()} stays as it is.")
        return 0
    spare = keep_beside(path)
    write_whole(path, content)
    terminal.tell(f"Wrote {path.as_posix()}. The old plan is kept as {spare.as_posix()}.")
    return 0
