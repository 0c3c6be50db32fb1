"""Where the files that come with the program lie: the schemas and the starter curriculum."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def shipped_folder(name: str) -> Path:
    """Return the folder ``schema`` or ``curriculum`` that came with the program.

    An installed program carries both inside itself; a checkout has them beside the package.
    Raises FileNotFoundError if neither is there.
    """
    for candidate in (_PACKAGE / "shipped" / name, _PACKAGE.parent / name):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"the program's own folder {name!r} is missing; install lessonkit again")
