"""Which errors of a curriculum stand in the way of other work, and saying so; what is wrong elsewhere need not wait."""

from collections.abc import Collection, Iterable, Iterator
from typing import Final

from lessonkit.commands.calls import call
from lessonkit.commands.checking import findings_of, is_whole
from lessonkit.commands.lines import line_of
from lessonkit.commands.terminal import Terminal
from lessonkit.loading.folder import Loaded
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.reports.text import TextOptions, write_text
from lessonkit.rules import aim_unserved, builds_on_in_circle, parts_cannot_fill
from lessonkit.source.finding import Finding, Level

_EXPLAINED: Final = frozenset((aim_unserved.RULE.code, parts_cannot_fill.RULE.code))
"""Errors of a request that planning explains better, with ways out."""


def refuse_errors(
    loaded: Loaded,
    terminal: Terminal,
    leave_out: tuple[str, ...] = (),
    units: Collection[str] | None = None,
    *,
    named: bool = False,
) -> bool:
    """Show the errors of a curriculum and return True where there are any; other work must wait until they are mended.

    Errors in records of the kinds ``leave_out`` do not count: a plan that no longer fits is what planning mends. Where
    only some ``units`` (by id) are to be planned, errors in other requests do not count either, nor what planning
    explains with ways out. A request that cannot be read may be one of them, unless they were ``named`` one by one.
    """
    kinds = _kinds(loaded)
    spared = {record.path: record.id not in units for record in loaded.records if record.kind == "unit" and units}
    if named and units:
        for file in loaded.broken:
            if file.written == "unit":
                spared[file.path] = spared.get(file.path, True) and file.id not in units
    return _refuse(
        [
            finding
            for finding in _errors(loaded)
            if kinds.get(finding.location.path) not in leave_out
            and not spared.get(finding.location.path)
            and not (finding.location.path in spared and finding.code in _EXPLAINED)
        ],
        loaded,
        terminal,
    )


def refuse_errors_of_plans(loaded: Loaded, plans: Iterable[Plan], folder: str | None, terminal: Terminal) -> bool:
    """Show the errors of what the pages of some plans rest on, and return True where there are any.

    What is wrong in other records is one sentence; ``folder`` is the curriculum's, as the user named it. Where a plan
    rests on a file that could not be read, or activities build on each other in a circle, every error counts.
    """
    wanted, errors = list(plans), list(_errors(loaded))
    if all(is_whole(plan, loaded) for plan in wanted) and builds_on_in_circle.RULE.code not in {e.code for e in errors}:
        needed = {record.path for plan in wanted for record in _needed(plan, loaded)}
        others = [finding for finding in errors if finding.location.path not in needed]
        errors = [finding for finding in errors if finding.location.path in needed]
        if others and not errors:
            what = "1 error" if len(others) == 1 else f"{len(others)} errors"
            see = call("check", folder)
            terminal.tell_error(f"These pages do not rest on {what} in other records; to see what is wrong: {see}")
    return _refuse(errors, loaded, terminal)


def _needed(plan: Plan, loaded: Loaded) -> Iterator[Record]:
    """Yield the records that a plan's pages rest on, and those that have taken the id of one; all of equipment."""
    unit = loaded.library.units[plan.unit]
    names = {("plan", plan.id), ("unit", unit.id), ("school", plan.school), ("outcomes", unit.framework)}
    names |= {("skill", skill) for skill in unit.skills}
    names |= {("activity", slot.activity) for lesson in plan.lessons for slot in lesson.activities}
    for record in loaded.records:
        if record.kind == "equipment" or (record.kind, record.id) in names:
            yield record


def _errors(loaded: Loaded) -> Iterator[Finding]:
    return (finding for finding in findings_of(loaded) if finding.level is Level.ERROR)


def _kinds(loaded: Loaded) -> dict[str, str | None]:
    """Return the kinds of all files, of those without a record as far as they say it."""
    known: dict[str, str | None] = {file.path: file.written for file in loaded.broken}
    return known | {record.path: record.kind for record in loaded.records}


def _refuse(errors: Collection[Finding], loaded: Loaded, terminal: Terminal) -> bool:
    if not errors:
        return False
    text = write_text(tuple(errors), loaded.files, line_of, TextOptions(terminal.width, terminal.colour))
    terminal.line(text)
    terminal.error("Mend the errors first.")
    return True
