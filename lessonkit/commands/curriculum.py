"""Open the curriculum that a command is to work on."""

from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.front_door import DEFAULT_FOLDER, SIGNS
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded


def folder_argument(given: str | None) -> Path:
    """Return the path to work on; without one, the folder ``curriculum`` here, or else this folder.

    A Windows-style path is understood on every system. Raises CannotRunError where there is nothing at the path.
    """
    if given is None:
        given = DEFAULT_FOLDER if Path(DEFAULT_FOLDER).is_dir() else "."
    path = Path(given)
    if not path.exists() and "\\" in given:
        path = Path(given.replace("\\", "/"))
    if not path.exists():
        from lessonkit.commands.meant import quoted

        raise CannotRunError(f"there is no folder or file {quoted(given)} here.")
    return path


def curriculum_of(path: Path) -> Path:
    """Return the curriculum that a file or folder belongs to: the nearest folder above it that looks like one.

    A folder that lies in no curriculum is one itself; a file in none stands for itself.
    """
    start = path if path.is_dir() else path.parent
    for folder in (start, *start.parents):
        if any((folder / sign).exists() for sign in SIGNS):
            return folder
        if folder == Path():
            above = Path("..")
            if any((above / sign).exists() for sign in SIGNS):
                return above
    return path


def open_curriculum(given: str | None, terminal: Terminal) -> "Loaded":
    """Load every record of the curriculum that the folder ``given`` is or lies in. Raises CannotRunError for a file."""
    path = folder_argument(given)
    whole = curriculum_of(path)
    if path.is_file():
        folder = whole if whole.is_dir() else path.parent
        raise CannotRunError(f"{path.as_posix()} is one file; name the folder of the curriculum: {folder.as_posix()}")
    return read_curriculum(whole, terminal)


def read_curriculum(path: Path, terminal: Terminal) -> "Loaded":
    """Load every record of a curriculum, or of a file that lies in none, saying so where it takes a while."""
    from lessonkit.loading.folder import load_folder

    shown = path.as_posix()
    terminal.status(f"Reading {shown} ...")
    loaded = load_folder(path, shown)
    terminal.status("")
    if not loaded.files:
        from lessonkit.commands.calls import call, pasted

        there = path / DEFAULT_FOLDER if path.is_dir() and any(path.iterdir()) else path
        copying = call(f"new curriculum {pasted(there.as_posix())}", None)
        raise CannotRunError(f"{shown} holds no records yet. Copy the starter curriculum with: {copying}")
    return loaded
