"""What the last check of a curriculum found, kept beside it for as long as nothing changes.

The folder ``.lessonkit-cache`` may be deleted at any time. What is kept counts only for the same program with the same
libraries, the same files, and the same contents: where the file system's dates and sizes are not those of the last time
the contents are compared, and where they are too young to be trusted as well.
"""

import json
import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Final

from lessonkit import __version__
from lessonkit.loading.record_files import mark_of, record_files
from lessonkit.source.finding import Code, Finding, Level, Related
from lessonkit.source.location import Location
from lessonkit.source.safe_file import write_whole
from lessonkit.source.shipped import shipped_folder

FOLDER: Final = ".lessonkit-cache"
LEAST: Final = 100
"""Files of the smallest curriculum for which anything is kept; a smaller one is checked anew in a moment."""
YOUNG: Final = 2_000_000_000
"""Nanoseconds within which a file may change twice without its date telling (two seconds on the FAT file systems)."""

Stamp = tuple[int, int, int, int]
"""Dates of content and of place in nanoseconds, size, and number of a file."""


@dataclass(frozen=True, slots=True)
class Checked:
    """The outcome of a check: the files' names as shown, and every finding in reading order."""

    paths: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Before:
    """A curriculum before it is read: its folder, the name to show for it, the moment in nanoseconds, and its files.

    ``files`` has the place and stamp of each by the name to show.
    """

    folder: Path
    shown: str
    time: int
    files: dict[str, tuple[str, Stamp]]


def before(folder: Path, shown: str, time: int) -> Before | None:
    """Return what there is to read, None where something cannot be looked at. ``time`` is the present moment."""
    files: dict[str, tuple[str, Stamp]] = {}
    try:
        for file in record_files(folder, shown):
            if isinstance(file, Finding):
                return None
            status = os.stat(file[0])  # noqa: PTH116  # a path object for each of many files takes longer than the call
            files[file[1]] = (file[0], (status.st_mtime_ns, status.st_ctime_ns, status.st_size, status.st_ino))
    except OSError:
        return None
    return Before(folder, shown, time, files)


def recall(now: Before) -> Checked | None:
    """Return what the last check found if every file is as it was then, otherwise None."""
    kept = _read(_file(now)) if len(now.files) >= LEAST else None
    if kept is None or kept.get("program") != program() or list(kept["files"]) != list(now.files):
        return None
    trusted_until = kept["time"] - YOUNG
    for (path, stamp), (*then, mark) in zip(now.files.values(), kept["files"].values(), strict=True):
        trusted = stamp[0] < trusted_until and stamp[1] < trusted_until and tuple(then) == stamp
        if not trusted and mark != _mark(path):
            return None
    return Checked(tuple(now.files), tuple(_finding(one) for one in kept["findings"]))


def keep(then: Before, marks: Sequence[str], checked: Checked) -> None:
    """Keep what a check found. ``marks`` stand for the contents that it read, in the order of the files.

    Nothing is kept for small curricula, where a file could not be read or has changed meanwhile, or on a full disk.
    """
    if len(then.files) < LEAST or tuple(then.files) != checked.paths or "" in marks:
        return
    if then != before(then.folder, then.shown, then.time):
        return
    files = zip(then.files.items(), marks, strict=True)
    body = {
        "program": program(),
        "time": then.time,
        "files": {name: [*stamp, mark] for (name, (_, stamp)), mark in files},
        "findings": [_plain(finding) for finding in checked.findings],
    }
    text = json.dumps(body).encode()
    try:
        write_whole(then.folder / FOLDER / ".gitignore", b"*\n")
        write_whole(_file(then), mark_of(text).encode() + b"\n" + text)
    except OSError:
        return


def _file(curriculum: Before) -> Path:
    """Return the file for a curriculum under the name by which it is shown, since sentences may hold that name."""
    name = mark_of(curriculum.shown.encode("utf-8", "surrogateescape"))
    return curriculum.folder / FOLDER / f"{name}.json"


def _read(path: Path) -> dict[str, Any] | None:
    try:
        mark, _, text = path.read_bytes().partition(b"\n")
    except OSError:
        return None
    if mark != mark_of(text).encode():
        return None
    kept: dict[str, Any] = json.loads(text)
    return kept


def _mark(path: str) -> str:
    try:
        return mark_of(Path(path).read_bytes())
    except OSError:
        return ""


def program() -> str:
    """Return what stands for this program, its schemas and frameworks, its libraries and its Python."""
    digest = blake2b(f"{__version__} {sys.version}".encode(), digest_size=16)
    for place in sorted(_own_files()):
        status = place.stat()
        digest.update(f"{place} {status.st_mtime_ns} {status.st_size}\n".encode("utf-8", "surrogateescape"))
    for name in _libraries():
        digest.update(f"{name}\n".encode("utf-8", "surrogateescape"))
    return digest.hexdigest()


def _own_files() -> Iterator[Path]:
    yield from Path(__file__).resolve().parents[1].rglob("*.py")
    yield from shipped_folder("schema").glob("*.json")
    yield from (shipped_folder("curriculum") / "outcomes").glob("*.yaml")


def _libraries() -> list[str]:
    """Return the names of all installed packages with their versions, as their folders beside PyYAML's have them."""
    found = find_spec("yaml")
    if found is None or found.origin is None:
        return []
    return sorted(name for name in os.listdir(Path(found.origin).parents[1]) if name.endswith(".dist-info"))  # noqa: PTH208


def _plain(finding: Finding) -> list[Any]:
    place, code = finding.location, finding.code
    return [
        [code.number, code.name, code.level.value],
        finding.level.value,
        finding.says,
        _spot(place),
        finding.record,
        list(finding.field),
        finding.hint,
        [[_spot(one.location), one.says] for one in finding.related],
        finding.repair,
    ]


def _spot(place: Location) -> list[Any]:
    return [place.path, place.line, place.column, place.end_line, place.end_column]


def _finding(kept: list[Any]) -> Finding:
    (number, name, usual), level, says, spot, record, field, hint, related, repair = kept
    return Finding(
        Code(number, name, Level(usual)),
        Level(level),
        says,
        Location(*spot),
        record,
        tuple(field),
        hint,
        tuple(Related(Location(*there), words) for there, words in related),
        repair,
    )
