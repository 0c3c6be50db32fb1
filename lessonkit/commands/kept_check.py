"""What a check keeps beside a curriculum for next time: where it lies, whose it is, and how it is read and written.

Loads nothing heavy, since the quickest check is one that only looks here. The folder ``.lessonkit-cache`` may be
deleted at any time. It has two files for each name by which the curriculum was called: one with the dates and sizes of
the files and with whole answers, and one with what the check knew of every record, which is read after a change only.
"""

import marshal
import os
import sys
from zlib import crc32

from lessonkit import __version__
from lessonkit.source.walk import Stamp, stamp_of, walk

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import Any

FOLDER = ".lessonkit-cache"
LEAST = 100
"""Files of the smallest curriculum for which anything is kept; a smaller one is checked anew in a moment."""
YOUNG = 2_000_000_000
"""Nanoseconds within which a file may change twice without its date telling (two seconds on the FAT file systems)."""
MOST_ANSWERS = 6
"""Whole answers that are kept, each for other options or another width of the terminal."""
LONGEST_ANSWER = 1 << 20

Files = dict[str, tuple[str, Stamp]]
"""The place and the stamp of each file by the name to show, in the order in which they are read."""
Question = tuple[str, bool, int, bool, bool]
"""Form, whether advice is left out, width, whether there is colour, whether letters are ASCII only."""


def look(folder: str, shown: str) -> Files | None:
    """Return what there is to read in a folder, None where something cannot be looked at."""
    try:
        return {name: (path, stamp_of(path)) for path, name in _open(folder, shown)}
    except OSError:
        return None


def _open(folder: str, shown: str) -> "Iterator[tuple[str, str]]":
    for path, name in walk(folder, shown):
        if isinstance(name, OSError):
            raise name
        yield path, name


def is_as_then(stamp: Stamp, then: Stamp, time: int) -> bool:
    """Tell whether a file is surely as it was at a time: the same stamp, and old enough then for a change to tell."""
    return stamp == then and stamp[0] < time - YOUNG and stamp[1] < time - YOUNG


def program() -> bytes:
    """Return what stands for this program, its schemas and frameworks, its libraries and its Python."""
    package = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))  # noqa: PTH120
    files = sorted(_own_files(package))
    libraries = sorted(name for folder in sys.path if folder for name in _libraries(folder))
    return marshal.dumps((__version__, sys.version, package, files, libraries))


def _own_files(package: str) -> "Iterator[tuple[str, int, int]]":
    around = os.path.dirname(package)  # noqa: PTH120
    for folder, ending in (
        (package, ".py"),
        (f"{package}/shipped/schema", ".json"),
        (f"{package}/shipped/curriculum/outcomes", ".yaml"),
        (f"{around}/schema", ".json"),
        (f"{around}/curriculum/outcomes", ".yaml"),
    ):
        yield from _files_in(folder, ending)


def _files_in(folder: str, ending: str) -> "Iterator[tuple[str, int, int]]":
    try:
        with os.scandir(folder) as opened:
            entries = list(opened)
    except OSError:
        return
    for entry in entries:
        if entry.name.endswith(ending):
            status = entry.stat()
            yield entry.path, status.st_mtime_ns, status.st_size
        elif ending == ".py" and "." not in entry.name and entry.name not in ("__pycache__", "shipped"):
            yield from _files_in(entry.path, ending)


def _libraries(folder: str) -> list[str]:
    try:
        return [name for name in os.listdir(folder) if name.endswith((".dist-info", ".egg-info"))]  # noqa: PTH208
    except OSError:
        return []


def place_of(folder: str, shown: str, sort: str) -> str:
    """Return the file for a curriculum under the name by which it is shown, since sentences may hold that name."""
    return f"{folder}/{FOLDER}/{crc32(shown.encode('utf-8', 'surrogateescape')):08x}.{sort}"


def read(path: str, owner: bytes, shown: str) -> "dict[str, Any] | None":
    """Return what is kept in a file, None where it is not there, damaged, or of another program or curriculum."""
    try:
        with open(path, "rb") as stream:  # noqa: PTH123
            sum_, body = stream.read(8), stream.read()
        if sum_ != b"%08x" % crc32(body):
            return None
        kept: dict[str, Any] = marshal.loads(body)
    except (OSError, ValueError, EOFError, TypeError):
        return None
    return kept if kept["program"] == owner and kept["shown"] == shown else None


def write(path: str, kept: "dict[str, Any]") -> None:
    """Write a file whole, or not at all where the disk refuses. A reader sees the old content or the new."""
    body = marshal.dumps(kept)
    folder = os.path.dirname(path)  # noqa: PTH120
    part = f"{path}.{os.getpid()}.part"
    try:
        os.makedirs(folder, exist_ok=True)  # noqa: PTH103
        if not os.path.exists(f"{folder}/.gitignore"):  # noqa: PTH110
            with open(f"{folder}/.gitignore", "wb") as stream:  # noqa: PTH123
                stream.write(b"*\n")
        with open(part, "wb") as stream:  # noqa: PTH123
            stream.write(b"%08x" % crc32(body))
            stream.write(body)
        os.replace(part, path)  # noqa: PTH105
    except OSError:
        try:
            os.unlink(part)  # noqa: PTH108
        except OSError:
            return


def remember_answer(shown: str, link: int, question: Question, text: str, code: int) -> None:
    """Keep a whole answer with the dates and sizes of the files that it is about, if those are kept.

    ``link`` tells which check the answer is of: another program may meanwhile have kept a later one.
    """
    place = place_of(shown, shown, "answers")
    kept = read(place, program(), shown)
    if kept is None or kept["link"] != link or len(text) > LONGEST_ANSWER:
        return
    others = [each for each in kept["answers"].items() if each[0] != question][1 - MOST_ANSWERS :]
    write(place, {**kept, "answers": {**dict(others), question: (text, code)}})
