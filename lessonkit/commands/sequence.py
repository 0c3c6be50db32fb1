"""``sequence``: plan a curriculum's units, lesson by lesson."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded
    from lessonkit.planning.sequence import Planned
    from lessonkit.records.plan import Plan
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
    parser.add_argument(
        "--apart", action="store_true", help="plan each class of a unit for itself, not like the unit's first class"
    )
    parser.add_argument("--why", action="store_true", help="say why each activity is where it is")
    parser.add_argument(
        "--over", action="store_true", help="replace a plan edited by hand (it is kept beside the new one)"
    )


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Plan and write. Returns 0 when every unit has a plan, 1 when something stands in the way."""
    from lessonkit.commands.checking import refuse_errors
    from lessonkit.commands.curriculum import open_curriculum

    loaded = open_curriculum(args.folder, terminal)
    if refuse_errors(loaded, terminal, leave_out=("plan", "year-map")):
        return 1
    tasks = [(unit, school_class) for unit in _units(loaded, args.unit) for school_class in _classes(unit, args)]
    first = {} if args.apart else _planned_before(loaded, tasks)
    worst = 0
    for number, (unit, school_class) in enumerate(tasks, 1):
        code, planned = _plan_one(loaded, (unit, school_class), first.get(unit.id), args, terminal)
        worst = max(worst, code)
        if planned is not None and not args.apart:
            first.setdefault(unit.id, planned.plan)
        if planned is not None and planned.stopped and number < len(tasks):
            terminal.error(f"Stopped: {len(tasks) - number} more to plan were left as they are.")
            return 1
    return worst


def _classes(unit: "Unit", args: argparse.Namespace) -> list[str]:
    classes = [each for each in unit.classes if args.school_class in (None, each)]
    if not classes:
        raise CannotRunError(f"the unit {unit.id!r} is not for the class {args.school_class!r}.")
    return classes


def _planned_before(loaded: "Loaded", tasks: "list[tuple[Unit, str]]") -> "dict[str, Plan]":
    """Return the plan of each unit's first class, where that class is not planned now."""
    now = {(unit.id, school_class) for unit, school_class in tasks}
    leading = {(unit.id, unit.classes[0]) for unit, _ in tasks} - now
    plans = loaded.library.plans.values()
    return {plan.unit: plan for plan in plans if (plan.unit, plan.school_class) in leading}


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


def _plan_one(
    loaded: "Loaded",
    task: "tuple[Unit, str]",
    first: "Plan | None",
    args: argparse.Namespace,
    terminal: Terminal,
) -> "tuple[int, Planned | None]":
    """Plan a unit for a class, like the first class's plan where there is one; return the exit code and the plan."""
    from lessonkit import __version__
    from lessonkit.commands.plan_words import show_impossible, show_planned, watching
    from lessonkit.planning.replan import plan_like
    from lessonkit.planning.sequence import Impossible, Options, Stopped, sequence

    library, (unit, school_class) = loaded.library, task
    path, refusal = _target(loaded, unit, school_class, args.over)
    if refusal:
        terminal.error(refusal)
        return 1, None
    terminal.status(f"{unit.title}: searching ...")
    options = Options(args.seconds, watching(terminal), __version__)
    like = None if first is None else plan_like(library, unit.id, school_class, first, options)
    outcome = sequence(library, unit.id, school_class, options) if like is None else like.outcome
    terminal.status("")
    if isinstance(outcome, Impossible):
        show_impossible(outcome, unit, library, terminal)
        return 1, None
    if isinstance(outcome, Stopped):
        terminal.error(outcome.says)
        return 1, None
    kept = _write(loaded, outcome, path)
    show_planned(outcome, library, terminal, args.why, like)
    terminal.line(f"Wrote {path.as_posix()}." + (f" {kept}" if kept else ""))
    return 0, outcome


def _target(loaded: "Loaded", unit: "Unit", school_class: str, over: bool) -> tuple[Path, str]:
    """Return where a plan goes, and why it must not be written there; edited and begun plans stay unless ``over``."""
    from lessonkit.planning.digest import is_edited
    from lessonkit.planning.write_plan import plan_id

    own = plan_id(unit.id, school_class)
    old = loaded.library.plans.get(own)
    path = Path(old.path) if old else _curriculum_of(unit) / "plans" / f"{own}.yaml"
    begun = old is not None and (old.happened is not None or any(lesson.taught for lesson in old.lessons))
    if over or not path.exists() or not (old is None or begun or is_edited(old)):
        return path, ""
    why = "has lessons that were taught, or was planned again," if begun else "was edited by hand"
    return path, (
        f"{path.as_posix()} {why} and stays as it is. Put it right with: lessonkit replan {own}. "
        "Add --over to plan from nothing; the old file is then kept beside the new one."
    )


def _write(loaded: "Loaded", planned: "Planned", path: Path) -> str:
    """Write the plan's file; an old one with work in it is kept beside it, which the sentence returned says."""
    from lessonkit.commands.kept import keep_beside
    from lessonkit.planning.digest import is_edited
    from lessonkit.planning.write_plan import plan_text
    from lessonkit.source.safe_file import write_whole

    old = loaded.library.plans.get(planned.plan.id)
    kept = ""
    if path.exists() and (old is None or old.happened is not None or is_edited(old) or old.lessons[0].taught):
        kept = f"The old plan is kept as {keep_beside(path).as_posix()}."
    write_whole(path, plan_text(planned.plan, loaded.library).encode())
    return kept


def _curriculum_of(unit: "Unit") -> Path:
    """Return the curriculum's folder: the one that holds the folder of the unit's file."""
    folder = Path(unit.path).parent
    return folder.parent if folder.name == "units" else folder
