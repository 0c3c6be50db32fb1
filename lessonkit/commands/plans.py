"""Which plan a command is asked about."""

from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.calls import call, pasted
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import no_such, quoted

if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded
    from lessonkit.records.plan import Plan


def name_of(wanted: str) -> str:
    """Return the id of the plan that a user named by its id or file."""
    return Path(wanted.replace("\\", "/")).stem if wanted.endswith(".yaml") else wanted


def refuse_unread(name: str | None, loaded: "Loaded", kind: str | None = None) -> None:
    """Refuse the name of a record whose file cannot be read, and say how to see why. Raises CannotRunError.

    Where no record of a ``kind`` could be read, but a file says that it is one, it is refused as well.
    """
    names, kinds = {record.id for record in loaded.records}, {record.kind for record in loaded.records}
    for file in loaded.broken:
        if (name == file.id and name not in names) or (kind is not None and kind == file.written and kind not in kinds):
            see = call(f"check {pasted(file.path)}", None)
            raise CannotRunError(f"{file.path} cannot be read; to see why: {see}")


def wanted_plan(loaded: "Loaded", wanted: str | None, folder: str | None) -> "Plan":
    """Return a plan by its id or file; without one, the only plan there is. Raises CannotRunError where that fails.

    ``folder`` is the curriculum's, as the user named it.
    """
    plans = loaded.library.plans
    refuse_unread(None if wanted is None else name_of(wanted), loaded, "plan")
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
