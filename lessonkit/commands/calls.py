"""Commands as a user can copy them: with the folder that was named, in quotes where a shell needs them, on one line."""

from pathlib import Path
from typing import Final

from lessonkit.commands.terminal import JOINT
from lessonkit.source.pattern import Pattern

_FOLDER_LAST: Final = ("check", "export", "revise", "sequence", "year")
"""Commands that have the folder as their last word; the others have it after ``--in``."""
_PLAIN: Final = Pattern(r"[\w./:@%+,=-]+")
_SPECIAL: Final = frozenset('"$`!')
"""Signs that some shell reads even between double quotes."""


def call(words: str, folder: str | None) -> str:
    """Return a command as a user writes it who works on the folder given (None: the usual one).

    It is not broken over lines where the terminal folds the sentence around it.
    """
    if folder is None:
        return f"lessonkit {words}".replace(" ", JOINT)
    before = "" if words.split(maxsplit=1)[0] in _FOLDER_LAST else "--in "
    return f"lessonkit {words} {before}{pasted(folder)}".replace(" ", JOINT)


def call_revise(folder: str | None, page: Path) -> str:
    """Return the command that shows all that was changed on a page."""
    return call(f"revise {pasted(page.as_posix())}", folder)


def pasted(word: str) -> str:
    """Return a name of a file or folder as every shell takes it for one word."""
    word = word.rstrip("\\") or word
    if _PLAIN.fullmatch(word):
        return word
    if not _SPECIAL & set(word):
        return f'"{word}"'
    import shlex

    return shlex.quote(word)
