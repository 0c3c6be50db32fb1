"""A folder of exported files that never loses what someone changed in them."""

from pathlib import Path
from typing import TYPE_CHECKING, Final

from lessonkit.source.safe_file import write_whole

if TYPE_CHECKING:
    from collections.abc import Callable

    from lessonkit.writers.standing import Met

_MOST_SAID: Final = 12
"""Differences of a file that are listed; ``lessonkit revise`` shows them all."""


class Folder:
    """An export folder. ``put`` writes a file unless someone has changed the old one; ``report`` says what was done.

    With ``force`` a changed file is replaced too, and kept as a backup beside the new one. ``revise`` gives the command
    that shows all that was changed in a Word file.
    """

    def __init__(self, path: Path, *, force: bool = False, revise: "Callable[[Path], str] | None" = None) -> None:
        self.path = path
        self._force = force
        self._revise = revise
        self._said: list[str] = []
        self.failed = False
        """Whether a file could not be written."""

    def put(self, name: str, content: bytes) -> None:
        """Write a file whole; one that was changed since it was written stays, and the new one stands beside it.

        So does one that is open in another program. Where this one name cannot be written the report says so.
        """
        self.path.mkdir(parents=True, exist_ok=True)
        try:
            self._put(self.path / name, content)
        except (PermissionError, IsADirectoryError) as fault:
            self.failed = True
            why = "a folder has its name" if isinstance(fault, IsADirectoryError) else fault.strerror or str(fault)
            self._said.append(f"{(self.path / name).as_posix()} could not be written: {why}.")

    def _put(self, target: Path, content: bytes) -> None:
        met = _meet(target, content)
        if met is not None and met.may_go and not self._force and is_open(target) and target.read_bytes() != content:
            beside = _beside(target, content)
            write_whole(beside, content)
            why = "which is open in another program or was when that stopped"
            self._said.append(f"Kept {target.as_posix()}, {why}; the new one is {beside.as_posix()}")
        elif met is None or met.may_go:
            write_whole(target, content)
            self._said.append(f"Wrote {target.as_posix()}")
            self._clear(target, content)
        elif self._force:
            backup = _free(target, "backup")
            write_whole(backup, target.read_bytes())
            write_whole(target, content)
            self._said.append(f"Wrote {target.as_posix()}; what was there before is now {backup.as_posix()}")
        else:
            beside = _beside(target, content)
            write_whole(beside, content)
            see_all = self._revise(target) if self._revise and target.suffix == ".docx" else ""
            self._said += _kept(target, beside, met, see_all)

    def _clear(self, target: Path, content: bytes) -> None:
        """Take away what an earlier export put beside a file that was changed then, if nobody has changed it."""
        beside = target.with_name(f"{target.stem}.new{target.suffix}")
        met = _meet(beside, content)
        if met is not None and met.may_go:
            beside.unlink()
            self._said.append(f"Removed {beside.as_posix()}, which nobody had changed")

    def report(self) -> list[str]:
        """Return a line for every file, and below a kept one what was changed in it."""
        return list(self._said)


def is_open(path: Path) -> bool:
    """Tell whether a word processor has left its mark beside a file that it has open.

    Word puts ``~$`` in front of the name, of a longer name in place of its first two letters (of one with seven letters
    before the dot in place of the first); LibreOffice writes ``.~lock.NAME#``.
    """
    marks = (f".~lock.{path.name}#", *(f"~${path.name[cut:]}" for cut in range(3)))
    return any(path.with_name(mark).exists() for mark in marks)


def _meet(path: Path, content: bytes) -> "Met | None":
    """Return how a file on the disk stands; None where there is none."""
    from lessonkit.writers.table import MEETINGS

    if not path.exists():
        return None
    return MEETINGS[path.suffix.lower()](path.read_bytes(), content)


def _beside(target: Path, content: bytes) -> Path:
    """Return where the new file goes: over an earlier new one only if nobody has changed that either."""
    place = target.with_name(f"{target.stem}.new{target.suffix}")
    met = _meet(place, content)
    return place if met is None or met.may_go else _free(target, "new")


def _free(target: Path, what: str) -> Path:
    """Return a name beside a file that no file has yet."""
    number = 1
    while True:
        place = target.with_name(f"{target.stem}.{what}{f'-{number}' if number > 1 else ''}{target.suffix}")
        if not place.exists():
            return place
        number += 1


def _kept(target: Path, beside: Path, met: "Met", see_all: str) -> list[str]:
    from lessonkit.writers.standing import Standing

    why = (
        "which was changed since it was exported"
        if met.standing is Standing.EDITED
        else "which does not bear the mark of an export"
    )
    lines = [f"Kept {target.as_posix()}, {why}; the new one is {beside.as_posix()}"]
    lines += [f"  {each}" for each in met.says[:_MOST_SAID]]
    if len(met.says) > _MOST_SAID:
        how = f"; see them all with: {see_all}" if see_all else ""
        lines.append(f"  and {len(met.says) - _MOST_SAID} more{how}")
    return lines
