"""Which files of a folder hold records. Loads nothing heavy, so that a check with nothing to do stays quick."""

import os
from collections.abc import Iterator
from hashlib import blake2b
from pathlib import Path
from typing import Final

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.source.finding import Finding
from lessonkit.source.location import file_start

ENDINGS: Final = (".yaml", ".yml")
_PASSED_OVER: Final = frozenset({"node_modules", "__pycache__"})


def mark_of(content: bytes) -> str:
    """Return what stands for the content of a file: the same content, the same mark."""
    return blake2b(content, digest_size=16).hexdigest()


def record_files(folder: Path, shown: str, inside: tuple[str, ...] = ()) -> Iterator[tuple[str, str] | Finding]:
    """Give the record files of a folder by name, each with the name to show; a finding for a folder that is closed.

    ``inside`` are the real places of the folders on the way, so that a link back to one of them ends there. Files and
    folders whose names begin with a dot are passed over, and so are those that programs keep for themselves.
    """
    if folder.is_file():
        yield str(folder), shown
        return
    yield from _in_folder(str(folder), shown, inside)


def _in_folder(folder: str, shown: str, inside: tuple[str, ...]) -> Iterator[tuple[str, str] | Finding]:
    real = os.path.realpath(folder)
    if real in inside:
        return
    try:
        with os.scandir(folder) as opened:
            entries = sorted(opened, key=lambda entry: entry.name)
    except OSError as problem:
        yield make(codes.UNREADABLE, f"This folder cannot be read: {problem.strerror}.", file_start(shown or "."))
        return
    prefix = "" if shown in ("", ".") else shown.rstrip("/") + "/"
    for entry in entries:
        if entry.name.startswith(".") or entry.name in _PASSED_OVER:
            continue
        if _is_folder(entry):
            if not Path(entry.path, "pyvenv.cfg").is_file():
                yield from _in_folder(entry.path, prefix + entry.name, (*inside, real))
        elif entry.name.lower().endswith(ENDINGS) and (_is_file(entry) or entry.is_symlink()):
            yield entry.path, prefix + entry.name


def _is_folder(entry: "os.DirEntry[str]") -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False


def _is_file(entry: "os.DirEntry[str]") -> bool:
    try:
        return entry.is_file()
    except OSError:
        return False
