"""Check a few changed records again, and say what a check of everything would say.

This goes only where nothing else can have changed: the same records under the same ids, and in the changed ones no
other fields than those that no other record's check reads. Nor may a finding elsewhere point into a changed file, an
audit have something to say in one, or the audits, which wait for errors to go, begin or end. For anything else None is
returned, and the whole is checked.
"""

import sys
from collections.abc import Iterable, Mapping
from types import ModuleType
from typing import Any, Final

from lessonkit.commands.kept_check import Files, mark_of
from lessonkit.commands.kept_findings import finding_of, plain, plain_remark
from lessonkit.commands.known_records import Known
from lessonkit.commands.outward import outward_mark
from lessonkit.commands.shelf import NotAsKnownError, Shelf
from lessonkit.loading.codes import SAME_ID
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.planning.codes import PLAN_CODES
from lessonkit.records.library import Library
from lessonkit.rules.rule import Context
from lessonkit.rules.run import check_records
from lessonkit.source.finding import Level

MOST: Final = 200
"""Changed files above which checking everything is not much dearer."""
_AUDITS: Final = frozenset(code.name for code in PLAN_CODES)
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
    files = {name: _again(content, name, known) for name, content in changed.items()}
    others = [finding for finding in known.found if finding[3][0] not in changed]
    before = [finding for finding in known.found if finding[3][0] in changed]
    if any(there[0] in changed for finding in others for there, _ in finding[7]):
        raise NotAsKnownError
    shelf = Shelf(looked, known, files)
    after = _found(shelf.library(), files, known, before)
    if not _audits_stay(before, after, others, known):
        raise NotAsKnownError
    remarks = _remarks(files, known, shelf)
    marks = {name: (mark_of(content), _outward(files[name])) for name, content in changed.items()}
    news = {"records": {**known.changed, **marks}, "found": [*others, *after], "remarks": remarks}
    if sorted(map(repr, before)) == sorted(map(repr, after)) and remarks == known.remarks():
        news["said"] = known.said
    else:
        news["said"] = _said(news["found"], remarks, shelf, known)
    if not shelf.is_unchanged(changed):
        raise NotAsKnownError
    return news


def _again(content: bytes, name: str, known: Known) -> LoadedFile:
    """Read a changed file; nothing that other records' checks read may be another."""
    loaded = known.load(content, name)
    if loaded.record is None or known.outward(name) != outward_mark(loaded.record):
        raise NotAsKnownError
    return loaded


def _outward(file: LoadedFile) -> bytes:
    return b"" if file.record is None else outward_mark(file.record)


def _found(library: Library, files: Mapping[str, LoadedFile], known: Known, before: Iterable[Any]) -> list[Any]:
    """Return what is found in the changed files, in plain values; ``before`` is what was found in them."""
    broken = known.kept["broken"]
    items_known = not any(kind in ("equipment", None) for _, kind in broken)
    context = Context(library, frozenset(id_ for id_, _ in broken), items_known)
    there = {(finding[3][0], finding[0][1]) for finding in before}
    found = [plain(finding) for file in files.values() for finding in file.findings]
    for name, file in files.items():
        if file.record is not None:
            rules = _rules(file.record.kind, known, {code for path, code in there if path == name})
            found += map(plain, check_records((file.record,), context, rules))
    return found


def _rules(kind: str, known: Known, there: set[str]) -> tuple[ModuleType, ...]:
    """Return the rules for a kind; of those that read all records only what found something in the record before."""
    rules = []
    for name, code in known.section(f"rules of {kind}"):
        if code not in READS_ALL or code in there:
            __import__(name)
            rules.append(sys.modules[name])
    return tuple(rules)


def _audits_stay(before: Iterable[Any], after: Iterable[Any], others: Iterable[Any], known: Known) -> bool:
    """Tell whether the audits say what they said: nothing in changed files, and errors keep none from speaking now."""
    if any(finding[0][1] in _AUDITS for finding in before):
        return False
    kinds, was, is_now = known.kept["kinds"], _with_errors(before), _with_errors(after)
    if "plan" in kinds and any(path in known.names("plan").values() for path in was ^ is_now):
        return False
    return "year-map" not in kinds or bool(was) == bool(is_now) or bool(_with_errors(others))


def _with_errors(found: Iterable[Any]) -> set[str]:
    """Return the files with an error that the audits wait for."""
    return {finding[3][0] for finding in found if finding[1] == Level.ERROR and finding[0][1] not in _AUDITS}


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
