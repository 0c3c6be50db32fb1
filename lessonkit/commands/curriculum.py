"""Open the curriculum folder that a command is to work on."""

from pathlib import Path

from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal
from lessonkit.loading.folder import Loaded, load_folder

DEFAULT_FOLDER = "curriculum"


def folder_argument(given: str | None) -> tuple[Path, str]:
    """Return the folder to work on and how to show it; without one, ``curriculum`` here, or else this folder.

    A Windows-style path is understood on every system. Raises CannotRunError where there is no such folder.
    """
    if given is None:
        given = DEFAULT_FOLDER if Path(DEFAULT_FOLDER).is_dir() else "."
    path = Path(given)
    if not path.exists() and "\\" in given:
        path = Path(given.replace("\\", "/"))
    if not path.exists():
        raise CannotRunError(f"there is no folder {given!r} here.")
    return path, path.as_posix()


def open_curriculum(given: str | None, terminal: Terminal) -> Loaded:
    """Load every record of the curriculum, saying so where it takes a while."""
    path, shown = folder_argument(given)
    terminal.status(f"Reading {shown} ...")
    loaded = load_folder(path, shown)
    terminal.status("")
    if not loaded.files:
        raise CannotRunError(
            f"{shown} holds no records yet. Copy the starter curriculum with: lessonkit new curriculum {shown}"
        )
    return loaded
