"""Wait for a change of any record, by looking at the files' times and sizes every half second."""

import os
from collections.abc import Iterator
from pathlib import Path
from time import sleep
from typing import Final

_PAUSE: Final = 0.5
_ENDINGS: Final = (".yaml", ".yml")

Marks = tuple[tuple[str, int, int, int], ...]


def marks(folder: Path) -> Marks:
    """Return the path, times of change and size of every record file of a folder, or of the one file that it is."""
    return tuple(sorted(_marks(folder)))


def _marks(folder: Path) -> Iterator[tuple[str, int, int, int]]:
    paths = [folder] if folder.is_file() else _files(folder)
    for path in paths:
        try:
            state = path.stat()
        except OSError:
            continue
        yield path.as_posix(), state.st_mtime_ns, state.st_ctime_ns, state.st_size


def _files(folder: Path) -> Iterator[Path]:
    for place, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        yield from (Path(place, name) for name in names if name.endswith(_ENDINGS) and not name.startswith("."))


def wait_for_change(folder: Path, before: Marks) -> Marks:
    """Return the new marks of a folder as soon as they are not the old ones any more.

    Half-written files are waited out: the marks must stay the same for one more look.
    """
    while True:
        sleep(_PAUSE)
        now = marks(folder)
        if now != before:
            sleep(_PAUSE)
            if marks(folder) == now:
                return now
