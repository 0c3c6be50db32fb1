"""The shortest way through ``check``: where nothing has changed since the last one, its whole answer is said again.

Where a few records have, they are checked again, and where that finds nothing new it is said again as well. Whatever is
not plain here (other options, a folder inside a curriculum, a file that is new) goes the usual way, which
has the same answer. Loads nothing that the usual way loads.
"""

import os
import sys
import time
from types import SimpleNamespace

from lessonkit.commands.kept_check import Files, Question, answers, answers_of, doubtful, look, program, read_dates
from lessonkit.commands.terminal import open_terminal

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import Any

    from lessonkit.commands.terminal import Terminal

DEFAULT_FOLDER = "curriculum"
SIGNS = ("lessonkit.yaml", "school.yaml", "equipment.yaml", "activities", "units", "outcomes")
"""What the top folder of a curriculum holds; one of them is enough."""
seen: "list[tuple[str, int, Files, dict[str, Any], list[str] | None]]" = []
"""For the usual way, the folder that was looked at in vain, the moment in nanoseconds, its files, what is kept of them,
and which may have changed."""
FORMS = ("text", "json", "sarif", "junit", "github")


def answer(words: "Sequence[str]") -> tuple[str, int] | None:
    """Return what the last check with these words said, and its exit code, if it would say the same now."""
    seen.clear()
    asked = plainly_asked(words)
    if asked is None or os.name != "posix":
        return None
    folder, form, no_advice = asked
    shown = _shown(folder)
    if shown is None or not any(os.path.exists(f"{shown}/{sign}") for sign in SIGNS):  # noqa: PTH110
        return None
    owner = program()
    kept = read_dates(shown, shown, owner)
    now = time.time_ns()
    files = None if kept is None else look(shown, shown)
    if kept is None or files is None:
        return None
    names = doubtful(files, kept)
    seen.append((shown, now, files, kept, names))
    if names:
        kept = _renewed()
    if kept is None or names is None:
        return None
    terminal = open_terminal()
    known = answers(shown, shown, owner, answers_of(kept)).get(question_of(form, no_advice, terminal))
    return known and (terminal.spell(known[0]), known[1])


def _renewed() -> "dict[str, Any] | None":
    """Check again what may have changed; the usual way finds it done. None where it has to check everything."""
    from lessonkit.commands.lean import put_off

    put_off()
    from lessonkit.commands.recall import before, renew

    shown, moment, files, kept, _ = seen[0]
    now = before(shown, shown)
    renewed = None if now is None else renew(now)
    seen.append((shown, moment, files, renewed or kept, None if renewed is None else []))
    return renewed


def question_of(form: str, no_advice: bool, terminal: "Terminal") -> Question:
    """Return all that an answer depends on beside the curriculum."""
    return form, no_advice, terminal.width, terminal.colour, terminal.ascii


def plainly_asked(words: "Sequence[str]") -> tuple[str | None, str, bool] | None:
    """Return the folder, the form, and whether advice is left out; None where anything else is asked."""
    folder, form, no_advice = None, "text", False
    left = list(words)
    while left:
        word = left.pop(0)
        if word == "--no-advice":
            no_advice = True
        elif word == "--form" and left and left[0] in FORMS:
            form = left.pop(0)
        elif word and word[0] != "-" and folder is None:
            folder = word
        else:
            return None
    return folder, form, no_advice


def plain_arguments(words: "Sequence[str]") -> SimpleNamespace | None:
    """Return what the command's options are where only plain words are given, without the reader of options."""
    anew = "--no-cache" in words
    asked = plainly_asked([word for word in words if word != "--no-cache"])
    if asked is None:
        return None
    folder, form, no_advice = asked
    off = {"fix": False, "write": False, "watch": False}
    return SimpleNamespace(folder=folder, form=form, no_advice=no_advice, explain=None, no_cache=anew, **off)


def _shown(folder: str | None) -> str | None:
    """Return a folder's name as every finding shows it; None where the usual way has to settle it."""
    if folder is None:
        folder = DEFAULT_FOLDER if os.path.isdir(DEFAULT_FOLDER) else "."  # noqa: PTH112
    if "\\" in folder or folder.startswith("//") or not os.path.isdir(folder):  # noqa: PTH112
        return None
    parts = [part for part in folder.split("/") if part not in ("", ".")]
    return ("/" if folder.startswith("/") else "") + "/".join(parts) or "."


def say(text: str) -> None:
    """Say an answer. A reader that has gone away is no fault."""
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        sys.stderr.close()
