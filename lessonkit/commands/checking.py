"""Everything that a check finds in a loaded curriculum."""

from collections.abc import Collection, Iterable, Iterator, Sequence, Set
from functools import partial
from pathlib import Path

from lessonkit.commands.cores import spread
from lessonkit.loading.file import load_file
from lessonkit.loading.folder import Loaded
from lessonkit.loading.places import locate
from lessonkit.planning.codes import PLAN_BROKEN, PLAN_CODES, PLAN_OUTDATED, YEAR_BROKEN, YEAR_OUTDATED, YEAR_START
from lessonkit.records.library import AnyRecord, Library, build_library
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.year import YearMap
from lessonkit.rules import builds_on_in_circle
from lessonkit.rules.run import run_rules
from lessonkit.rules.silence import apply_silence
from lessonkit.source.finding import Code, Finding, Level, in_reading_order
from lessonkit.source.location import FieldPath

Broken = tuple[tuple[FieldPath, str], ...]
_FEW = 2
"""Things broken in an outdated plan that are each said."""


def findings_of(loaded: Loaded) -> tuple[Finding, ...]:
    """Return what loading, the rules and the audit of its plans find and nothing silences, in reading order."""
    return silenced(all_findings(loaded), loaded)


def all_findings(loaded: Loaded) -> tuple[Finding, ...]:
    """Return what loading, the rules and the audit of plans find, silenced or not."""
    found = (*loaded.findings, *in_reading_order(spread(partial(_rules, loaded), loaded.records)))
    unsound = {finding.location.path for finding in found if finding.level is Level.ERROR}
    circular = any(finding.code == builds_on_in_circle.RULE.code for finding in found)
    return (*found, *_audits(loaded, unsound, circular), *year_audits(loaded, unsound))


def findings_in(changed: Set[str], loaded: Loaded) -> tuple[Finding, ...]:
    """Return what is found now in some files that have changed since the others were loaded, in reading order.

    Of the audits only those of changed plans are made.
    """
    files = [load_file(Path(path), path) for path in sorted(changed)]
    records = [file.record for file in files if file.record]
    others = (*loaded.records, *loaded.library.frameworks.values())
    everything = [*(record for record in others if record.path not in changed), *records]
    remarks = [remark for remark in loaded.remarks if remark.location.path not in changed]
    now = loaded._replace(
        library=build_library(everything),
        records=tuple(records),
        remarks=(*remarks, *(remark for file in files for remark in file.remarks)),
    )
    found = [*(finding for file in files for finding in file.findings), *run_rules(now)]
    unsound = {finding.location.path for finding in found if finding.level is Level.ERROR}
    found += audits_of((record for record in records if isinstance(record, Plan)), now, unsound)
    return tuple(finding for finding in silenced(tuple(found), now) if finding.location.path in changed)


def _rules(loaded: Loaded, records: Sequence[AnyRecord]) -> tuple[Finding, ...]:
    """Return what the rules find in some of a curriculum's records."""
    return run_rules(loaded._replace(records=tuple(records)))


def silenced(findings: tuple[Finding, ...], loaded: Loaded) -> tuple[Finding, ...]:
    """Return what of all findings is left to say, in reading order."""
    return apply_silence(findings, loaded, PLAN_CODES)


def _audits(loaded: Loaded, unsound: Collection[str], circular: bool = False) -> Iterator[Finding]:
    """Audit every plan."""
    return audits_of(loaded.library.plans.values(), loaded, unsound, circular)


def audits_of(
    given: Iterable[Plan], loaded: Loaded, unsound: Collection[str], circular: bool = False
) -> Iterator[Finding]:
    """Audit those plans that name only what there is; ``unsound`` are files with errors of their own.

    Where activities build on each other in a circle there is no order to audit plans by, so they wait for its end.
    """
    plans = [plan for plan in given if plan.path not in unsound and is_whole(plan, loaded)]
    if not plans or circular:
        return
    from lessonkit.planning.audit_plan import audit_plan, inputs_changed

    for plan in plans:
        changed = inputs_changed(plan, loaded.library)
        for field, says in _the_first(tuple(audit_plan(plan, loaded.library)), changed is not None):
            yield _finding(PLAN_BROKEN, plan, field, says)
        if changed is not None:
            yield _finding(PLAN_OUTDATED, plan, *changed)


def _the_first(broken: Broken, outdated: bool) -> Broken:
    """Return what is broken in a plan; of an outdated one the first alone, where one change of a record breaks much."""
    if not outdated or len(broken) <= _FEW:
        return broken
    field, says = broken[0]
    return ((field, f"{says} {len(broken) - 1} more things in this plan no longer hold since its records changed."),)


def is_whole(plan: Plan, loaded: Loaded) -> bool:
    """Tell whether all that a plan rests on could be read; a name that leads to a broken file is not a second fault."""
    library = loaded.library
    unit, school = library.units.get(plan.unit), library.schools.get(plan.school)
    if unit is None or school is None or unit.framework not in library.frameworks or unit.school not in library.schools:
        return False
    used = (slot.activity for lesson in plan.lessons for slot in lesson.activities)
    return all(skill in library.skills for skill in unit.skills) and all(_adds_up(one, library) for one in set(used))


def _adds_up(name: str, library: Library) -> bool:
    """Tell whether an activity is there, with minutes in order and items that there are; else it is said at itself."""
    activity = library.activities.get(name)
    if activity is None:
        return False
    minutes = activity.minutes
    return minutes.least <= minutes.usual <= minutes.most and all(n.item in library.items for n in activity.equipment)


def year_audits(loaded: Loaded, unsound: Collection[str]) -> Iterator[Finding]:
    """Audit every year map, and the starts of its units, where no record that it rests on has errors."""
    maps = [found for found in loaded.library.year_maps.values() if _is_sound(found, loaded.library, unsound)]
    if not maps:
        return
    from lessonkit.planning.year.audit import audit_map, case_of, map_outdated, other_starts

    for found in maps:
        case = case_of(found, loaded.library)
        broken = audit_map(found, case)
        for field, says in broken:
            yield _finding(YEAR_BROKEN, found, field, says)
        changed = map_outdated(found, case)
        if changed is not None:
            yield _finding(YEAR_OUTDATED, found, *changed)
        for unit, start, says in () if broken or changed else other_starts(found, loaded.library):
            yield _finding(YEAR_START, unit, ("start",), says, start)


def _is_sound(found: YearMap, library: Library, unsound: Collection[str]) -> bool:
    """Tell whether all that a map rests on could be read without errors: its year, school, units and their skills."""
    year, school = library.years.get(found.year), library.schools.get(found.school)
    if year is None or school is None:
        return False
    asked, mapped = (each.unit for each in year.units), (each.unit for each in found.units)
    units = [library.units.get(unit) for unit in (*asked, *mapped)]
    skills = [library.skills.get(skill) for unit in units if unit for skill in unit.skills]
    rests_on = [found, year, school, library.schools.get(year.school), *units, *skills]
    return all(record is not None and record.path not in unsound for record in rests_on)


def _finding(code: Code, record: Record, field: FieldPath, says: str, repair: str | None = None) -> Finding:
    return Finding(code, code.level, says, locate(record.path, field), record.id, field, repair=repair)
