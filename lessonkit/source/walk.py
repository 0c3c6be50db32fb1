"""Which files of a folder hold records, and the marks that the file system keeps of each.

Loads nothing heavy, not even what most of the standard library loads, so that a check with nothing to do stays quick.
"""

import os
from operator import attrgetter

ENDINGS = (".yaml", ".yml")
NEARLY = (*ENDINGS, ".yaml.txt", ".yml.txt")
"""Endings that make a record of a file, and those that a text editor makes of them."""
PASSED_OVER = frozenset({"node_modules", "__pycache__"})

Stamp = tuple[int, int, int, int]
"""Dates of content and of place in nanoseconds, size, and number of a file."""


class ClosedFolderError(Exception):
    """A folder that cannot be read: its name to show, and why."""

    def __init__(self, shown: str, problem: OSError) -> None:
        super().__init__(shown)
        self.shown = shown
        self.problem = problem


def walk(folder: str, shown: str) -> "list[tuple[str, str] | ClosedFolderError]":
    """Return the record files of a folder by name, each with the name to show, and the folders that are closed.

    Files and folders whose names begin with a dot are passed over, and so are those that programs keep for themselves.
    """
    found: list[tuple[str, str] | ClosedFolderError] = []
    _walk(folder, shown, (), found)
    return found


def _walk(folder: str, shown: str, inside: tuple[str, ...], found: "list[tuple[str, str] | ClosedFolderError]") -> None:
    """Add what a folder holds. ``inside`` are the real places of those around it: a link back to one ends there."""
    real = os.path.realpath(folder)
    if real in inside:
        return
    try:
        with os.scandir(folder) as opened:
            entries = sorted(opened, key=attrgetter("name"))
    except OSError as problem:
        found.append(ClosedFolderError(shown or ".", problem))
        return
    prefix = "" if shown in ("", ".") else shown.rstrip("/") + "/"
    for entry in entries:
        name = entry.name
        if name[0] == "." or name in PASSED_OVER:
            continue
        if name.endswith(ENDINGS) and _is_plain_file(entry):
            found.append((entry.path, prefix + name))
        elif _is_folder(entry):
            if not os.path.isfile(os.path.join(entry.path, "pyvenv.cfg")):  # noqa: PTH113, PTH118
                _walk(entry.path, prefix + name, (*inside, real), found)
        elif name.lower().endswith(NEARLY) and (_is_file(entry) or entry.is_symlink()):
            found.append((entry.path, prefix + name))


def stamp_of(path: str) -> Stamp:
    """Return the marks of a file. Raises OSError where it cannot be looked at."""
    status = os.stat(path)  # noqa: PTH116  # a path object for each of many files takes longer than the call
    return status.st_mtime_ns, status.st_ctime_ns, status.st_size, status.st_ino


def _is_plain_file(entry: "os.DirEntry[str]") -> bool:
    try:
        return entry.is_file(follow_symlinks=False)
    except OSError:
        return False


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
