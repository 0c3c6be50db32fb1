"""Every record of a curriculum, by kind and id."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Catalogue, Item
from lessonkit.records.framework import Framework
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.school import School, SchoolClass
from lessonkit.records.settings import Settings
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit
from lessonkit.records.year import Year, YearMap

AnyRecord = Activity | Catalogue | Framework | Plan | School | Settings | Skill | Unit | Year | YearMap

KINDS: Mapping[str, type[AnyRecord]] = {
    "activity": Activity,
    "equipment": Catalogue,
    "outcomes": Framework,
    "plan": Plan,
    "school": School,
    "settings": Settings,
    "skill": Skill,
    "unit": Unit,
    "year": Year,
    "year-map": YearMap,
}
"""Record kinds as written in a file's ``kind`` field."""


@dataclass(frozen=True, slots=True)
class Library:
    """Records by id, one table a kind; ``items`` gathers every catalogue's equipment."""

    activities: Mapping[str, Activity] = field(default_factory=dict)
    catalogues: Mapping[str, Catalogue] = field(default_factory=dict)
    frameworks: Mapping[str, Framework] = field(default_factory=dict)
    plans: Mapping[str, Plan] = field(default_factory=dict)
    schools: Mapping[str, School] = field(default_factory=dict)
    settings: Mapping[str, Settings] = field(default_factory=dict)
    skills: Mapping[str, Skill] = field(default_factory=dict)
    units: Mapping[str, Unit] = field(default_factory=dict)
    years: Mapping[str, Year] = field(default_factory=dict)
    year_maps: Mapping[str, YearMap] = field(default_factory=dict)
    items: Mapping[str, Item] = field(default_factory=dict)

    def classes_of(self, unit: Unit) -> tuple[SchoolClass, ...]:
        """Return the classes that a unit is for, in the order of its school; none where the school is unknown."""
        school = self.schools.get(unit.school)
        return tuple(one for one in school.classes if one.id in unit.classes) if school else ()

    def records(self) -> tuple[Record, ...]:
        """Return every record, by kind and then id."""
        tables: tuple[Mapping[str, Record], ...] = (
            self.frameworks,
            self.catalogues,
            self.skills,
            self.schools,
            self.settings,
            self.activities,
            self.units,
            self.plans,
            self.years,
            self.year_maps,
        )
        return tuple(table[key] for table in tables for key in sorted(table))


def build_library(records: Iterable[AnyRecord]) -> Library:
    """Gather records into a library. Where two of a kind share an id the first one stays."""
    tables: dict[type[AnyRecord], dict[str, AnyRecord]] = {kind: {} for kind in KINDS.values()}
    for record in records:
        tables[type(record)].setdefault(record.id, record)
    catalogues = _table(tables, Catalogue)
    return Library(
        activities=_table(tables, Activity),
        catalogues=catalogues,
        frameworks=_table(tables, Framework),
        plans=_table(tables, Plan),
        schools=_table(tables, School),
        settings=_table(tables, Settings),
        skills=_table(tables, Skill),
        units=_table(tables, Unit),
        years=_table(tables, Year),
        year_maps=_table(tables, YearMap),
        items=items_of(catalogues.values()),
    )


def items_of(catalogues: Iterable[Catalogue]) -> dict[str, Item]:
    """Return the items of catalogues by id. Where two share an id the first one stays."""
    items: dict[str, Item] = {}
    for catalogue in catalogues:
        for item in catalogue.items:
            items.setdefault(item.id, item)
    return items


R = TypeVar("R", Activity, Catalogue, Framework, Plan, School, Settings, Skill, Unit, Year, YearMap)


def _table(tables: Mapping[type[AnyRecord], Mapping[str, AnyRecord]], kind: type[R]) -> dict[str, R]:
    found = tables[kind]
    return {key: record for key, record in found.items() if isinstance(record, kind)}
