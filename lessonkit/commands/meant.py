"""What is said about a name that nothing has: what was probably meant, or what there is."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Final

from lessonkit.commands.calls import call, pasted
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import JOINT

_MOST: Final = 12
"""Names that are listed; with more, the way to see them all is said."""
_SHOWN: Final = ("activity", "plan", "skill", "unit", "year")
"""What ``lessonkit show`` lists by name."""
_FEW: Final = 3
"""Names that hold the word written, and are all asked about."""


def no_such(what: str, written: str, known: Iterable[str], folder: str | None) -> CannotRunError:
    """Return why ``written`` cannot be used as the name of a ``what``, such as ``plan``.

    ``folder`` is the curriculum's, as the user named it.
    """
    kinds = f"{what}es" if what.endswith("s") else f"{what}s"
    help_ = meant(written, sorted(known), kinds, call("show", folder) if what in _SHOWN else "")
    return CannotRunError(f"there is no {what} {quoted(written)}. {help_}".rstrip())


def meant(written: str, known: Iterable[str], kinds: str = "", all_names: str = "") -> str:
    """Return the sentence that helps with a name that nothing has.

    ``kinds`` is the plural of what was asked for; ``all_names`` is the command that shows them all, where there is one.
    """
    from lessonkit.source.closest import closest

    names = list(dict.fromkeys(known))
    near = closest(written, names)
    holding = [name for name in names if written and written.lower() in name.lower()]
    if near or 0 < len(holding) <= _FEW:
        return f"Did you mean {_either([near] if near else holding)}?"
    if not names:
        return f"This curriculum has no {kinds} yet." if kinds else ""
    if len(names) <= _MOST or not all_names:
        return f"There are: {', '.join(names)}."
    return f"See all names with: {all_names}"


def refuse_folder(name: str | None) -> None:
    """Refuse the name of a folder where that of a record is wanted, before anything else is read."""
    if name and Path(name).is_dir():
        way = f"--in {pasted(name)}".replace(" ", JOINT)
        raise CannotRunError(f"{quoted(name)} is a folder; to work in it, write: {way}")


def day_given(written: str) -> date:
    """Return the day of the calendar that a user wrote, or refuse it in a sentence."""
    try:
        return date.fromisoformat(written)
    except ValueError:
        raise CannotRunError(f"{quoted(written)} is not a day; write year-month-day, such as 2027-01-18.") from None


def quoted(written: str) -> str:
    """Return what a user wrote in quotation marks, as it was written."""
    return f"'{written}'"


def _either(names: list[str]) -> str:
    shown = [quoted(name) for name in names]
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} or {shown[-1]}"
