"""Everything that a check finds in a loaded curriculum."""

from functools import lru_cache
from pathlib import Path

from lessonkit.commands.terminal import Terminal
from lessonkit.loading.folder import Loaded
from lessonkit.loading.text import lines_of
from lessonkit.reports.text import TextOptions, write_text
from lessonkit.rules.run import run_rules
from lessonkit.source.finding import Finding, Level, in_reading_order


def findings_of(loaded: Loaded) -> tuple[Finding, ...]:
    """Return what loading, the rules and the audit of its plans find, in reading order."""
    return in_reading_order((*loaded.findings, *run_rules(loaded.library, loaded.records)))


@lru_cache(maxsize=4)
def _lines(path: str) -> list[str]:
    try:
        return lines_of(Path(path).read_text("utf-8-sig", errors="replace"))
    except OSError:
        return []


def line_of(path: str, number: int) -> str | None:
    """Return a line of a file (from 1) for showing it, None where it cannot be had."""
    lines = _lines(path)
    return lines[number - 1] if number <= len(lines) else None


def refuse_errors(loaded: Loaded, terminal: Terminal, leave_out: tuple[str, ...] = ()) -> bool:
    """Show the errors of a curriculum and return True where there are any; other work must wait until they are mended.

    Errors in records of the kinds ``leave_out`` do not count: a plan that no longer fits is what planning mends.
    """
    kinds = {record.path: record.kind for record in loaded.records}
    errors = tuple(
        finding
        for finding in findings_of(loaded)
        if finding.level is Level.ERROR and kinds.get(finding.location.path) not in leave_out
    )
    if not errors:
        return False
    terminal.line(write_text(errors, loaded.files, line_of, TextOptions(terminal.width, terminal.colour)))
    terminal.error("Mend the errors first.")
    return True
