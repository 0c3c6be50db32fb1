"""Check a few changed activities again, and say what a check of everything would say.

This goes only where nothing else can have changed: the same records under the same ids, the changed ones activities as
before, and in them no other fields than those that no other record's check reads. Nor may a finding elsewhere point
into a changed file, or the year maps' audit, which waits for the last error, begin or end. For anything else None is
returned, and the whole is checked.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final, Generic, TypeVar

from lessonkit.commands.kept_findings import finding_of, plain, plain_remark, remark_of
from lessonkit.commands.known_records import body_of
from lessonkit.commands.outward import outward_mark
from lessonkit.commands.recall import Before, Checked, save
from lessonkit.loading.codes import SAME_ID
from lessonkit.loading.file import load_content, read_content
from lessonkit.loading.folder import Broken, Loaded, shipped_frameworks
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.loading.record_files import mark_of
from lessonkit.planning.codes import PLAN_CODES
from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Catalogue
from lessonkit.records.framework import Framework
from lessonkit.records.library import AnyRecord, Library, items_of
from lessonkit.records.plan import Plan
from lessonkit.records.school import School
from lessonkit.records.settings import Settings
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year, YearMap
from lessonkit.rules.run import run_rules
from lessonkit.source.finding import Finding, Level, in_reading_order
from lessonkit.source.walk import stamp_of

MOST: Final = 200
"""Changed files above which checking everything is not much dearer."""
_AUDITS: Final = frozenset(code.name for code in PLAN_CODES)

R = TypeVar("R", Activity, Catalogue, Framework, Plan, School, Settings, Skill, Unit, Year, YearMap)


class NotAsKnownError(Exception):
    """A record is not as the last check knew it, so that all must be checked."""


def recheck(now: Before, known: dict[str, Any], changed: Mapping[str, bytes]) -> Checked | None:
    """Return what a check finds when only some files have changed, and keep it; None where all must be checked.

    ``known`` is what the last check knew, ``changed`` the contents of the files that have changed.
    """
    try:
        return _recheck(now, known, changed)
    except (NotAsKnownError, OSError):
        return None


def _recheck(now: Before, known: dict[str, Any], changed: Mapping[str, bytes]) -> Checked:
    if len(changed) > MOST or any(finding[0][1] == SAME_ID.name for finding in known["found"]):
        raise NotAsKnownError
    files = {name: _again(content, name, known) for name, content in changed.items()}
    others = [finding for finding in known["found"] if finding[3][0] not in changed]
    if any(there[0] in changed for finding in others for there, _ in finding[7]):
        raise NotAsKnownError
    shelf = Shelf(now, known, files)
    loaded = _loaded(shelf, files, known)
    own = run_rules(loaded)
    found = [*others, *map(plain, (*loaded.findings, *own))]
    if _unsound(found) != _unsound(known["found"]) and "year-map" in known["names"]:
        raise NotAsKnownError
    every = _said(tuple(map(finding_of, found)), loaded)
    kept = None
    if shelf.is_unchanged(changed):
        marks = {**known["marks"], **{name: mark_of(content) for name, content in changed.items()}}
        news = {"marks": marks, "remarks": [plain_remark(each) for each in loaded.remarks], "found": found}
        kept = save(now, {**known, **news, "said": [plain(finding) for finding in every]})
    return Checked(tuple(now.files), every, kept)


def _again(content: bytes, name: str, known: dict[str, Any]) -> LoadedFile:
    """Read a changed file; nothing that other records' checks read may be another."""
    loaded = load_content(content, name)
    record = loaded.record
    if not isinstance(record, Activity) or known["outward"].get(name) != outward_mark(record):
        raise NotAsKnownError
    return loaded


def _said(found: tuple[Finding, ...], loaded: Loaded) -> tuple[Finding, ...]:
    """Return what silences leave of all findings; where there are none, they need not even be loaded."""
    if not loaded.remarks and not loaded.library.settings:
        return in_reading_order(found)
    from lessonkit.commands.checking import silenced

    return silenced(found, loaded)


def _unsound(found: Iterable[Any]) -> bool:
    """Tell whether there is any error that the audits wait for."""
    return any(finding[1] == Level.ERROR and finding[0][1] not in _AUDITS for finding in found)


def _loaded(shelf: "Shelf", files: Mapping[str, LoadedFile], known: dict[str, Any]) -> Loaded:
    """Return the curriculum with the changed files as its own records, and the others on their shelf."""
    findings: list[Finding] = []
    remarks = [remark_of(each) for each in known["remarks"] if each[1][0] not in files]
    records: list[AnyRecord] = []
    for file in files.values():
        findings.extend(file.findings)
        remarks.extend(file.remarks)
        records += [file.record] if file.record else []
    library = shelf.library()
    records += library.settings.values()
    if remarks:
        order = {name: place for place, name in enumerate(shelf.paths)}
        remarks.sort(key=lambda each: (order[each.location.path], each.location.line, each.location.column))
    broken = tuple(Broken(*each) for each in known["broken"])
    return Loaded(library, tuple(records), tuple(findings), len(shelf.paths), "", broken, shelf.paths, tuple(remarks))


class Shelf:
    """The records of a curriculum, each of which is read when it is asked for."""

    def __init__(self, now: Before, known: dict[str, Any], files: Mapping[str, LoadedFile]) -> None:
        self.paths = tuple(now.files)
        self._files = now.files
        self._bodies: dict[str, tuple[str, bytes]] = known["bodies"]
        self._read: dict[str, AnyRecord] = {name: file.record for name, file in files.items() if file.record}
        self._names: dict[str, dict[str, str]] = known["names"]

    def library(self) -> Library:
        """Return the library of all records."""
        catalogues = self._table("equipment", Catalogue)
        return Library(
            activities=self._table("activity", Activity),
            catalogues=catalogues,
            frameworks=self._table("outcomes", Framework),
            plans=self._table("plan", Plan),
            schools=self._table("school", School),
            settings=self._table("settings", Settings),
            skills=self._table("skill", Skill),
            units=self._table("unit", Unit),
            years=self._table("year", Year),
            year_maps=self._table("year-map", YearMap),
            items=items_of(catalogues.values()),
        )

    def _table(self, kind: str, type_: type[R]) -> "Table[R]":
        return Table(self, type_, self._names.get(kind, {}))

    def record(self, name: str) -> AnyRecord:
        """Return the record of a file."""
        found = self._read.get(name)
        if found is None:
            found = self._read[name] = self._fetch(name)
        return found

    def _fetch(self, name: str) -> AnyRecord:
        if name in self._bodies:
            return body_of(*self._bodies[name])
        if name not in self._files:
            return next(each for each in shipped_frameworks() if each.path == name)
        content = read_content(self._files[name][0], name)
        record = None if isinstance(content, Finding) else load_content(content, name).record
        if record is None:
            raise NotAsKnownError
        return record

    def is_unchanged(self, changed: Iterable[str]) -> bool:
        """Tell whether all files that were read are still those that were looked at before."""
        names = {*changed, *self._read} & self._files.keys()
        return all(stamp_of(self._files[name][0]) == self._files[name][1] for name in sorted(names))


class Table(Mapping[str, R], Generic[R]):
    """The records of one kind by id, each read when it is asked for."""

    def __init__(self, shelf: Shelf, type_: type[R], names: dict[str, str]) -> None:
        self._shelf = shelf
        self._type: type[R] = type_
        self._names = names

    def __getitem__(self, key: str) -> R:
        found = self._shelf.record(self._names[key])
        if not isinstance(found, self._type):
            raise NotAsKnownError
        return found

    def __contains__(self, key: object) -> bool:
        return key in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)
