"""What the last check of a curriculum found, kept beside it for as long as nothing changes.

What is kept counts only for the same program with the same libraries, the same files, and the same contents: where the
file system's dates and sizes are not those of the last time the contents are compared, and where they are too young to
be trusted as well. Where only a few records have changed, and only in what no other record's check reads, those are
checked again and the rest is as it was; after any other change everything is checked from the start.
"""

from time import time_ns
from typing import Any, NamedTuple

from lessonkit.commands import front_door, kept_check
from lessonkit.commands.kept_check import (
    Files,
    answers_of,
    content_of,
    dates_of,
    doubtful,
    look,
    mark_of,
    place_of,
    program,
    read,
    read_dates,
    write,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from pathlib import Path

    from lessonkit.commands.known_records import Known
    from lessonkit.loading.folder import Loaded
    from lessonkit.source.finding import Finding


class Checked(NamedTuple):
    """The outcome of a check: the files' names as shown, and every finding in reading order.

    ``kept`` tells of which program and under which number it is kept, if it is.
    """

    paths: tuple[str, ...]
    findings: "tuple[Finding, ...]"
    kept: tuple[bytes, int] | None = None


class Before(NamedTuple):
    """A curriculum before it is read: its folder, the name to show, the moment in nanoseconds, its files.

    ``program`` stands for this program, ``dates`` is what is kept of the files' dates and sizes; None where nothing
    is; ``doubtful`` are the files that may have changed since, None where one is new or gone.
    """

    folder: str
    shown: str
    time: int
    files: Files
    program: bytes
    dates: dict[str, Any] | None = None
    doubtful: list[str] | None = None


def before(folder: "Path | str", shown: str, time: int | None = None) -> Before | None:
    """Return what there is to read, None where something cannot be looked at. ``time`` is the present moment."""
    place = str(folder)
    if time is None and front_door.seen and front_door.seen[0][0] == shown == place:
        _, moment, found, dates, names = front_door.seen.pop()
        return Before(place, shown, moment, found, dates["program"], dates, names)
    moment = time_ns() if time is None else time
    files = look(place, shown)
    if files is None:
        return None
    owner = program()
    kept = read_dates(place, shown, owner)
    return Before(place, shown, moment, files, owner, kept, None if kept is None else doubtful(files, kept))


def recall(now: Before) -> Checked | None:
    """Return what a check finds if it can be told from the last one, otherwise None."""
    kept = renew(now)
    if kept is None:
        return None
    said = kept["news"]["said"] if kept["news"] else None
    if said is None:
        known = _kept_of(now, kept, "records")
        if known is None:
            return None
        said = known["said"]
    from lessonkit.commands.kept_findings import finding_of

    return Checked(tuple(now.files), tuple(map(finding_of, said)), (now.program, answers_of(kept)))


def renew(now: Before) -> dict[str, Any] | None:
    """Check again what has changed, keep what that makes of the last check, and return what is kept of the dates now.

    None where everything must be checked.
    """
    kept, names = now.dates, now.doubtful
    if kept is None or names is None or len(now.files) < kept_check.LEAST:
        return None
    if not names:
        return kept
    records = _kept_of(now, kept, "records")
    if records is None:
        return None
    from lessonkit.commands.known_records import Known

    known = Known(records, kept["news"], now.files, lambda: _kept_of(now, kept, "whole"))
    changed = _changed(now, names, known)
    if changed is None:
        return None
    made = _made(known)
    if changed:
        from lessonkit.commands.recheck import recheck

        renewed = recheck(now.files, known, changed)
        if renewed is None:
            return None
        made = renewed
    answers = answers_of(kept) if _says_the_same(known, made, changed) else now.time
    return _save_news(now, kept, names, {**made, "answers": answers})


def _made(known: "Known") -> dict[str, Any]:
    """Return what later checks have made of the last one of everything so far."""
    return {"records": known.changed, "found": known.found, "said": known.said, "remarks": known.remarks()}


def _says_the_same(known: "Known", made: dict[str, Any], changed: dict[str, bytes]) -> bool:
    """Tell whether whole answers are as they were; those show lines of the files in which something was found."""
    return made["said"] == known.said and not any(finding[3][0] in changed for finding in known.said)


def _save_news(now: Before, kept: dict[str, Any], names: list[str], made: dict[str, Any]) -> dict[str, Any]:
    """Keep what has changed since everything was checked: each time all of it, so that it is right by itself."""
    owner = {"program": now.program, "shown": now.shown, "link": kept["link"]}
    looked = dates_of({name: now.files[name] for name in names}, now.time)
    stamps = {**(kept["news"]["stamps"] if kept["news"] else {}), **looked["stamps"]}
    news = {**owner, **made, "stamps": stamps, "young": looked["young"]}
    write(place_of(now.folder, now.shown, "news"), news)
    return {**kept, "news": news}


def _kept_of(now: Before, kept: dict[str, Any], sort: str) -> dict[str, Any] | None:
    """Return what the last check of everything knew of the records, or of the curriculum as a whole."""
    known = read(place_of(now.folder, now.shown, sort), now.program, now.shown)
    return known if known is not None and known["link"] == kept["link"] else None


def _changed(now: Before, names: list[str], known: "Known") -> dict[str, bytes] | None:
    """Return the contents of those files that have changed, in their order; None where one cannot be read."""
    changed: dict[str, bytes] = {}
    for name in sorted(names):
        content = content_of(now.files[name][0])
        if content is None:
            return None
        if mark_of(content) != known.mark(name):
            changed[name] = content
    return changed


def keep(
    then: Before, loaded: "Loaded", found: "tuple[Finding, ...]", said: "tuple[Finding, ...]"
) -> tuple[bytes, int] | None:
    """Keep what a check found, and return of which program and under which number, None where it is not kept.

    ``found`` is everything, ``said`` what silences left of it.

    Nothing is kept for small curricula, where a file could not be read or has changed meanwhile, or on a full disk.
    """
    if len(then.files) < kept_check.LEAST or tuple(then.files) != loaded.paths or "" in loaded.marks:
        return None
    if then.files != look(then.folder, then.shown):
        return None
    from lessonkit.commands.kept_findings import plain
    from lessonkit.commands.known_records import known_records, known_whole

    owner = {"program": then.program, "shown": then.shown, "link": then.time}
    known = {**known_records(loaded, found), "said": [plain(finding) for finding in said]}
    write(place_of(then.folder, then.shown, "whole"), {**known_whole(loaded), **owner})
    write(place_of(then.folder, then.shown, "records"), {**known, **owner})
    write(place_of(then.folder, then.shown, "dates"), {**owner, **dates_of(then.files, then.time)})
    return then.program, then.time
