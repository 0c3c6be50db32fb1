"""Which plan a command is asked about."""

from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import no_such, quoted

if TYPE_CHECKING:
    from lessonkit.records.library import Library
    from lessonkit.records.plan import Plan


def name_of(wanted: str) -> str:
    """Return the id of the plan that a user named by its id or file."""
    return Path(wanted.replace("\\", "/")).stem if wanted.endswith(".yaml") else wanted


def wanted_plan(library: "Library", wanted: str | None, folder: str | None) -> "Plan":
    """Return a plan by its id or file; without one, the only plan there is. Raises CannotRunError where that fails.

    ``folder`` is the curriculum's, as the user named it.
    """
    plans = library.plans
    if not plans:
        named = "" if wanted is None else f" {quoted(wanted)}"
        raise CannotRunError(f"there is no plan{named} yet; make the plans with: {call('sequence', folder)}")
    if wanted is None and len(plans) == 1:
        return next(iter(plans.values()))
    if wanted is None:
        raise CannotRunError(f"say which plan: {', '.join(sorted(plans))}.")
    name = name_of(wanted)
    if name not in plans:
        raise no_such("plan", wanted, plans, folder)
    return plans[name]
