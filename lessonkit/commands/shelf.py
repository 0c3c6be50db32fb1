"""The records of a curriculum that a check knew, each of which is read again only when it is asked for."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Generic, TypeVar

from lessonkit.commands.kept_check import Files, content_of
from lessonkit.commands.known_records import Known, NotAsKnownError, body_of
from lessonkit.loading.loaded_file import LoadedFile
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
from lessonkit.source.walk import stamp_of

R = TypeVar("R", Activity, Catalogue, Framework, Plan, School, Settings, Skill, Unit, Year, YearMap)


class Shelf:
    """The records of a curriculum; ``files`` are those that have changed, as they were read anew."""

    def __init__(self, looked: Files, known: Known, files: Mapping[str, LoadedFile]) -> None:
        self.paths = tuple(looked)
        self._files = looked
        self.known = known
        self._read: dict[str, AnyRecord] = {name: file.record for name, file in files.items() if file.record}

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
        return Table(self, type_, kind, self.known)

    def record(self, name: str) -> AnyRecord:
        """Return the record of a file."""
        found = self._read.get(name)
        if found is None:
            found = self._read[name] = self._fetch(name)
        return found

    def _fetch(self, name: str) -> AnyRecord:
        bodies = self.known.section("bodies")
        if name in bodies and name not in self.known.changed:
            return body_of(*bodies[name])
        if name not in self._files:
            from lessonkit.loading.folder import shipped_frameworks

            return next(each for each in shipped_frameworks() if each.path == name)
        content = content_of(self._files[name][0])
        record = None if content is None else self.known.load(content, name, seen=True).record
        if record is None:
            raise NotAsKnownError
        return record

    def is_unchanged(self, changed: Iterable[str]) -> bool:
        """Tell whether all files that were read are still those that were looked at before."""
        names = {*changed, *self._read} & self._files.keys()
        return all(stamp_of(self._files[name][0]) == self._files[name][1] for name in sorted(names))


class Table(Mapping[str, R], Generic[R]):
    """The records of one kind by id, each read when it is asked for; so are their names."""

    def __init__(self, shelf: Shelf, type_: type[R], kind: str, known: Known) -> None:
        self._shelf = shelf
        self._type: type[R] = type_
        self._kind = kind
        self._known = known

    def _names(self) -> dict[str, str]:
        return self._known.names(self._kind)

    def __getitem__(self, key: str) -> R:
        found = self._shelf.record(self._names()[key])
        if not isinstance(found, self._type):
            raise NotAsKnownError
        return found

    def __contains__(self, key: object) -> bool:
        return key in self._names()

    def __iter__(self) -> Iterator[str]:
        return iter(self._names())

    def __len__(self) -> int:
        return len(self._names())
