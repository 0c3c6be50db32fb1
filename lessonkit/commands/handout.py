"""Writing a page to print beside what the terminal shows: ``--word FILE``, ``--look FILE`` and ``--html FILE``."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.model import Document
    from lessonkit.writers.options import SchoolLook

_ENDINGS = {"word": ".docx", "html": ".html"}


def add_handout_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options that ask for a page to print."""
    parser.add_argument("--word", metavar="FILE", help="also write a page to print, as a Word file")
    parser.add_argument("--look", metavar="FILE", help="with --word: take your school's look from this Word file")
    parser.add_argument("--html", metavar="FILE", help="also write a page to print, as a web page")


def write_handouts(args: argparse.Namespace, make: "Callable[[], Document]", terminal: Terminal) -> None:
    """Write the pages that were asked for, as ``make`` makes them.

    They carry no date, so that the same question has the same page.
    A file of that name which this program did not write, or which was changed since, is kept and the new page written
    beside it. Raises CannotRunError where the disk refuses, or where a look is of no use or cannot be used.
    """
    from lessonkit.writers.options import Options
    from lessonkit.writers.table import FORMATS

    options = Options(look=_look(args))
    for form, ending in _ENDINGS.items():
        written = getattr(args, form)
        if written:
            write_page(Path(written), ending, FORMATS[form].write(make(), options), terminal)


def _look(args: argparse.Namespace) -> "SchoolLook | None":
    if args.look is None:
        return None
    if args.word is None:
        raise CannotRunError("--look is the look of a Word page; add --word FILE.")
    from lessonkit.commands.school_look import school_look

    return school_look(args.look, None)


def write_page(path: Path, ending: str, content: bytes, terminal: Terminal) -> None:
    """Write one page whole, and say so; the file's ending is put right. Raises CannotRunError where it cannot be."""
    from lessonkit.commands.exported import Folder

    path = path if path.suffix.lower() == ending else path.with_name(path.name + ending)
    folder = Folder(path.parent)
    try:
        folder.put(path.name, content)
    except OSError as fault:
        raise CannotRunError(f"{path.as_posix()} could not be written: {fault.strerror or fault}.") from None
    if folder.failed:
        raise CannotRunError(folder.report()[0])
    for line in folder.report():
        terminal.line(line)
