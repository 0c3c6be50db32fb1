"""Which plan a command is asked about."""

from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.cannot import CannotRunError
from lessonkit.source.closest import closest

if TYPE_CHECKING:
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan


def wanted_plan(library: "Library", wanted: str | None) -> "Plan":
    """Return a plan by its id or file; without one, the only plan there is. Raises CannotRunError where that fails."""
    plans = library.plans
    if not plans:
        raise CannotRunError("there is no plan yet; make one with: lessonkit sequence")
    if wanted is None and len(plans) == 1:
        return next(iter(plans.values()))
    if wanted is None:
        raise CannotRunError(f"say which plan: {', '.join(sorted(plans))}.")
    name = Path(wanted).stem if wanted.endswith(".yaml") else wanted
    if name not in plans:
        meant = closest(name, plans)
        raise CannotRunError(f"there is no plan {wanted!r}." + (f" Did you mean {meant!r}?" if meant else ""))
    return plans[name]
