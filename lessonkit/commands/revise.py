"""``revise``: bring what was changed on a page in Word back into the records."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from collections.abc import Set

    from lessonkit.commands.edits import Outcome
    from lessonkit.loading.folder import Loaded
    from lessonkit.writers.word.line import Line
    from lessonkit.writers.word.record_of_export import Exported

NAME = "revise"
HELP = "Bring changes made on an exported page in Word back into the records."
EXAMPLES = (
    ("lessonkit revise binder/my-plan/lesson-03.docx", "show what was changed, and what becomes of it"),
    ("lessonkit revise binder/my-plan/lesson-03.docx my-school --write", "and write it into the records"),
    ("lessonkit revise exports/my-plan/family-letter.docx", "a letter, a binder, station cards, a substitute sheet"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("file", help="a Word file that lessonkit exported and you changed")
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument(
        "--exported",
        metavar="FILE",
        help="the same page as it was exported, where a program that keeps little has taken the mark out of yours",
    )
    parser.add_argument("--write", action="store_true", help="write the changes into the records")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the changes of the records that a page asks for, and write them if asked.

    Returns 0 if nothing was changed on the page or all that can be is written, 1 if something waits to be written.
    """
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.edits import apply_edits
    from lessonkit.commands.exported import is_open
    from lessonkit.commands.revising import NotRevisableError, revise
    from lessonkit.writers.word.changes import changes, sentences

    file = _there(args.file)
    exported, now = _open(file, None if args.exported is None else _there(args.exported))
    if is_open(Path(file)):
        terminal.tell(f"{file} seems to be open in another program; what is not saved there yet is not seen.")
    found = changes(exported.lines, now)
    if not found:
        terminal.tell(f"Nothing was changed in {file} since it was exported.")
        return 0
    loaded = open_curriculum(args.folder, terminal)
    try:
        revision = revise(exported, now, loaded.library)
    except NotRevisableError as why:
        for line in sentences(found):
            terminal.line(line)
        raise CannotRunError(f"{file} {why}.") from None
    outcome = apply_edits(revision.edits)
    _show(outcome, [*revision.left, *outcome.left], revision.looks, terminal)
    if revision.already:
        what = "1 change stands" if revision.already == 1 else f"{revision.already} changes stand"
        terminal.tell(f"{what} in the records already.")
    return _finish(outcome, args.write, args.folder, loaded, terminal)


def _there(given: str) -> str:
    """Return a path as this system has it; one that was typed as on Windows is understood everywhere."""
    return given.replace("\\", "/") if not Path(given).exists() else given


def _open(file: str, as_exported: str | None) -> "tuple[Exported, tuple[Line, ...]]":
    """Return what a file was exported with and what it says now. Raises CannotRunError for any other file."""
    from lessonkit.writers.word.content import read_content
    from lessonkit.writers.word.opening import UnsafeFileError
    from lessonkit.writers.word.record_of_export import exported_content

    parts = _parts(file)
    source = file if as_exported is None else as_exported
    try:
        exported = exported_content(parts if as_exported is None else _parts(as_exported))
        now = read_content(parts)
    except UnsafeFileError as fault:
        raise CannotRunError(f"{file} {fault}.") from None
    if exported is None:
        advice = "" if as_exported else "; name the same page as it was exported, if you have it, with --exported"
        raise CannotRunError(f"{source} does not bear the mark of an export, so nothing can be compared{advice}.")
    return exported, now


def _parts(file: str) -> dict[str, bytes]:
    from lessonkit.writers.word.opening import UnsafeFileError, unpack

    if not file.lower().endswith(".docx"):
        raise CannotRunError(
            f"{file} is not a Word file (.docx); name a page that was exported and then changed in Word."
        )
    try:
        return unpack(Path(file).read_bytes())
    except UnsafeFileError as fault:
        raise CannotRunError(f"{file} {fault}.") from None
    except OSError as fault:
        raise CannotRunError(f"{file} could not be read: {fault.strerror or fault}.") from None


def _show(outcome: "Outcome", left: list[str], looks: int, terminal: Terminal) -> None:
    for edit in outcome.made:
        terminal.line(str(edit))
    for repair in outcome.files:
        terminal.line()
        terminal.whole(repair.diff())
    if looks:
        what = "1 change" if looks == 1 else f"{looks} changes"
        left = [*left, f"{what} of look, such as bold words or a wider column: records hold words, not their look."]
    if left:
        terminal.line()
        terminal.line("What stays on the page:")
        for line in dict.fromkeys(left):
            terminal.line(f"  {line}")


def _finish(outcome: "Outcome", write: bool, folder: str | None, loaded: "Loaded", terminal: Terminal) -> int:
    from lessonkit.commands.repair import write_repairs

    if not outcome.files:
        return 0
    terminal.line()
    if not write:
        terminal.line("Nothing is written yet; add --write to change the records.")
        return 1
    write_repairs(outcome.files)
    for repair in outcome.files:
        terminal.line(f"Wrote {repair.path}")
    _check({repair.path for repair in outcome.files}, loaded, terminal)
    terminal.tell(f"Check all records now with: {call('check', folder)}")
    return 0


def _check(written: "Set[str]", loaded: "Loaded", terminal: Terminal) -> None:
    """Tell what a check finds in the records that were written; ``loaded`` is the curriculum as it was before."""
    from lessonkit.commands.checking import findings_in
    from lessonkit.commands.lines import line_of
    from lessonkit.reports.text import TextOptions, write_text

    found = findings_in(written, loaded)
    if found:
        terminal.line()
        terminal.line(write_text(found, len(written), line_of, TextOptions(terminal.width, terminal.colour)))
