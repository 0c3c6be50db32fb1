"""Check a few changed records again, and say what a check of everything would say.

This goes only where it is known what else can have changed: the records are the same under the same ids, and other
records' checks read nothing in the changed ones that has changed, or only such fields of activities as
``dependents.py`` knows to follow. Nor may an audit have something to say in a changed file, or the audits, which wait
for errors to go, begin or end. For anything else None is returned, and the whole is checked.
"""

from collections.abc import Collection, Iterable, Mapping
from types import ModuleType
from typing import Any, Final

from lessonkit.commands.dependents import Dependents, allow, news_of
from lessonkit.commands.kept_check import Files, content_of, mark_of
from lessonkit.commands.kept_findings import finding_of, plain, plain_remark
from lessonkit.commands.known_records import Known, NotAsKnownError
from lessonkit.commands.outward import outward_mark
from lessonkit.commands.reaudit import OF_YEARS, audited_again, audits_stay, plans_that_rest_on
from lessonkit.commands.shelf import Shelf
from lessonkit.loading.codes import SAME_ID
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.records.activity import Activity
from lessonkit.records.library import AnyRecord, Library
from lessonkit.rules.rule import Context
from lessonkit.rules.run import check_records

MOST: Final = 200
"""Changed files above which checking everything is not much dearer."""
READS_ALL: Final = frozenset(("aim-unserved", "equipment-short", "step-without-activity"))
"""Rules that read very many other records, and of their own no field that other records' checks do not read too."""


def recheck(looked: Files, known: Known, changed: Mapping[str, bytes]) -> dict[str, Any] | None:
    """Return what has become of what is known when only some files have changed; None where all must be checked.

    ``changed`` are the contents of the files that have changed.
    """
    try:
        return _recheck(looked, known, changed)
    except (NotAsKnownError, OSError):
        return None


def _recheck(looked: Files, known: Known, changed: Mapping[str, bytes]) -> dict[str, Any]:
    if len({*changed, *known.changed}) > MOST or any(finding[0][1] == SAME_ID.name for finding in known.found):
        raise NotAsKnownError
    files = {name: known.load(content, name) for name, content in changed.items()}
    records = {name: _record(file) for name, file in files.items()}
    shelf = Shelf(looked, known, files)
    context = _context(shelf.library(), known)
    moved = {name: record for name, record in records.items() if known.outward(name) != outward_mark(record)}
    for name in moved:
        allow(records[name], name, known)
    audits = known.audited and any(record.kind != "activity" for record in moved.values())
    plans = plans_that_rest_on(moved.values(), context.library) if audits else set()
    around = _around(shelf, context, records, moved, plans)
    again = {**files, **_read_again((around.builders() | plans) - records.keys(), looked, known)}
    found = _found(around, again, known, context, audits)
    remarks = _remarks(files, known, shelf)
    marks = {name: news_of(records[name], mark_of(content)) for name, content in changed.items()}
    news = {"records": {**known.changed, **marks}, "found": found, "remarks": remarks}
    same = remarks == known.remarks() and sorted(map(repr, found)) == sorted(map(repr, known.found))
    news["said"] = known.said if same else _said(found, remarks, shelf, known)
    if not shelf.is_unchanged(again):
        raise NotAsKnownError
    return news


def _record(file: LoadedFile) -> AnyRecord:
    """Return the record of a file, which must have one."""
    if file.record is None:
        raise NotAsKnownError
    return file.record


def _context(library: Library, known: Known) -> Context:
    broken = known.kept["broken"]
    items_known = not any(kind in ("equipment", None) for _, kind in broken)
    return Context(library, frozenset(id_ for id_, _ in broken), items_known)


def _around(
    shelf: Shelf, context: Context, records: Mapping[str, AnyRecord], moved: Collection[str], plans: Collection[str]
) -> Dependents:
    """Return what depends on the changed activities. ``plans`` are the files of plans that are checked again anyway."""
    activities = {name: record for name, record in records.items() if isinstance(record, Activity)}
    if len(records) > len(activities) and any(name in activities for name in moved):
        raise NotAsKnownError
    there = {
        there[0]
        for finding in shelf.known.found
        if finding[3][0] not in records and finding[3][0] not in plans
        for there, _ in finding[7]
    }
    if any(name in there for name in records if name not in activities):
        raise NotAsKnownError
    changed = {name: record for name, record in activities.items() if name in moved}
    touched = {name: record for name, record in activities.items() if name in moved or name in there}
    around = Dependents(shelf, context, changed, touched)
    if around.has_circle():
        raise NotAsKnownError
    return around


def _read_again(names: Iterable[str], looked: Files, known: Known) -> dict[str, LoadedFile]:
    """Return files that have not changed, read again."""
    files = {}
    for name in sorted(names):
        content = content_of(looked[name][0])
        if content is None or mark_of(content) != known.mark(name):
            raise NotAsKnownError
        files[name] = known.load(content, name, seen=True)
    return files


def _found(
    around: Dependents, again: Mapping[str, LoadedFile], known: Known, context: Context, audits: bool
) -> list[Any]:
    """Return all that is found now, in plain values; ``again`` are the files that are checked again.

    With ``audits`` the plans among them and every map are audited again too.
    """
    before = [finding for finding in known.found if finding[3][0] in again]
    after = [plain(finding) for file in again.values() for finding in file.findings]
    for name, file in again.items():
        rules = _rules(_record(file), name, known, {finding[0][1] for finding in before if finding[3][0] == name})
        after += map(plain, check_records((_record(file),), context, rules))
    for gone, new in around.changes(again):
        before += gone
        after += new
    if audits:
        before += [one for one in known.found if one[0][1] in OF_YEARS and one[3][0] not in again]
    others = list(known.found)
    for finding in before:
        others.remove(finding)
    if audits:
        after += audited_again(again, [*others, *after], known, context)
    elif not audits_stay(before, after, known):
        raise NotAsKnownError
    return [*others, *after]


def _rules(record: AnyRecord, name: str, known: Known, there: set[str]) -> tuple[ModuleType, ...]:
    """Return the rules for a record; of those that read all others only what can say something new.

    ``there`` are the rules that found something in the record before.
    """
    moved = known.outward(name) != outward_mark(record)
    codes = [code for _, code in known.section(f"rules of {record.kind}")]
    return tuple(known.rule(record.kind, code) for code in codes if moved or code not in READS_ALL or code in there)


def _remarks(files: Mapping[str, LoadedFile], known: Known, shelf: Shelf) -> list[Any]:
    """Return the remarks in all files, in reading order."""
    remarks = [each for each in known.remarks() if each[1][0] not in files]
    new = [plain_remark(each) for file in files.values() for each in file.remarks]
    if new or len(remarks) < len(known.remarks()):
        order = {name: place for place, name in enumerate(shelf.paths)}
        remarks = sorted([*remarks, *new], key=lambda each: (order[each[1][0]], each[1][1:]))
    return remarks


def _said(found: Iterable[Any], remarks: list[Any], shelf: Shelf, known: Known) -> list[Any]:
    """Return what silences leave of all findings."""
    from lessonkit.commands.checking import silenced
    from lessonkit.commands.kept_findings import remark_of
    from lessonkit.loading.folder import Broken, Loaded

    library = shelf.library()
    broken = tuple(Broken(*each) for each in known.kept["broken"])
    told = tuple(remark_of(each) for each in remarks)
    settings = tuple(library.settings.values())
    loaded = Loaded(library, settings, (), len(shelf.paths), "", broken, shelf.paths, told)
    return [plain(finding) for finding in silenced(tuple(map(finding_of, found)), loaded)]
