"""Writing a page to print beside what the terminal shows: ``--word FILE`` and ``--html FILE``."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.model import Document

_ENDINGS = {"word": ".docx", "html": ".html"}


def add_handout_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options that ask for a page to print."""
    parser.add_argument("--word", metavar="FILE", help="also write a page to print, as a Word file")
    parser.add_argument("--html", metavar="FILE", help="also write a page to print, as a web page")


def write_handouts(args: argparse.Namespace, make: "Callable[[], Document]", terminal: Terminal) -> None:
    """Write the pages that were asked for, as ``make`` makes them.

    They carry no date, so that the same question has the same page.
    A file of that name which this program did not write, or which was changed since, is kept and the new page written
    beside it. Raises CannotRunError where the disk refuses.
    """
    for form in _ENDINGS:
        written = getattr(args, form)
        if written:
            _write(Path(written), form, make, terminal)


def _write(path: Path, form: str, make: "Callable[[], Document]", terminal: Terminal) -> None:
    from lessonkit.writers.options import Options
    from lessonkit.writers.table import FORMATS

    write_page(path, _ENDINGS[form], FORMATS[form].write(make(), Options()), terminal)


def write_page(path: Path, ending: str, content: bytes, terminal: Terminal) -> None:
    """Write one page whole, and say so; the file's ending is put right. Raises CannotRunError where it cannot be."""
    from lessonkit.commands.exported import Folder

    path = path if path.suffix.lower() == ending else path.with_name(path.name + ending)
    folder = Folder(path.parent)
    try:
        folder.put(path.name, content)
    except OSError as fault:
        raise CannotRunError(f"{path.as_posix()} could not be written: {fault.strerror or fault}.") from None
    for line in folder.report():
        terminal.line(line)
