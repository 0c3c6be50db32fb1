"""The lines of files, for showing a finding in its text."""

from functools import lru_cache
from pathlib import Path

from lessonkit.loading.text import lines_of


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


def forget_lines() -> None:
    """Read files anew when they are asked for again, since they may have changed."""
    _lines.cache_clear()
