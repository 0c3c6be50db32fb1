"""The fields of an activity that no check of another record reads are watched, not remembered."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from msgspec import structs

from lessonkit.commands.checking import _audits, _year_audits
from lessonkit.commands.outward import INWARD, OUTWARD, outward_mark
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.records.activity import Activity
from lessonkit.records.library import AnyRecord
from lessonkit.rules.registry import RULES
from lessonkit.rules.rule import Context

CURRICULUM = Path(__file__).resolve().parents[2] / "curriculum"
_read: set[tuple[str, str]] = set()


class Watched(Activity, frozen=True, kw_only=True):
    """An activity that remembers which of its fields are read."""

    def __getattribute__(self, name: str) -> object:
        value = super().__getattribute__(name)
        if name in INWARD:
            _read.add((super().__getattribute__("id"), name))
        return value


def watched(loaded: Loaded, faults: bool) -> Loaded:
    """Return a curriculum with watched activities; with ``faults`` one that many rules have something to say about."""

    def change(activity: Activity) -> Watched:
        values = {name: getattr(activity, name) for name in activity.__struct_fields__}
        if faults:
            values["builds_on"] = (*activity.builds_on, *again.get(activity.id, ()), "nowhere")
        return Watched(**values)

    activities = loaded.library.activities
    again: dict[str, tuple[str, ...]] = {}
    for activity in activities.values():
        for earlier in activity.builds_on:
            again[earlier] = (activity.id,)
    library = replace(loaded.library, activities={name: change(each) for name, each in activities.items()})
    if faults:
        bare = {name: structs.replace(each, equipment=()) for name, each in library.schools.items()}
        library = replace(library, schools=bare)
    records: list[AnyRecord] = [
        library.activities[each.id] if isinstance(each, Activity) else each for each in loaded.records
    ]
    plans = dict(sorted(library.plans.items())[:3])
    return replace(loaded, library=replace(library, plans=plans), records=tuple(records))


def read_elsewhere(loaded: Loaded, audited: bool) -> Iterator[tuple[str, str]]:
    """Check everything and give the fields that were read while another record was checked, with the reader."""
    context = Context(loaded.library)
    for record in loaded.records:
        for module in RULES:
            if isinstance(record, module.RULE.kinds):
                _read.clear()
                tuple(module.check(record, context))
                yield from ((name, module.__name__) for id_, name in _read if id_ != record.id)
    _read.clear()
    if audited:
        tuple(_audits(loaded, ()))
        tuple(_year_audits(loaded, ()))
    yield from ((name, "audits") for _, name in _read)


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    """Load the curriculum that comes with the program."""
    return load_folder(CURRICULUM, CURRICULUM.as_posix())


@pytest.mark.parametrize("faults", [False, True])
def test_only_outward_fields_are_read_elsewhere(loaded: Loaded, faults: bool) -> None:
    """No rule reads an inward field of another activity than its own, and no audit (which needs no faults) any."""
    assert set() == set(read_elsewhere(watched(loaded, faults), not faults))


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

    assert (one.id, "cues") in _read


def test_every_outward_field_has_a_part_in_the_mark(loaded: Loaded) -> None:
    """Another value of any of them gives another mark; another value of any other field does not."""
    first, *others = loaded.library.activities.values()
    for field in (*OUTWARD, *INWARD):
        other = next((each for each in others if getattr(each, field) != getattr(first, field)), None)
        if other is not None:
            changed = structs.replace(first, **{field: getattr(other, field)})

            assert (field in OUTWARD) == (outward_mark(first) != outward_mark(changed)), field
