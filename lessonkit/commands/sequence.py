"""``sequence``: plan a curriculum's units, lesson by lesson."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded
    from lessonkit.planning.sequence import Outcome, Planned
    from lessonkit.records.unit import Unit

NAME = "sequence"
HELP = "Plan the units: which activity in which lesson, for how long, on which day."
EXAMPLES = (
    ("lessonkit sequence", "every unit of the curriculum"),
    ("lessonkit sequence --unit paddles-grade-3", "one unit"),
    ("lessonkit sequence --unit paddles-grade-3 --why", "with the reasons for every choice"),
    ("lessonkit sequence --seconds 20", "stop searching after 20 seconds"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--unit", metavar="ID", help="plan only this unit")
    parser.add_argument("--class", dest="school_class", metavar="ID", help="plan only for this class")
    parser.add_argument("--seconds", type=float, metavar="N", help="stop searching after N seconds")
    parser.add_argument("--why", action="store_true", help="say why each activity is where it is")
    parser.add_argument(
        "--over", action="store_true", help="replace a plan edited by hand (it is kept beside the new one)"
    )


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Plan and write. Returns 0 when every unit has a plan, 1 when something stands in the way."""
    from lessonkit.commands.checking import refuse_errors
    from lessonkit.commands.curriculum import open_curriculum

    loaded = open_curriculum(args.folder, terminal)
    if refuse_errors(loaded, terminal, leave_out=("plan",)):
        return 1
    worst = 0
    for unit in _units(loaded, args.unit):
        classes = [c for c in unit.classes if args.school_class in (None, c)]
        if not classes:
            raise CannotRunError(f"the unit {unit.id!r} is not for the class {args.school_class!r}.")
        for school_class in classes:
            worst = max(worst, _plan_one(loaded, unit, school_class, args, terminal))
    return worst


def _units(loaded: "Loaded", wanted: str | None) -> "list[Unit]":
    from lessonkit.source.closest import closest

    units = loaded.library.units
    if wanted is None:
        if not units:
            raise CannotRunError("this curriculum has no unit to plan; start one with: lessonkit new unit my-unit")
        return [units[key] for key in sorted(units)]
    if wanted not in units:
        meant = closest(wanted, units)
        raise CannotRunError(f"there is no unit {wanted!r}." + (f" Did you mean {meant!r}?" if meant else ""))
    return [units[wanted]]


def _plan_one(loaded: "Loaded", unit: "Unit", school_class: str, args: argparse.Namespace, terminal: Terminal) -> int:
    from lessonkit import __version__
    from lessonkit.commands.plan_words import show_impossible, show_planned, watching
    from lessonkit.planning.sequence import Impossible, Options, Planned, sequence

    terminal.status(f"{unit.title}: searching ...")
    outcome: Outcome = sequence(
        loaded.library, unit.id, school_class, Options(args.seconds, watching(terminal), __version__)
    )
    terminal.status("")
    if isinstance(outcome, Planned):
        path, kept = _write(loaded, outcome, args.over, unit)
        if path is None:
            terminal.error(kept)
            return 1
        show_planned(outcome, loaded.library, terminal, args.why)
        terminal.line(f"Wrote {path}." + (f" {kept}" if kept else ""))
        return 0
    if isinstance(outcome, Impossible):
        show_impossible(outcome, unit, loaded.library, terminal)
    else:
        terminal.error(outcome.says)
    return 1


def _write(loaded: "Loaded", planned: "Planned", over: bool, unit: "Unit") -> tuple[str | None, str]:
    """Write the plan's file. An edited plan is kept unless ``over``; then the old file stays beside the new one."""
    from lessonkit.commands.kept import keep_beside
    from lessonkit.planning.digest import is_edited
    from lessonkit.planning.write_plan import plan_text
    from lessonkit.source.safe_file import write_whole

    plan = planned.plan
    old = loaded.library.plans.get(plan.id)
    path = Path(old.path) if old else _curriculum_of(unit) / "plans" / f"{plan.id}.yaml"
    kept = ""
    begun = old is not None and (old.happened is not None or any(lesson.taught for lesson in old.lessons))
    if path.exists() and (old is None or begun or is_edited(old)):
        if not over:
            why = "has lessons that were taught, or was planned again," if begun else "was edited by hand"
            return None, (
                f"{path.as_posix()} {why} and stays as it is. Put it right with: lessonkit replan {plan.id}. "
                "Add --over to plan from nothing; the old file is then kept beside the new one."
            )
        kept = f"The old plan is kept as {keep_beside(path).as_posix()}."
    write_whole(path, plan_text(plan, loaded.library).encode())
    return path.as_posix(), kept


def _curriculum_of(unit: "Unit") -> Path:
    """Return the curriculum's folder: the one that holds the folder of the unit's file."""
    folder = Path(unit.path).parent
    return folder.parent if folder.name == "units" else folder
