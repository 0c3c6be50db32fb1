"""What the last check of a curriculum found, kept beside it for as long as nothing changes.

What is kept counts only for the same program with the same libraries, the same files, and the same contents: where the
file system's dates and sizes are not those of the last time the contents are compared, and where they are too young to
be trusted as well. Where only a few activities have changed, and only in what no other record's check reads, those are
checked again and the rest is as it was; after any other change everything is checked from the start.
"""

from dataclasses import dataclass
from pathlib import Path
from time import time_ns
from typing import Any

from lessonkit.commands import front_door, kept_check
from lessonkit.commands.kept_check import Files, dates_of, doubtful, look, place_of, program, read, write
from lessonkit.source.finding import Finding

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded


@dataclass(frozen=True, slots=True)
class Checked:
    """The outcome of a check: the files' names as shown, and every finding in reading order.

    ``kept`` tells of which program and under which number it is kept, if it is.
    """

    paths: tuple[str, ...]
    findings: tuple[Finding, ...]
    kept: tuple[bytes, int] | None = None


@dataclass(frozen=True, slots=True)
class Before:
    """A curriculum before it is read: its folder, the name to show, the moment in nanoseconds, its files.

    ``program`` stands for this program, ``dates`` is what the last check kept of the files' dates and sizes; None where
    it kept nothing; ``doubtful`` are the files that may have changed since, None where one is new or gone.
    """

    folder: Path
    shown: str
    time: int
    files: Files
    program: bytes
    dates: dict[str, Any] | None = None
    doubtful: list[str] | None = None


def before(folder: Path, shown: str, time: int | None = None) -> Before | None:
    """Return what there is to read, None where something cannot be looked at. ``time`` is the present moment."""
    if time is None and front_door.seen and front_door.seen[0][0] == shown == folder.as_posix():
        _, moment, found, dates, names = front_door.seen.pop()
        return Before(folder, shown, moment, found, dates["program"], dates, names)
    moment = time_ns() if time is None else time
    files = look(str(folder), shown)
    if files is None:
        return None
    owner = program()
    kept = read(_place(folder, shown, "dates"), owner, shown)
    return Before(folder, shown, moment, files, owner, kept, None if kept is None else doubtful(files, kept))


def recall(now: Before) -> Checked | None:
    """Return what a check finds if it can be told from the last one, otherwise None."""
    kept = now.dates
    names = now.doubtful
    if kept is None or names is None or len(now.files) < kept_check.LEAST:
        return None
    known = read(_place(now.folder, now.shown, "records"), now.program, now.shown)
    if known is None or known["link"] != kept["link"]:
        return None
    changed = _changed(now, names, known["marks"])
    if changed is None:
        return None
    if changed:
        from lessonkit.commands.recheck import recheck

        return recheck(now, known, changed)
    from lessonkit.commands.kept_findings import finding_of

    if names:
        write(_place(now.folder, now.shown, "dates"), {**kept, **dates_of(now.files, now.time)})
    return Checked(tuple(now.files), tuple(map(finding_of, known["said"])), (now.program, kept["link"]))


def _changed(now: Before, names: list[str], marks: dict[str, str]) -> dict[str, bytes] | None:
    """Return the contents of those files that have changed, in their order; None where one cannot be read."""
    if not names:
        return {}
    from lessonkit.loading.file import read_content
    from lessonkit.loading.record_files import mark_of

    changed: dict[str, bytes] = {}
    for name in sorted(names):
        content = read_content(now.files[name][0], name)
        if isinstance(content, Finding):
            return None
        if mark_of(content) != marks[name]:
            changed[name] = content
    return changed


def keep(
    then: Before, loaded: "Loaded", found: tuple[Finding, ...], said: tuple[Finding, ...]
) -> tuple[bytes, int] | None:
    """Keep what a check found, and return of which program and under which number, None where it is not kept.

    ``found`` is everything, ``said`` what silences left of it.

    Nothing is kept for small curricula, where a file could not be read or has changed meanwhile, or on a full disk.
    """
    if len(then.files) < kept_check.LEAST or tuple(then.files) != loaded.paths or "" in loaded.marks:
        return None
    if then.files != look(str(then.folder), then.shown):
        return None
    from lessonkit.commands.known_records import known_records

    return save(then, {**known_records(loaded, found), "said": _plain(said)})


def save(then: Before, known: dict[str, Any]) -> tuple[bytes, int]:
    """Write what is known of the records, and the dates and sizes that it goes with. Returns the program and number."""
    owner = {"program": then.program, "shown": then.shown, "link": then.time}
    write(_place(then.folder, then.shown, "records"), {**known, **owner})
    write(_place(then.folder, then.shown, "dates"), {**owner, **dates_of(then.files, then.time)})
    return then.program, then.time


def _plain(findings: tuple[Finding, ...]) -> list[Any]:
    from lessonkit.commands.kept_findings import plain

    return [plain(finding) for finding in findings]


def _place(folder: Path, shown: str, sort: str) -> str:
    return place_of(str(folder), shown, sort)
