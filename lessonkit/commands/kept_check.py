"""What a check keeps beside a curriculum for next time: where it lies, whose it is, and how it is read and written.

Loads nothing heavy, since the quickest check is one that only looks here. The folder ``.lessonkit-cache`` may be
deleted at any time. It has five files for each name by which the curriculum was called: one with the dates and sizes
of the files, one with whole answers, two with what the check knew of every record and of the records as a whole, which
are read after a change only, and one with what checks of a few changed files made of these since. The number of the
check of everything that they are of ties them together.
"""

import marshal
import os
import sys
from zlib import crc32

from lessonkit import __version__
from lessonkit.source.walk import ClosedFolderError, Stamp, stamp_of, walk

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
MOST_BYTES = 1 << 20
"""Bytes of the largest file that a record may have."""

Files = dict[str, tuple[str, Stamp]]
"""The place and the stamp of each file by the name to show, in the order in which they are read."""
Question = tuple[str, bool, int, bool, bool]
"""Form, whether advice is left out, width, whether there is colour, whether letters are ASCII only."""


def look(folder: str, shown: str) -> Files | None:
    """Return what there is to read in a folder, None where something cannot be looked at."""
    files: Files = {}
    try:
        for each in walk(folder, shown):
            if isinstance(each, ClosedFolderError):
                return None
            files[each[1]] = (each[0], stamp_of(each[0]))
    except OSError:
        return None
    return files


def dates_of(files: Files, time: int) -> "dict[str, Any]":
    """Return what is kept of files as they were looked at at a time: stamps, and the names of those too young then."""
    oldest = time - YOUNG
    stamps = {name: stamp for name, (_, stamp) in files.items()}
    young = [name for name, stamp in stamps.items() if stamp[0] >= oldest or stamp[1] >= oldest]
    return {"stamps": stamps, "young": young}


def doubtful(files: Files, kept: "dict[str, Any]") -> list[str] | None:
    """Return the files that may not be as they were, None where one is new or gone."""
    stamps = kept["stamps"]
    if list(files) != list(stamps):
        return None
    changed = [name for (name, (_, stamp)), then in zip(files.items(), stamps.values(), strict=True) if stamp != then]
    return list(dict.fromkeys([*changed, *kept["young"]]))


def read_dates(folder: str, shown: str, owner: bytes) -> "dict[str, Any] | None":
    """Return what is kept of the files' dates and sizes, with what has been checked since under ``news``."""
    kept = read(place_of(folder, shown, "dates"), owner, shown)
    if kept is None:
        return None
    news = read(place_of(folder, shown, "news"), owner, shown)
    if news is None or news["link"] != kept["link"]:
        return {**kept, "news": None}
    since = news["stamps"]
    young = [name for name in kept["young"] if name not in since]
    return {**kept, "stamps": {**kept["stamps"], **since}, "young": [*young, *news["young"]], "news": news}


def answers_of(kept: "dict[str, Any]") -> int:
    """Return the number of the check that the whole answers are of, if they are still right."""
    link: int = kept["news"]["answers"] if kept["news"] else kept["link"]
    return link


def mark_of(content: bytes) -> bytes:
    """Return what stands for the content of a file: the same content, the same mark."""
    from _blake2 import blake2b

    return blake2b(content, digest_size=16).digest()


def content_of(path: str) -> bytes | None:
    """Return the bytes of a file, None where they cannot be had or are too many for a record."""
    try:
        with open(path, "rb", buffering=0) as stream:  # noqa: PTH123
            content = stream.read()
    except (OSError, ValueError):
        return None
    return content if len(content) <= MOST_BYTES else None


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


def answers(folder: str, shown: str, owner: bytes, link: int) -> "dict[Question, tuple[str, int]]":
    """Return the whole answers that are kept of one check."""
    kept = read(place_of(folder, shown, "answers"), owner, shown)
    found: dict[Question, tuple[str, int]] = kept["answers"] if kept and kept["link"] == link else {}
    return found


def remember_answer(shown: str, kept: tuple[bytes, int], question: Question, text: str, code: int) -> None:
    """Keep a whole answer; ``kept`` are the program and the number of the check that it is of."""
    if len(text) > LONGEST_ANSWER:
        return
    owner, link = kept
    others = [each for each in answers(shown, shown, owner, link).items() if each[0] != question][1 - MOST_ANSWERS :]
    body = {"program": owner, "shown": shown, "link": link, "answers": {**dict(others), question: (text, code)}}
    write(place_of(shown, shown, "answers"), body)
