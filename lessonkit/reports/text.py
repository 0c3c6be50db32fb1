"""Findings as a person reads them in a terminal: place, sentence, the line itself with a mark under it, a hint."""

import textwrap
from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from lessonkit.reports.shown_line import harmless, plain, stretch
from lessonkit.reports.told_as_one import told
from lessonkit.source.finding import Finding, Level, in_reading_order
from lessonkit.source.location import Location

GetLine = Callable[[str, int], str | None]
"""Gives a line of a file by path and number (from 1), None where it is not there any more."""

_COLOURS: Final = {Level.ERROR: "31", Level.WARNING: "33", Level.ADVICE: "36"}


class TextOptions(NamedTuple):
    """How to write: columns a line, whether colour may be used, and whether ASCII letters are all there are."""

    width: int = 80
    colour: bool = False
    ascii: bool = False


def write_text(findings: Sequence[Finding], files: int, get_line: GetLine, options: TextOptions) -> str:
    """Return the report of a check over ``files`` files, file by file, ending in a sentence that counts.

    What is short for very many is told in one piece.
    """
    lines: list[str] = []
    for finding in told(in_reading_order(findings)):
        lines.extend(_finding(finding, get_line, options))
        lines.append("")
    lines.append(summary(findings, files))
    return "\n".join(lines)


def summary(findings: Sequence[Finding], files: int) -> str:
    """Return the closing sentence: how many errors, warnings and pieces of advice, in how many files."""
    read = _count(files, "file")
    if not findings:
        return f"{read} checked: nothing to mend."
    counts = [
        _count(number, word)
        for level, word in ((Level.ERROR, "error"), (Level.WARNING, "warning"), (Level.ADVICE, "piece of advice"))
        if (number := sum(finding.level is level for finding in findings))
    ]
    concerned = len({finding.location.path for finding in findings})
    return f"{', '.join(counts)} in {concerned} of {read}."


def _finding(finding: Finding, get_line: GetLine, options: TextOptions) -> list[str]:
    level = _paint(finding.level.value, finding.level, options)
    place = _spelt(str(finding.location), options)
    lines = [f"{place}: {level} ({finding.code.name})"]
    lines.extend(_fold(finding.says, options))
    lines.extend(_shown(finding.location, get_line, options, finding.level))
    if finding.hint:
        lines.extend(_fold(finding.hint, options, first="  Hint: "))
    for related in finding.related:
        lines.extend(_fold(f"{related.location}: {related.says}", options, first="  See "))
    return lines


def _fold(words: str, options: TextOptions, first: str = "  ") -> list[str]:
    spelt = _spelt(words, options)
    return textwrap.wrap(
        spelt,
        options.width,
        initial_indent=first,
        subsequent_indent="  ",
        break_on_hyphens=False,
        break_long_words=False,
    )


def _shown(place: Location, get_line: GetLine, options: TextOptions, level: Level) -> list[str]:
    line = get_line(place.path, place.line)
    if line is None or not line.strip() or not _is_text(line):
        return []
    gutter = f"{place.line:>5} | "
    end = place.end_column if place.end_line == place.line else len(line) + 1
    text, at, width = stretch(_spelt(line, options), place.column - 1, end - 1, options.width - len(gutter))
    return [f"{gutter}{text.rstrip()}", f"{' ' * (len(gutter) - 2)}| {' ' * at}{_paint('^' * width, level, options)}"]


def _is_text(line: str) -> bool:
    """Whether a line can be shown: one saved as UTF-16 has a zero byte beside every letter."""
    return line.count("\0") * 3 < len(line)


def _spelt(words: str, options: TextOptions) -> str:
    return plain(harmless(words)) if options.ascii else harmless(words)


def _paint(words: str, level: Level, options: TextOptions) -> str:
    return f"\x1b[{_COLOURS[level]}m{words}\x1b[0m" if options.colour else words


def _count(number: int, word: str) -> str:
    if word == "piece of advice":
        return f"{number} {'piece' if number == 1 else 'pieces'} of advice"
    return f"{number} {word}{'' if number == 1 else 's'}"
