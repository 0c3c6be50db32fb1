"""Repairs of an author's file where only one thing can be meant; every other byte of the file stays as it is."""

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from lessonkit.commands.cannot import CannotRunError
from lessonkit.loading.codes import CODES
from lessonkit.loading.file import load_content
from lessonkit.loading.node_places import written_in
from lessonkit.loading.nodes import compose
from lessonkit.loading.text import read_text
from lessonkit.source.finding import Finding, Level
from lessonkit.source.safe_file import write_whole

_LINE: Final = re.compile("[^\r\n]*(?:\r\n|\r|\n|$)")
_MARK: Final = "\ufeff"
"""What some editors put in front of a text; it counts as no character of its first line."""


@dataclass(frozen=True, slots=True)
class Repair:
    """A file before and after its repairs, and how many there are."""

    path: str
    before: bytes
    after: bytes
    places: int

    def diff(self) -> str:
        """Return the change as a unified diff, as version control shows it."""
        old, new = (_LINE.findall(content.decode("utf-8"))[:-1] for content in (self.before, self.after))
        lines = difflib.unified_diff(old, new, f"a/{self.path}", f"b/{self.path}")
        return "".join(
            line if line.endswith(("\n", "\r")) else f"{line}\n\\ No newline at end of file\n" for line in lines
        )


def repairs(findings: Iterable[Finding]) -> tuple[Repair, ...]:
    """Return the repairs that findings know, file by file; none for a file that cannot be read any more.

    A repair that would bring a new fault, such as a field that is there already, is left out.
    """
    by_path: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.repair is not None:
            by_path.setdefault(finding.location.path, []).append(finding)
    made = (_repair(path, by_path[path]) for path in sorted(by_path))
    return tuple(repair for repair in made if repair is not None)


def write_repairs(made: Iterable[Repair]) -> None:
    """Write repairs into their files. Raises CannotRunError for a file that has changed meanwhile."""
    for repair in made:
        path = Path(repair.path).resolve()
        if path.read_bytes() != repair.before:
            raise CannotRunError(f"{repair.path} has changed meanwhile; check again.")
        write_whole(path, repair.after)


def _repair(path: str, findings: list[Finding]) -> Repair | None:
    try:
        before = Path(path).read_bytes()
        text = before.decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
    places = 0
    for finding in sorted(findings, key=lambda one: one.location, reverse=True):
        changed = _changed(text, finding)
        if changed is not None and _is_better(text, changed, finding):
            text, places = changed, places + 1
    return Repair(path, before, text.encode(), places) if places else None


def _changed(text: str, finding: Finding) -> str | None:
    """Return a text with the value or name at a finding exchanged, in the quotes that it stands in.

    None where something else stands there, or a text that goes on over several lines.
    """
    place, starts = finding.location, [match.start() for match in _LINE.finditer(text)]
    if place.line != place.end_line or place.line > len(starts):
        return None
    line = starts[place.line - 1] + (place.line == 1 and text.startswith(_MARK))
    start, end = line + place.column - 1, line + place.end_column - 1
    old = text[start:end]
    quote = old[0] if len(old) > 1 and old[0] in "'\"" and old[0] == old[-1] else ""
    written = old[1:-1] if quote else old
    top = compose(read_text(text.encode(), place.path), place.path)
    if not finding.field or written not in (finding.field[-1], written_in(top, finding.field)):
        return None
    return f"{text[:start]}{quote}{finding.repair}{quote}{text[end:]}"


def _is_better(text: str, changed: str, finding: Finding) -> bool:
    """Tell whether a change brings no new error; one of loading must be gone."""
    before, after = _errors(text, finding.location.path), _errors(changed, finding.location.path)
    return after < before if finding.code in CODES else after <= before


def _errors(text: str, path: str) -> int:
    loaded = load_content(text.encode(), path)
    return sum(finding.level is Level.ERROR for finding in loaded.findings)
