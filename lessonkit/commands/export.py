"""``export``: write the Word files of every plan."""

import argparse
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call, call_revise
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import day_given
from lessonkit.commands.plans import name_of, wanted_plan
from lessonkit.commands.sheets import SHEETS, sheet_documents
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from lessonkit.commands.exported import Folder
    from lessonkit.document.lesson_facts import PlanFacts
    from lessonkit.document.model import Document
    from lessonkit.document.scene import Scene
    from lessonkit.loading.folder import Loaded
    from lessonkit.records.plan import Plan
    from lessonkit.writers.options import Options, SchoolLook
    from lessonkit.writers.table import CountPages

NAME = "export"
HELP = "Write a plan's lessons and its binder as Word files, web pages or a calendar."
EXAMPLES = (
    ("lessonkit export", "every plan, into exports"),
    ("lessonkit export --plan paddles-grade-3-grade-3-heron", "one plan"),
    ("lessonkit export my-school --to binder", "another folder"),
    ("lessonkit export --as html --as calendar", "web pages, and a calendar file with every lesson"),
    ("lessonkit export --drawings picture", "floor plans as pictures, for programs that show no shapes"),
    ("lessonkit export --look letterhead.docx", "with your school's styles, header and logo"),
    ("lessonkit export --sheets substitute --sheets cards", "substitute sheets and station cards too"),
    ("lessonkit export --sheets coverage --until 2027-01-18", "the outcomes covered so far in the year"),
)

_OF_ALL_PLANS = frozenset(("pull-list", "coverage"))
"""Sheets that also tell of the other plans of the curriculum."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--plan", metavar="ID", help="export only this plan")
    parser.add_argument(
        "--as",
        dest="forms",
        action="append",
        choices=("word", "html", "calendar"),
        help="word (the default), html or calendar; may be given more than once",
    )
    parser.add_argument(
        "--sheets",
        action="append",
        choices=tuple(SHEETS),
        metavar="NAME",
        help=f"write these sheets too: {', '.join(SHEETS)}; may be given more than once",
    )
    parser.add_argument("--until", metavar="DAY", help="count lessons up to this day only in the coverage report")
    parser.add_argument(
        "--look",
        metavar="FILE",
        help="take styles, colors, header and footer from this Word file (default: the look of the school's record)",
    )
    parser.add_argument(
        "--drawings",
        choices=("shapes", "picture"),
        default="shapes",
        help="floor plans in Word: shapes that can be moved (the default), or a picture for programs that show none",
    )
    parser.add_argument(
        "--force", action="store_true", help="replace files that were changed since, and keep each as a backup"
    )
    parser.add_argument("--to", metavar="FOLDER", default="exports", help="where to write (default: exports)")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Write the files; one edited since its export is kept, the new one stands beside it.

    Returns 0, or 1 where records have errors or a file could not be written.
    """
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.refusing import refuse_errors_of_plans
    from lessonkit.document.lesson_facts import work_out

    until = _until(args)  # a wrong day is refused before anything is read
    loaded = open_curriculum(args.folder, terminal)
    of_all = not _OF_ALL_PLANS.isdisjoint(args.sheets or ())
    if _refuse_unread(loaded, None if of_all else args.plan, terminal):
        return 1
    plans = _plans(loaded, args.plan, args.folder)
    if refuse_errors_of_plans(loaded, loaded.library.plans.values() if of_all else plans, args.folder, terminal):
        return 1
    done = [_export(work_out(plan, loaded.library), args, until, terminal) for plan in plans]
    return 0 if all(done) else 1


def _export(facts: "PlanFacts", args: argparse.Namespace, until: "date | None", terminal: Terminal) -> bool:
    """Write the files of a plan and say what was done; tell whether each could be written."""
    from lessonkit.commands.exported import Folder
    from lessonkit.commands.plan_words import show_table, tell_unfinished
    from lessonkit.commands.school_look import school_look

    options = _options(args.drawings, school_look(args.look, facts.school))
    folder = Folder(
        Path(args.to.replace("\\", "/")) / facts.plan.id, force=args.force, revise=partial(call_revise, args.folder)
    )
    try:
        _write(facts, folder, args.forms or ["word"], options, terminal)
        sheets = partial(sheet_documents, facts=facts, look=options.look, until=until)
        missing = _write_sheets(sheets, folder, args, options, terminal)
    except OSError:
        for line in folder.report():
            terminal.line(line)
        raise
    terminal.line(facts.plan.title)
    show_table(facts, terminal)
    tell_unfinished(facts, terminal)
    terminal.line()
    for line in (*folder.report(), *missing):
        terminal.line(line)
    return not folder.failed


def _options(drawings: str, look: "SchoolLook | None") -> "Options":
    """Return the writers' options; pictures are painted when a page needs one, and kept for the next page with it."""
    from functools import lru_cache

    from lessonkit.writers.options import Options
    from lessonkit.writers.png import NoPicturesError, write_png

    @lru_cache(maxsize=256)
    def picture(scene: "Scene", width: float, height: float) -> bytes:
        try:
            return write_png(scene, width, height)
        except NoPicturesError as problem:
            raise CannotRunError(str(problem)) from problem

    if drawings == "picture":
        return Options(drawings="picture", scene_picture=picture, look=look)
    return Options(look=look)


def _refuse_unread(loaded: "Loaded", wanted: str | None, terminal: Terminal) -> bool:
    """Show the errors of a curriculum and return True where a plan that is wanted (None: all) cannot be read."""
    from lessonkit.commands.refusing import refuse_errors

    name = None if wanted is None else name_of(wanted)
    unread = any(file.written in ("plan", None) and name in (None, file.id) for file in loaded.broken)
    return name not in loaded.library.plans and unread and refuse_errors(loaded, terminal, leave_out=("year-map",))


def _plans(loaded: "Loaded", wanted: str | None, folder: str | None) -> "list[Plan]":
    plans = loaded.library.plans
    if wanted is not None:
        return [wanted_plan(loaded, wanted, folder)]
    if not plans:
        raise CannotRunError(f"there is no plan to export yet; make the plans with: {call('sequence', folder)}")
    return [plans[key] for key in sorted(plans)]


def _write(facts: "PlanFacts", folder: "Folder", forms: list[str], options: "Options", terminal: Terminal) -> None:
    counted: dict[CountPages, Callable[[Document], int]] = {}
    for form in dict.fromkeys(forms):
        if form == "calendar":
            from lessonkit.document.agenda import agenda
            from lessonkit.writers.calendar import write

            folder.put("lessons.ics", write(agenda(facts)))
        else:
            _write_documents(facts, folder, form, options, terminal, counted=counted)
    terminal.status("")


def _write_documents(
    facts: "PlanFacts",
    folder: "Folder",
    form: str,
    options: "Options",
    terminal: Terminal,
    *,
    counted: "dict[CountPages, Callable[[Document], int]]",
) -> None:
    """Write the lessons and the binder in a form.

    How pages are counted is kept in ``counted``, so that a lesson is fitted once for all forms that count alike.
    """
    from lessonkit.document.binder import binder_document
    from lessonkit.document.lesson_plan import lesson_document
    from lessonkit.writers.table import FORMATS

    chosen = FORMATS[form]
    pages = counted.setdefault(chosen.pages, partial(chosen.pages, look=options.look)) if chosen.pages else None
    for lesson in facts.lessons:
        number = lesson.lesson.lesson
        terminal.status(f"Writing lesson {number} ...")
        document = lesson_document(facts, number, pages)
        folder.put(f"lesson-{number:02}{chosen.suffix}", chosen.write(document, options))
    terminal.status("Writing the binder ...")
    folder.put(f"binder{chosen.suffix}", chosen.write(binder_document(facts, pages), options))


def _until(args: argparse.Namespace) -> "date | None":
    """Return the last day that the coverage report counts, if one was named."""
    if args.until is None:
        return None
    if "coverage" not in (args.sheets or ()):
        raise CannotRunError("--until is for the coverage report; write as well: --sheets coverage")
    return day_given(args.until)


def _write_sheets(
    make: "Callable[[str], Iterator[tuple[str, Document]]]",
    folder: "Folder",
    args: argparse.Namespace,
    options: "Options",
    terminal: Terminal,
) -> list[str]:
    """Write the further sheets that were asked for, as ``make`` makes them; return a sentence for each missing kind."""
    from lessonkit.commands.sheets import missing_says
    from lessonkit.writers.table import FORMATS

    forms = [form for form in dict.fromkeys(args.forms or ["word"]) if form in FORMATS]
    missing = []
    for name in dict.fromkeys(args.sheets or ()):
        terminal.status(f"Writing {name} ...")
        documents = list(make(name))
        missing += [] if documents else [missing_says(name)]
        for file_name, document in documents:
            for form in forms or ["word"]:
                folder.put(f"{file_name}{FORMATS[form].suffix}", FORMATS[form].write(document, options))
    terminal.status("")
    return missing
