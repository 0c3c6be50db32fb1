"""``new``: a commented skeleton of any record, or a copy of the whole starter curriculum."""

import argparse
import re
import shutil
from pathlib import Path
from typing import Final

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import quoted
from lessonkit.commands.terminal import Terminal
from lessonkit.source.safe_file import write_whole
from lessonkit.source.shipped import shipped_folder

NAME = "new"
HELP = "Start a record from a commented skeleton, or copy the starter curriculum."
EXAMPLES = (
    ("lessonkit new curriculum my-school", "copy the starter curriculum to my-school"),
    ("lessonkit new activity paddle-parade", "start curriculum/activities/paddle-parade.yaml"),
    ("lessonkit new unit jumping --in my-school", "start a unit in another curriculum"),
)
_FOLDERS: Final = {
    "activity": "activities",
    "equipment": "",
    "outcomes": "outcomes",
    "plan": "plans",
    "school": "",
    "settings": "",
    "skill": "skills",
    "unit": "units",
    "year": "",
    "year-map": "maps",
}
_SETTINGS_FILE: Final = "lessonkit.yaml"
_ID: Final = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_EDITOR_SETTINGS: Final = """{
  "yaml.schemas": {
    "./schema/editor/activity.schema.json": "activities/**/*.yaml",
    "./schema/editor/equipment.schema.json": "equipment.yaml",
    "./schema/editor/outcomes.schema.json": "outcomes/*.yaml",
    "./schema/editor/plan.schema.json": "plans/*.yaml",
    "./schema/editor/school.schema.json": "school.yaml",
    "./schema/editor/settings.schema.json": "lessonkit.yaml",
    "./schema/editor/skill.schema.json": "skills/*.yaml",
    "./schema/editor/unit.schema.json": "units/*.yaml",
    "./schema/editor/year.schema.json": "year.yaml",
    "./schema/editor/year-map.schema.json": "maps/*.yaml"
  }
}
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument(
        "kind", choices=("curriculum", *_FOLDERS), metavar="KIND", help=f"curriculum, {', '.join(_FOLDERS)}"
    )
    parser.add_argument("name", metavar="NAME", help="the new record's id, or the new curriculum's folder")
    parser.add_argument("--in", dest="folder", metavar="FOLDER", help="the curriculum to put it in")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Write the new files; nothing that exists is touched. Returns 0."""
    if args.kind == "curriculum":
        return _copy_curriculum(Path(args.name), terminal)
    if not _ID.fullmatch(args.name):
        from lessonkit.loading.suggest import slug

        tidy = slug(args.name) or "my-record"
        raise CannotRunError(f"an id has small letters, digits and hyphens only; try {quoted(tidy)}.")
    return _write_skeleton(args.kind, args.name, args.folder, terminal)


def _write_skeleton(kind: str, name: str, folder: str | None, terminal: Terminal) -> int:
    from lessonkit.commands.calls import call
    from lessonkit.commands.curriculum import folder_argument

    root = folder_argument(folder)
    target = root / _FOLDERS[kind] / (_SETTINGS_FILE if kind == "settings" else f"{name}.yaml")
    if target.exists():
        way_out = "a curriculum has one" if kind == "settings" else "choose another id"
        raise CannotRunError(f"{target.as_posix()} is there already; {way_out}.")
    for other in sorted((root / _FOLDERS[kind]).rglob(target.name)) if _FOLDERS[kind] else ():
        raise CannotRunError(f"the id {quoted(name)} is taken already, in {other.as_posix()}; choose another id.")
    text = (shipped_folder("schema") / "skeletons" / f"{kind}.yaml").read_text("utf-8")
    title = name.replace("-", " ").capitalize()
    text = re.sub(r"(?m)^id: [a-z-]+", f"id: {name}", text, count=1)
    text = re.sub(r"(?m)^title: .*", f"title: {title}", text, count=1)
    write_whole(target, text.encode())
    terminal.tell(f"Wrote {target.as_posix()}.")
    terminal.tell(f"Open it in a text editor, fill it in, then run: {call('check', folder)}")
    return 0


def _copy_curriculum(target: Path, terminal: Terminal) -> int:
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise CannotRunError(f"{target.as_posix()} is not empty; choose a new folder.")
    existed = target.exists()
    try:
        _copy(target)
    except OSError as problem:
        shutil.rmtree(target, ignore_errors=True)
        if existed:
            target.mkdir(exist_ok=True)
        raise CannotRunError(
            f"{target.as_posix()} could not be written ({_reason(problem)}); nothing of it was kept."
        ) from problem
    from lessonkit.commands.calls import call

    count = sum(1 for path in target.rglob("*.yaml"))
    terminal.tell(f"Copied the starter curriculum to {target.as_posix()}: {count} records.")
    terminal.line("Change school.yaml to your own school, then run:")
    terminal.line(f"  {call('check', target.as_posix())}")
    return 0


def _copy(target: Path) -> None:
    passed_over = shutil.ignore_patterns("plans", "maps", ".*")
    shutil.copytree(shipped_folder("curriculum"), target, dirs_exist_ok=True, ignore=passed_over)
    shutil.copytree(shipped_folder("schema"), target / "schema", ignore=shutil.ignore_patterns("skeletons"))
    write_whole(target / ".vscode" / "settings.json", _EDITOR_SETTINGS.encode())


def _reason(problem: OSError) -> str:
    """Return the system's reason; where many files could not be copied, that of the first."""
    if isinstance(problem, shutil.Error):
        return str(problem.args[0][0][2]).partition("] ")[2].partition(":")[0] or "the disk refuses"
    return problem.strerror or str(problem)
