"""Everything that a check finds in a loaded curriculum."""

from functools import lru_cache
from pathlib import Path

from lessonkit.loading.folder import Loaded
from lessonkit.loading.text import lines_of
from lessonkit.rules.run import run_rules
from lessonkit.source.finding import Finding, in_reading_order


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
