"""``why``: why a plan is as it is, what a change would cost, and what else it could be."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call, pasted
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import no_such, refuse_folder
from lessonkit.commands.plan_words import Asking, asking, at_most_better
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lessonkit.planning.alternatives import Other, Swap
    from lessonkit.planning.read_plan import ReadPlan
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan

NAME = "why"
HELP = "Say why a plan is as it is, what a change would cost, and what else it could be."
EXAMPLES = (
    ("lessonkit why", "the reason for every activity, and what was given up"),
    ("lessonkit why --lesson 3", "one lesson"),
    ("lessonkit why --activity wall-talk", "why it is in or out, and the price of having it"),
    ("lessonkit why --swap 3 2", "what else could be the second activity of lesson 3, the cheapest first"),
    ("lessonkit why --others", "two more plans, really different and nearly as good"),
    ("lessonkit why --others --take 2", "write the second of the three; the old file is kept"),
)
_SHOWN = 8
"""Swaps that are shown."""
_FEW = 3
"""With fewer swaps than these the rest of the lesson is freed as well."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("plan", nargs="?", help="the id of the plan (default: the only one there is)")
    parser.add_argument("--in", dest="folder", metavar="FOLDER", help="the curriculum it is in")
    parser.add_argument("--lesson", type=int, metavar="N", help="only this lesson")
    parser.add_argument("--activity", metavar="ID", help="one activity, used or left out")
    parser.add_argument(
        "--swap", nargs=2, type=int, metavar=("N", "PLACE"), help="what else could be in a place of lesson N"
    )
    parser.add_argument("--others", action="store_true", help="search for two more plans that are really different")
    parser.add_argument("--take", type=int, choices=(2, 3), metavar="N", help="with --others: write plan 2 or 3")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Explain. Returns 0; a plan, lesson or activity that is not there ends in a sentence and code 2."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.plans import wanted_plan
    from lessonkit.planning.read_plan import read_plan

    refuse_folder(args.plan)
    loaded = open_curriculum(args.folder, terminal)
    library, plan = loaded.library, wanted_plan(loaded, args.plan, args.folder)
    if args.take and not args.others:
        raise CannotRunError("--take goes with --others, to write one of the plans that it shows.")
    try:
        read = read_plan(plan, library)
    except KeyError as missing:
        see = call(f"check {pasted(plan.path)}", None)
        raise CannotRunError(f"the plan names {missing}, which is not there; see: {see}") from None
    terminal.line(plan.title)
    if args.swap:
        _swap(read, args.swap, terminal)
    elif args.activity:
        _activity(read, args.activity, args.folder, terminal)
    elif args.others:
        _others(read, plan, library, args.take, terminal)
    else:
        _reasons(read, args.lesson, asking(plan.id, args.folder), terminal)
    return 0


def _reasons(read: "ReadPlan", lesson: int | None, ask: Asking, terminal: Terminal) -> None:
    from lessonkit.commands.plan_words import show_reasons, titles_of
    from lessonkit.planning.reasons import reasons

    lessons = len(read.schedule.lessons)
    if lesson is not None and not 1 <= lesson <= lessons:
        raise CannotRunError(f"--lesson {lesson}: the plan has {_how_many(lessons)}.")
    found = reasons(read.case, read.schedule)
    wanted = None if lesson is None else lesson - 1
    show_reasons(found, titles_of(read.case.library), terminal, ask, wanted)


def _how_many(lessons: int) -> str:
    return "one lesson" if lessons == 1 else f"lessons 1 to {lessons}"


def _activity(read: "ReadPlan", wanted: str, folder: str | None, terminal: Terminal) -> None:
    from lessonkit.planning.reasons import reasons

    case = read.case
    if wanted not in case.library.activities:
        raise no_such("activity", wanted, case.library.activities, folder)
    found = reasons(case, read.schedule)
    for why in found.places:
        if why.activity == wanted:
            terminal.tell(f"Lesson {why.lesson + 1}: {' '.join(why.says)}", "  ")
    for unused in found.unused:
        if unused.activity == wanted:
            terminal.tell(unused.says, "  ")
            _price(read, wanted, terminal)


def _price(read: "ReadPlan", wanted: str, terminal: Terminal) -> None:
    from lessonkit.planning.alternatives import price_of

    names = [choice.id for choice in read.case.problem.choices]
    if wanted not in names:
        return
    terminal.status("Searching for the best plan with it ...")
    price = price_of(read.case, read.schedule, names.index(wanted))
    terminal.status("")
    if price.cost is None:
        terminal.tell(" ".join(price.why) or "The search found no plan with it.", "  ")
        return
    where = " and ".join(f"lesson {lesson + 1}" for lesson in price.lessons)
    if price.cost <= 0:
        says = f"A plan with it in {where} costs no more than this one."
    elif price.least >= price.cost:
        says = f"The best plan with it has it in {where} and costs {price.cost} more than this one."
    else:
        says = f"A plan with it in {where} costs {price.cost} more than this one; none with it less than {price.least}."
    terminal.tell(says, "  ")


def _swap(read: "ReadPlan", place: list[int], terminal: Terminal) -> None:
    from lessonkit.planning.alternatives import swaps

    lesson, position = place[0] - 1, place[1] - 1
    lessons = read.schedule.lessons
    if not 0 <= lesson < len(lessons) or not 0 <= position < len(lessons[lesson]):
        raise CannotRunError(f"--swap {place[0]} {place[1]}: the plan has no such place.")
    if read.case.problem.lessons[lesson].taught is not None:
        raise CannotRunError(f"lesson {place[0]} has been taught and stays as it was.")
    terminal.status("Trying what else could be there ...")
    found = swaps(read.case, read.schedule, lesson, position)
    more = swaps(read.case, read.schedule, lesson, position, whole_lesson=True) if len(found) < _FEW else ()
    terminal.status("")
    title = read.case.activity(lessons[lesson][position].activity)
    known = {swap.activity for swap in found}
    if not found:
        terminal.tell(f"Nothing else can take the place of {title} while all other activities stay.")
    else:
        terminal.tell(f"In place of {title} in lesson {place[0]}, the cheapest first:")
        _list(read, found, terminal)
    if more:
        terminal.tell(f"If the rest of lesson {place[0]} may change too:")
        _list(read, [swap for swap in more if swap.activity not in known], terminal)


def _list(read: "ReadPlan", found: "Sequence[Swap]", terminal: Terminal) -> None:
    for swap in found[:_SHOWN]:
        cost = f"{swap.cost} more" if swap.cost > 0 else f"{-swap.cost} less" if swap.cost else "the same"
        wishes = ", ".join(f"{wish} {change:+}" for wish, change in swap.wishes)
        terminal.tell(f"{read.case.activity(swap.activity)}: costs {cost}" + (f" ({wishes})." if wishes else "."), "  ")
    if len(found) > _SHOWN:
        terminal.line(f"  and {len(found) - _SHOWN} more that cost more.")


def _others(read: "ReadPlan", plan: "Plan", library: "Library", take: int | None, terminal: Terminal) -> None:
    from lessonkit.planning.alternatives import others
    from lessonkit.planning.audit import audit

    terminal.status("Searching for different plans ...")
    found = others(read.case, read.schedule, 2)
    terminal.status("")
    cost = audit(read.schedule, read.case.problem).cost
    if not found:
        terminal.line("The library holds no other plan that meets every requirement and is really different.")
    for number, other in enumerate(found, 2):
        terminal.tell(f"Plan {number} {_costs(other, cost)} {_differs(other)}")
        for lesson, placed in enumerate(other.schedule.lessons):
            titles = "; ".join(read.case.activity(item.activity) for item in placed)
            terminal.tell(f"{lesson + 1}  {titles}", "  ")
    if len(found) == 1:
        terminal.tell("No third plan that is really different was found.")
    if take is not None and take - 2 < len(found):
        _take(read, plan, found[take - 2], library, terminal)


def _costs(other: "Other", cost: int) -> str:
    """Say what a different plan costs beside the one at hand, and how sure it is that none as different costs less."""
    more = other.cost - cost
    share = f"{abs(more) / max(1, cost):.0%}"
    says = f"costs {abs(more)} {'more' if more > 0 else 'less'} ({share})" if more else "costs the same"
    if other.least >= other.cost:
        return f"{says}; proven: none so different costs less."
    rest = (other.cost - other.least) / max(1, other.cost)
    return f"{says}; one so different could be {at_most_better(rest)}."


def _differs(other: "Other") -> str:
    """Say how much of what a different plan teaches is new."""
    new = [f"{count} with what is not in plan {number}" for number, count in enumerate(other.new, 1)]
    return f"It fills {other.teaching} places in skill, practice and game parts, {' and '.join(new)}."


def _take(read: "ReadPlan", plan: "Plan", other: "Other", library: "Library", terminal: Terminal) -> None:
    from lessonkit import __version__
    from lessonkit.commands.kept import keep_beside
    from lessonkit.planning.alternatives import as_plan
    from lessonkit.planning.write_plan import plan_text
    from lessonkit.source.safe_file import write_whole

    path = Path(plan.path)
    spare = keep_beside(path)
    write_whole(path, plan_text(as_plan(read.case, plan, other, library, __version__), library).encode())
    terminal.tell(f"Wrote {path.as_posix()}. The old plan is kept as {spare.as_posix()}.")
