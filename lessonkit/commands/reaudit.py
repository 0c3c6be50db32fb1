"""Audit again, after a change of plans or units, those plans that rest on them, and every map of a year.

An audit reads no other plan than its own, unless a unit wishes its classes back to back, and no other unit than its
plan's; so the other plans' audits say what they said. Maps rest on nearly everything.
"""

from collections.abc import Collection, Iterable, Mapping
from typing import Any, Final

from lessonkit.commands.kept_findings import plain
from lessonkit.commands.known_records import Known, NotAsKnownError
from lessonkit.planning.codes import PLAN_CODES, YEAR_BROKEN, YEAR_OUTDATED, YEAR_START
from lessonkit.records.library import AnyRecord, Library
from lessonkit.records.plan import Plan
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context
from lessonkit.source.finding import Level

AUDITS: Final = frozenset(code.name for code in PLAN_CODES)
OF_YEARS: Final = frozenset(code.name for code in (YEAR_BROKEN, YEAR_OUTDATED, YEAR_START))
_MAPS_REST_ON: Final = ("year-map", "year", "school", "unit", "skill")
"""Kinds of records whose errors the audits of maps wait for."""
CIRCLE: Final = "builds-on-in-circle"


def plans_that_rest_on(moved: Iterable[AnyRecord], library: Library) -> set[str]:
    """Return the files of the plans to audit again when plans and units have changed."""
    from lessonkit.planning.weights import weights

    if any(weights(unit.wishes)["back-to-back"] for unit in library.units.values()):
        raise NotAsKnownError
    units = {record.id for record in moved if isinstance(record, Unit)}
    changed = {record.path for record in moved if isinstance(record, Plan)}
    return changed | {plan.path for plan in library.plans.values() if plan.unit in units}


def audited_again(again: Mapping[str, object], found: Collection[Any], known: Known, context: Context) -> list[Any]:
    """Return what the audits of plans in some files, and of every map, find; ``found`` is all that was found before."""
    from lessonkit.commands.checking import audits_of, year_audits
    from lessonkit.loading.folder import Loaded

    loaded = Loaded(context.library, (), (), 0, "")
    plans = [plan for plan in context.library.plans.values() if plan.path in again]
    unsound, circular = with_errors(found), any(finding[0][1] == CIRCLE for finding in found)
    audits = [*audits_of(plans, loaded, unsound, circular), *year_audits(loaded, unsound)]
    return [plain(finding) for finding in audits]


def audits_stay(before: Iterable[Any], after: Iterable[Any], known: Known) -> bool:
    """Tell whether the audits say what they said: nothing in changed files, and errors keep none from speaking now."""
    if any(finding[0][1] in AUDITS for finding in before):
        return False
    kinds, was, is_now = known.kept["kinds"], with_errors(before), with_errors(after)
    if "plan" in kinds and any(path in known.names("plan").values() for path in was ^ is_now):
        return False
    rests_on = {path for kind in _MAPS_REST_ON if kind in kinds for path in known.names(kind).values()}
    return "year-map" not in kinds or rests_on.isdisjoint(was ^ is_now)


def with_errors(found: Iterable[Any]) -> set[str]:
    """Return the files with an error that the audits wait for."""
    return {finding[3][0] for finding in found if finding[1] == Level.ERROR and finding[0][1] not in AUDITS}
