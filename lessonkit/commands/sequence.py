"""``sequence``: plan a curriculum's units, lesson by lesson."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import seconds
from lessonkit.commands.calls import call
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import no_such, quoted
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.commands.plan_many import Done, Task
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
    ("lessonkit sequence --grade 4", "every unit of a grade, several at once"),
    ("lessonkit sequence --seconds 20", "stop searching after 20 seconds"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--unit", metavar="ID", help="plan only this unit")
    parser.add_argument("--grade", choices=("K", "1", "2", "3", "4", "5"), help="plan all units of this grade")
    parser.add_argument("--class", dest="school_class", metavar="ID", help="plan only for this class")
    parser.add_argument(
        "--seconds", type=seconds, metavar="N", help="search for N seconds at most, instead of the usual effort"
    )
    parser.add_argument(
        "--apart", action="store_true", help="plan each class of a unit for itself, not like the unit's first class"
    )
    parser.add_argument("--why", action="store_true", help="say why each activity is where it is")
    parser.add_argument(
        "--over", action="store_true", help="replace a plan edited by hand (it is kept beside the new one)"
    )


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Plan and write. Returns 0 when every unit has a plan, 1 when something stands in the way."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.refusing import refuse_errors

    loaded = open_curriculum(args.folder, terminal)
    asked, named = _asked_for(loaded, args), args.unit is not None
    if refuse_errors(loaded, terminal, leave_out=("plan", "year-map"), units=asked, named=named):
        return 1
    worst, tasks = 0, []
    for unit in _units(loaded, args):
        allowed = [each for each in _classes(loaded, unit, args) if _may_write(loaded, unit, each, args, terminal)]
        worst = max(worst, int(len(allowed) < len(_classes(loaded, unit, args))))
        if allowed:
            tasks.append(_task(loaded, unit, allowed, args.apart))
    return max(worst, _plan(loaded, tasks, args, terminal))


def _plan(loaded: "Loaded", tasks: "list[Task]", args: argparse.Namespace, terminal: Terminal) -> int:
    from lessonkit import __version__
    from lessonkit.commands.plan_many import plan_task, plan_tasks
    from lessonkit.commands.plan_words import watching
    from lessonkit.planning.sequence import Options, Planned

    plans = sum(len(task.classes) for task in tasks)
    if len(tasks) > 1:
        terminal.status(f"{len(tasks)} units: searching ...")
        everything = plan_tasks(loaded.library, tasks, Options(args.seconds, None, __version__))
    else:
        options = Options(args.seconds, watching(terminal), __version__)
        everything = (done for task in tasks for done in plan_task(loaded.library, task, options))
    worst, last = 0, None
    for number, done in enumerate(everything, 1):
        terminal.status("")
        worst = max(worst, _show(loaded, done, last, args, terminal))
        last = done
        if isinstance(done.outcome, Planned) and done.outcome.stopped and number < plans:
            terminal.tell_error(f"Stopped: {plans - number} more to plan were left as they are.")
            return 1
        if number < plans:
            terminal.status(f"{number} of {plans} planned; searching ...")
    return worst


def _classes(loaded: "Loaded", unit: "Unit", args: argparse.Namespace) -> list[str]:
    school = loaded.library.schools[unit.school]
    classes = [
        each
        for each in unit.classes
        if args.school_class in (None, each) and args.grade in (None, school.school_class(each).grade)
    ]
    if not classes:
        raise CannotRunError(f"the unit {quoted(unit.id)} is for {', '.join(unit.classes)}, not for {_whom(args)}.")
    return classes


def _task(loaded: "Loaded", unit: "Unit", classes: list[str], apart: bool) -> "Task":
    """Return what is to be planned for a unit: like the plan of its first class, where that one is not planned now."""
    from lessonkit.commands.plan_many import Task

    first = None
    if not apart and unit.classes[0] not in classes:
        plans = loaded.library.plans.values()
        leading = [plan for plan in plans if (plan.unit, plan.school_class) == (unit.id, unit.classes[0])]
        first = leading[0] if leading else None
    return Task(unit.id, tuple(classes), first, apart)


def _asked_for(loaded: "Loaded", args: argparse.Namespace) -> set[str]:
    """Return the ids of the units that are wanted, as far as can be told of records that may have errors."""
    units, schools = loaded.library.units, loaded.library.schools.values()
    if args.unit is not None:
        return {args.unit} & set(units)
    classes = {
        each.id
        for school in schools
        for each in school.classes
        if args.grade in (None, each.grade) and args.school_class in (None, each.id)
    }
    return {key for key, unit in units.items() if classes & set(unit.classes)}


def _units(loaded: "Loaded", args: argparse.Namespace) -> "list[Unit]":
    """Return the unit that is wanted, or all units of a grade, of a class, or of the curriculum."""
    wanted, grade = args.unit, args.grade
    units = loaded.library.units
    if wanted is not None and wanted not in units:
        raise no_such("unit", wanted, units, args.folder)
    if not units:
        raise CannotRunError(
            f"this curriculum has no unit to plan; start one with: {call('new unit my-unit', args.folder)}"
        )
    schools = loaded.library.schools
    classes = [each.id for school in schools.values() for each in school.classes]
    if args.school_class not in (None, *classes):
        raise no_such("class", args.school_class, classes, args.folder)
    found = [
        unit
        for key, unit in sorted(units.items())
        if wanted in (None, key)
        and (wanted is not None or args.school_class in (None, *unit.classes))
        and (grade is None or any(schools[unit.school].school_class(each).grade == grade for each in unit.classes))
    ]
    if not found:
        raise CannotRunError(f"there is no unit for {_whom(args)} to plan.")
    return found


def _whom(args: argparse.Namespace) -> str:
    return f"grade {args.grade}" if args.school_class is None else f"the class {quoted(args.school_class)}"


def _show(loaded: "Loaded", done: "Done", last: "Done | None", args: argparse.Namespace, terminal: Terminal) -> int:
    """Write a plan and show it, or show why there is none; ``last`` was shown before. Return the exit code."""
    from lessonkit.commands.plan_words import asking, show_impossible, show_planned
    from lessonkit.planning.sequence import Impossible, Stopped

    library, unit, outcome = loaded.library, loaded.library.units[done.unit], done.outcome
    if isinstance(outcome, Impossible):
        title = library.schools[unit.school].school_class(done.school_class).title
        if last is not None and (last.unit, last.outcome) == (done.unit, outcome):
            terminal.tell(f"Nor can it be planned for {title}, for the same reasons.")
            return 1
        whom = f" for {title}" if unit.classes[1:] else ""
        show_impossible(outcome, f"{unit.title} cannot be planned{whom} as it is asked for:", library, terminal)
        return 1
    if isinstance(outcome, Stopped):
        terminal.tell_error(f"{unit.title}: {outcome.says[0].lower()}{outcome.says[1:]}")
        return 1
    path, _ = _target(loaded, unit, done.school_class, args.over, args.folder)
    kept = _write(loaded, outcome, path)
    show_planned(outcome, library, terminal, asking(outcome.plan.id, args.folder) if args.why else None, done.like)
    terminal.tell(f"Wrote {path.as_posix()}." + (f" {kept}" if kept else ""))
    return 0


def _may_write(loaded: "Loaded", unit: "Unit", school_class: str, args: argparse.Namespace, terminal: Terminal) -> bool:
    _, refusal = _target(loaded, unit, school_class, args.over, args.folder)
    terminal.tell_error(refusal)
    return not refusal


def _target(loaded: "Loaded", unit: "Unit", school_class: str, over: bool, folder: str | None) -> tuple[Path, str]:
    """Return where a plan goes, and why it must not be written there; edited and begun plans stay unless ``over``."""
    from lessonkit.planning.write_plan import plan_id

    own = plan_id(unit.id, school_class)
    old = loaded.library.plans.get(own)
    path = Path(old.path) if old else _curriculum_of(unit) / "plans" / f"{own}.yaml"
    begun = old is not None and (old.happened is not None or any(lesson.taught for lesson in old.lessons))
    if over or not path.exists() or not (old is None or begun or _is_worked_on(old, unit)):
        return path, ""
    why = "has lessons that were taught, or was planned again," if begun else "was edited by hand"
    return path, (
        f"{path.as_posix()} {why} and stays as it is. Add --over to plan from nothing; the old file is then kept "
        f"beside the new one. To put it right instead: {call(f'replan {own}', folder)}"
    )


def _write(loaded: "Loaded", planned: "Planned", path: Path) -> str:
    """Write the plan's file; an old one with work in it is kept beside it, which the sentence returned says."""
    from lessonkit.commands.kept import keep_beside
    from lessonkit.planning.digest import is_another_choice
    from lessonkit.planning.write_plan import plan_text
    from lessonkit.source.safe_file import write_whole

    old, unit = loaded.library.plans.get(planned.plan.id), loaded.library.units[planned.plan.unit]
    kept = ""
    begun = old is not None and (old.happened is not None or old.lessons[0].taught)
    if path.exists() and (old is None or begun or _is_worked_on(old, unit) or is_another_choice(old, planned.plan)):
        kept = f"The old plan is kept as {keep_beside(path).as_posix()}."
    write_whole(path, plan_text(planned.plan, loaded.library).encode())
    return kept


def _is_worked_on(plan: "Plan", unit: "Unit") -> bool:
    """Tell whether a teacher has changed a plan, also where it was put right around the changes since."""
    from lessonkit.planning.digest import is_edited
    from lessonkit.planning.edits import holds_edits

    return is_edited(plan) or holds_edits(plan, unit)


def _curriculum_of(unit: "Unit") -> Path:
    """Return the curriculum's folder: the one that holds the folder of the unit's file."""
    folder = Path(unit.path).parent
    return folder.parent if folder.name == "units" else folder
