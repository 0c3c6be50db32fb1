"""The fields of a record that no check of another record reads are watched, not remembered."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from msgspec import structs

from lessonkit.commands.checking import _audits, year_audits
from lessonkit.commands.outward import APART, INWARD, STEP_OUTWARD, outward_fields, outward_mark
from lessonkit.commands.recheck import READS_ALL
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.records.activity import Activity
from lessonkit.records.library import KINDS, AnyRecord, build_library
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.skill import Skill, Step
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import Context

CURRICULUM = Path(__file__).resolve().parents[2] / "curriculum"
Read = tuple[str, str, str]
_read: set[Read] = set()
STEP_INWARD = set(Step.__struct_fields__) - set(STEP_OUTWARD)


def _watched(kind: type[AnyRecord]) -> type[AnyRecord]:
    """Return a kind of record that remembers which of its fields are read."""
    inward = set(kind.__struct_fields__) if kind is Activity else INWARD.get(_name(kind), frozenset())

    class Watched(kind, frozen=True, kw_only=True):  # type: ignore[valid-type, misc, call-arg]  # a kind in turn
        def __getattribute__(self, name: str) -> object:
            value = super().__getattribute__(name)
            if name in inward:
                _read.add((super().__getattribute__("kind"), super().__getattribute__("id"), name))
            return value

    return Watched


def _name(kind: type[AnyRecord]) -> str:
    return next(name for name, type_ in KINDS.items() if type_ is kind)


class WatchedStep(Step, frozen=True, kw_only=True):
    """A step that remembers which of its fields are read; it belongs to the skill ``of``."""

    of: str

    def __getattribute__(self, name: str) -> object:
        value = super().__getattribute__(name)
        if name in STEP_INWARD:
            _read.add(("skill", super().__getattribute__("of"), name))
        return value


def _watched_step(step: Step, skill: str) -> WatchedStep:
    return WatchedStep(**{name: getattr(step, name) for name in step.__struct_fields__}, of=skill)


WATCHED = {kind: _watched(kind) for kind in KINDS.values()}


def watched(loaded: Loaded, faults: bool) -> Loaded:
    """Return a curriculum with watched records; with ``faults`` one that many rules have something to say about."""
    again: dict[str, tuple[str, ...]] = {}
    for activity in loaded.library.activities.values():
        for earlier in activity.builds_on:
            again[earlier] = (activity.id,)

    def change(record: AnyRecord) -> AnyRecord:
        values = {name: getattr(record, name) for name in record.__struct_fields__}
        if faults and record.kind == "activity":
            values["builds_on"] = (*values["builds_on"], *again.get(record.id, ()), "nowhere")
        if faults and record.kind == "school":
            values["equipment"] = ()
        if isinstance(record, Skill):
            values["steps"] = tuple(_watched_step(step, record.id) for step in record.steps)
        return WATCHED[type(record)](**values)

    plans = [record for record in loaded.records if isinstance(record, Plan)]
    kept = [record for record in loaded.records if not isinstance(record, Plan) or record in plans[:3]]
    records = [change(record) for record in kept]
    real = build_library([*kept, *loaded.library.frameworks.values()])
    by_id = {(record.kind, record.id): record for record in records}

    def table(kind: str, old: object) -> dict[str, AnyRecord]:
        assert isinstance(old, dict)
        return {name: by_id[kind, name] for name in old}

    tables: dict[str, Any] = {
        "activities": table("activity", real.activities),
        "schools": table("school", real.schools),
        "skills": table("skill", real.skills),
        "units": table("unit", real.units),
        "plans": table("plan", real.plans),
        "years": table("year", real.years),
        "year_maps": table("year-map", real.year_maps),
    }
    return loaded._replace(library=replace(real, **tables), records=tuple(records))


def read_elsewhere(loaded: Loaded, audited: bool) -> Iterator[tuple[str, str, str]]:
    """Check everything and give the fields that were read while another record was checked, with the reader."""
    context = Context(loaded.library)
    for record in loaded.records:
        for module in RULES:
            if isinstance(record, module.RULE.kinds):
                _read.clear()
                tuple(module.check(record, context))
                yield from ((kind, name, module.__name__) for kind, name in _others(record))
    _read.clear()
    if audited:
        tuple(_audits(loaded, ()))
        tuple(year_audits(loaded, ()))
    yield from ((kind, name, "audits") for kind, _, name in _read if _is_inward(kind, name))


def _is_inward(kind: str, name: str) -> bool:
    return name in INWARD.get(kind, ()) or (kind == "skill" and name in STEP_INWARD)


def _others(record: Record) -> Iterator[tuple[str, str]]:
    yield from (
        (kind, name)
        for kind, id_, name in tuple(_read)
        if (kind, id_) != (record.kind, record.id) and _is_inward(kind, name)
    )


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    """Load the curriculum that comes with the program."""
    return load_folder(CURRICULUM, CURRICULUM.as_posix())


@pytest.mark.parametrize("faults", [False, True])
def test_only_outward_fields_are_read_elsewhere(loaded: Loaded, faults: bool) -> None:
    """No rule reads an inward field of another record than its own, and no audit (which needs no faults) any."""
    assert set() == set(read_elsewhere(watched(loaded, faults), not faults))


def test_rules_that_read_all_records_read_no_inward_field(loaded: Loaded) -> None:
    """So they need not run again where only such fields have changed."""
    around = watched(loaded, False)
    names = {module.RULE.code.name: module for module in RULES}
    _read.clear()
    for record in around.records:
        for name in READS_ALL:
            if isinstance(record, names[name].RULE.kinds):
                tuple(names[name].check(record, Context(around.library)))

    assert set() == {(kind, name) for kind, _, name in _read if _is_inward(kind, name)}


def test_maps_read_of_activities_what_has_marks_of_its_own(loaded: Loaded) -> None:
    """So a map says what it said where an activity has changed in something else."""
    around = watched(loaded, False)
    _read.clear()
    tuple(year_audits(around, ()))
    read = {name for kind, _, name in _read if kind == "activity"} - {"id", "kind", "path"}

    assert {"effort", "skills"} <= read <= {field for fields in APART["activity"] for field in fields}


def test_the_watch_sees_what_a_rule_reads(loaded: Loaded) -> None:
    """A rule on cues reads those of its own record."""
    _read.clear()
    (one, *_) = watched(loaded, False).library.activities.values()
    tuple(
        module
        for rule in RULES
        if rule.RULE.code.name == "cue-too-long"
        for module in rule.check(one, Context(loaded.library))
    )

    assert ("activity", one.id, "cues") in _read


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_outward_field_has_a_part_in_the_mark(loaded: Loaded, kind: str) -> None:
    """Another value of any of them gives another mark; another value of any other field does not."""
    records = [record for record in (*loaded.records, *loaded.library.frameworks.values()) if record.kind == kind]
    for field in (*outward_fields(kind), *sorted(INWARD.get(kind, ()))):
        other = next((each for each in records if getattr(each, field) != getattr(records[0], field)), None)
        if other is not None:
            changed = structs.replace(records[0], **{field: getattr(other, field)})

            assert (field in outward_fields(kind)) == (outward_mark(records[0]) != outward_mark(changed)), field


def test_of_a_step_only_its_names_have_a_part_in_the_mark(loaded: Loaded) -> None:
    """What a step means is read by nobody else; its title stands in sentences about activities."""
    skill = next(iter(loaded.library.skills.values()))
    first, *rest = skill.steps
    meant = structs.replace(skill, steps=(structs.replace(first, means="Another thing."), *rest))
    named = structs.replace(skill, steps=(structs.replace(first, title="Another"), *rest))

    assert outward_mark(skill) == outward_mark(meant)
    assert outward_mark(skill) != outward_mark(named)
