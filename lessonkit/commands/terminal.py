"""Where a command speaks: width, colour and letters that the terminal can show."""

import os
import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import TextIO

JOINT = "\ue000"
"""Stands for a space inside a command, so that no sentence is folded there; it is printed as a space."""
_PLAIN = {
    "\u2013": "-",
    "\u2014": "-",
    "\u2018": "'",
    "\u2019": "'",
    "\u201c": '"',
    "\u201d": '"',
    "\u2026": "...",
    "\u00d7": "x",
    "\u00b7": "-",
    "\u2192": "->",
    "\u2265": "at least",
    "\u2264": "at most",
    "\u00a0": " ",
    "\u2022": "*",
    "\u2500": "-",
    "\u2502": "|",
    "\u2610": "[ ]",
}


class Terminal:
    """Standard output and error, with what they can show.

    ``width`` is in characters, at most 80 unless the user's terminal is narrower; ``colour`` is off when the output is
    not a terminal or NO_COLOR is set (see no-color.org); ``ascii`` is on when the output cannot show letters beyond
    ASCII.
    """

    def __init__(self, out: "TextIO", err: "TextIO", environment: dict[str, str]) -> None:
        self._out = out
        self._err = err
        self.interactive = err.isatty()
        self.width = _width(environment)
        self.colour = out.isatty() and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"
        self.ascii = not _can_show(out, "\u2013\u2610\u2192")
        self._status = ""

    def line(self, words: str = "") -> None:
        """Print one line."""
        self.status("")
        print(self.spell(words), file=self._out)

    def tell(self, words: str, indent: str = "") -> None:
        """Print a sentence, in as many lines as it needs; names and paths stay whole."""
        for line in self._folded(words, indent):
            self.line(line)

    def tell_error(self, words: str) -> None:
        """Print a sentence to standard error, in as many lines as it needs."""
        for line in self._folded(words, ""):
            self.error(line)

    def _folded(self, words: str, indent: str) -> "list[str]":
        import textwrap

        return textwrap.wrap(
            words,
            self.width,
            initial_indent=indent,
            subsequent_indent=f"{indent}  ",
            break_long_words=False,
            break_on_hyphens=False,
        )

    def whole(self, text: str) -> None:
        """Print a text that has its own line ends, and nothing more."""
        self.status("")
        self._out.write(self.spell(text))

    def error(self, words: str) -> None:
        """Print one line to standard error."""
        self.status("")
        print(self.spell(words), file=self._err)

    def status(self, words: str) -> None:
        """Show a line of progress that the next one replaces; nothing where nobody is watching."""
        if not self.interactive or words == self._status:
            return
        shown = self.spell(words)[: self.width - 1]
        self._err.write("\r" + shown + " " * max(0, len(self._status) - len(shown)) + ("" if words else "\r"))
        self._err.flush()
        self._status = shown

    def spell(self, words: str) -> str:
        """Return the words in letters the terminal can show."""
        words = words.replace(JOINT, " ")
        if not self.ascii:
            return words
        for fine, plain in _PLAIN.items():
            words = words.replace(fine, plain)
        return words.encode("ascii", "replace").decode("ascii")


def open_terminal() -> Terminal:
    """Return the terminal that the program was started in; what nobody can read, as its stream is closed, is lost."""
    if sys.stdout is None or sys.stderr is None:
        nowhere = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115, PTH123 - open to the end; no path needed.
        sys.stdout, sys.stderr = sys.stdout or nowhere, sys.stderr or nowhere
    return Terminal(sys.stdout, sys.stderr, dict(os.environ))


def _width(environment: dict[str, str]) -> int:
    given = environment.get("COLUMNS", "")
    columns = int(given) if given.isdigit() else _real_columns()
    return max(40, min(columns, 80))


def _real_columns() -> int:
    try:
        return os.get_terminal_size().columns
    except OSError:
        return 80


def _can_show(out: "TextIO", words: str) -> bool:
    try:
        words.encode(out.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
