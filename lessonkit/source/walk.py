"""Which files of a folder hold records, and the marks that the file system keeps of each.

Loads nothing heavy, not even what most of the standard library loads, so that a check with nothing to do stays quick.
"""

import os

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterator

ENDINGS = (".yaml", ".yml")
PASSED_OVER = frozenset({"node_modules", "__pycache__"})

Stamp = tuple[int, int, int, int]
"""Dates of content and of place in nanoseconds, size, and number of a file."""


def walk(folder: str, shown: str, inside: tuple[str, ...] = ()) -> "Iterator[tuple[str, str] | tuple[str, OSError]]":
    """Give the record files of a folder by name, each with the name to show; for a closed folder its name and why.

    ``inside`` are the real places of the folders on the way, so that a link back to one of them ends there. Files and
    folders whose names begin with a dot are passed over, and so are those that programs keep for themselves.
    """
    real = os.path.realpath(folder)
    if real in inside:
        return
    try:
        with os.scandir(folder) as opened:
            entries = sorted(opened, key=_name)
    except OSError as problem:
        yield shown or ".", problem
        return
    prefix = "" if shown in ("", ".") else shown.rstrip("/") + "/"
    for entry in entries:
        name = entry.name
        if name[0] == "." or name in PASSED_OVER:
            continue
        if _is_folder(entry):
            if not os.path.isfile(os.path.join(entry.path, "pyvenv.cfg")):  # noqa: PTH113, PTH118
                yield from walk(entry.path, prefix + name, (*inside, real))
        elif name.lower().endswith(ENDINGS) and (_is_file(entry) or entry.is_symlink()):
            yield entry.path, prefix + name


def stamp_of(path: str) -> Stamp:
    """Return the marks of a file. Raises OSError where it cannot be looked at."""
    status = os.stat(path)  # noqa: PTH116  # a path object for each of many files takes longer than the call
    return status.st_mtime_ns, status.st_ctime_ns, status.st_size, status.st_ino


def _name(entry: "os.DirEntry[str]") -> str:
    return entry.name


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
