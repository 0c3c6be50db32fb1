"""Circuits of stations: squads, work and change, equipment and floor shared, written into the plan and read back."""

from dataclasses import replace
from typing import Any

import msgspec
import yaml

from lessonkit.logistics.equipment import needed, side_by_side
from lessonkit.logistics.stations import stations
from lessonkit.planning.audit_plan import audit_plan
from lessonkit.planning.precheck import precheck
from lessonkit.planning.sequence import Impossible, Options, Planned, sequence
from lessonkit.planning.setup import set_up
from lessonkit.planning.stations import cell_of, squad_of
from lessonkit.planning.write_plan import plan_text
from lessonkit.records.activity import Floor, Organisation, SkillStep
from lessonkit.records.library import Library
from lessonkit.records.measures import read_band, read_length
from lessonkit.records.plan import Plan
from lessonkit.records.school import Owned
from lessonkit.records.unit import Circuit, Shape, ShapePart

from .school_records import activities, library, school, unit

STATIONS = ("first-taps", "tap-ladder", "floor-taps", "tap-trails", "wall-taps", "wall-count")


def _library(owned: tuple[Owned, ...] = (), **changes: Any) -> Library:
    """Return the small school with a circuit of three stations in every second lesson."""
    usual = unit().shapes[0]
    parts = (
        ShapePart(part="warm-up"),
        ShapePart(part="practice", circuit=Circuit(stations=3, work=6, change=1)),
        ShapePart(part="closing"),
    )
    shapes = (usual, Shape(title="Circuit", lessons=(2, 4), parts=parts))
    mastered = (SkillStep(skill="tapping", step="up"),)
    records = tuple(msgspec.structs.replace(each, station=each.id in STATIONS) for each in activities())
    own = school(equipment=owned) if owned else None
    return library(unit(shapes=shapes, mastered=mastered, **changes), own=own, extra=records)


def _plan(found: Library) -> Plan:
    outcome = sequence(found, "taps", "heron", Options())
    assert isinstance(outcome, Planned), outcome
    return outcome.plan


def _circuit(plan: Plan, lesson: int) -> list[str]:
    return [slot.activity for slot in plan.lessons[lesson].activities if slot.station is not None]


def test_a_circuit_has_its_stations_for_their_time() -> None:
    """Three numbered stations of six minutes, each with a minute to get there, and the lesson is full to the minute."""
    plan = _plan(_library())

    for lesson in (1, 3):
        slots = plan.lessons[lesson].activities
        assert [(1, 6, 1), (2, 6, 1), (3, 6, 1)] == [(s.station, s.minutes, s.setup) for s in slots if s.station]
        assert set(_circuit(plan, lesson)) <= set(STATIONS)
        assert 30 == sum(slot.minutes + slot.setup for slot in slots)
    assert [] == _circuit(plan, 0)


def test_the_plan_file_keeps_the_stations() -> None:
    """A plan with stations reads back as it was written, and breaks nothing."""
    found = _library()
    plan = _plan(found)
    read = msgspec.convert(yaml.load(plan_text(plan, found), Loader=yaml.BaseLoader), Plan, strict=False)

    assert plan == read
    assert () == audit_plan(read, found)


def test_a_station_of_other_length_is_named() -> None:
    """A station that runs longer than the circuit's work is said at its place."""
    found = _library()
    plan = _plan(found)
    slots = list(plan.lessons[1].activities)
    slots[1] = msgspec.structs.replace(slots[1], minutes=7)
    lesson = msgspec.structs.replace(plan.lessons[1], activities=tuple(slots))
    edited = msgspec.structs.replace(plan, lessons=(plan.lessons[0], lesson, *plan.lessons[2:]))

    says = dict(audit_plan(edited, found))
    assert says[("lessons", 1, "activities", 1)].endswith("runs for 6 minutes, not 7.")


def test_stations_share_the_equipment() -> None:
    """Twelve paddles are enough for three squads of four at once; with ten, one station must do without."""
    found = _library((Owned(item="paddle", count=12), Owned(item="net", count=6)))
    together = [needed(found.activities[name], squad_of(12, 3)) for name in _circuit(_plan(found), 1)]

    assert side_by_side(together)["paddle"] <= 12
    outcome = sequence(
        _library((Owned(item="paddle", count=10), Owned(item="net", count=6))), "taps", "heron", Options()
    )
    assert isinstance(outcome, Impossible)


def test_stations_fit_the_floor_together() -> None:
    """Every circuit of a plan fits the gym at once, as the logistics place it."""
    found = _library()
    plan = _plan(found)

    for lesson in (1, 3):
        records = [found.activities[name].for_grade("3") for name in _circuit(plan, lesson)]
        assert stations(records, 12, found.schools["quillfeather"].space("gym")).fits


def _wide(*names: str) -> Library:
    """Return the school where some stations need 9 m by 4 m, more than one of four cells of the gym."""
    found = _library()
    floor = Floor(length=read_length("9 m"), width=read_length("4 m"))
    together = Organisation(form="whole-class")
    return replace(
        found,
        activities={
            name: msgspec.structs.replace(record, floor=floor, organisation=together) if name in names else record
            for name, record in found.activities.items()
        },
    )


def test_one_station_of_three_may_have_the_floor_of_two() -> None:
    """Three stations leave one of four cells of the gym over: one wide station fits beside two others, two do not."""
    found = _wide("floor-taps", "tap-trails", "wall-taps")
    plan = _plan(found)
    for lesson in (1, 3):
        records = [found.activities[name].for_grade("3") for name in _circuit(plan, lesson)]
        assert 1 == sum(record.floor.length.metres == 9 for record in records)
        assert stations(records, 12, found.schools["quillfeather"].space("gym")).fits

    outcome = sequence(_wide(*STATIONS[1:]), "taps", "heron", Options())

    assert isinstance(outcome, Impossible)
    assert "One station of lesson 2 may have the floor of two." in " ".join(said.says for said in outcome.because)


def test_a_cell_is_a_share_of_the_floor() -> None:
    """Three or four cells of a hall of 12 m by 10 m measure 6 m by 5 m; two measure 6 m by 10 m."""
    gym = msgspec.structs.replace(school().space("gym"), length=read_length("12 m"), width=read_length("10 m"))
    sizes = [(cell.length.metres, cell.width.metres) for cell in (cell_of(gym, number) for number in (2, 3, 4))]

    assert [(6.0, 10.0), (6.0, 5.0), (6.0, 5.0)] == sizes


def test_too_few_stations_are_counted() -> None:
    """With two activities written as stations a circuit of three cannot be, and the sentence says what is missing."""
    found = _library()
    records = {
        key: msgspec.structs.replace(each, station=key in ("first-taps", "tap-ladder"))
        for key, each in found.activities.items()
    }
    fewer = msgspec.structs.replace(found.units["taps"])
    case = set_up(
        Library(**{**{name: getattr(found, name) for name in Library.__dataclass_fields__}, "activities": records}),
        fewer,
        found.schools["quillfeather"].school_class("heron"),
    )

    says = [said.says for said in precheck(case)]
    assert any(
        each.startswith("The circuit of the practice part of lesson 2 needs 3 activities, but only 2 activities fit")
        and "not written as a station" in each
        for each in says
    )


def test_stations_of_one_circuit_do_not_lead_to_each_other() -> None:
    """What builds on another station of the same circuit cannot be in it: some squad would meet it first."""
    plan = _plan(_library())

    for lesson in (1, 3):
        names = set(_circuit(plan, lesson))
        records = {each.id: each for each in activities()}
        assert not any(base in names for name in names for base in records[name].builds_on)


def test_a_station_that_builds_on_another_in_vain_is_counted_only() -> None:
    """Most activities are not written as stations; one of them may build on what is not there as well."""
    found = _library()
    older = msgspec.structs.replace(found.activities["wall-taps"], id="older", grades=read_band("4"))
    waiting = msgspec.structs.replace(found.activities["floor-taps"], builds_on=("older",))
    others = {
        key: msgspec.structs.replace(each, station=key in ("first-taps", "tap-ladder"))
        for key, each in found.activities.items()
    }
    every = {**others, "older": older, "floor-taps": waiting}
    case = set_up(
        replace(found, activities=every), found.units["taps"], found.schools["quillfeather"].school_class("heron")
    )
    (says,) = (said.says for said in precheck(case) if "circuit of the practice part of lesson 2" in said.says)

    assert "1 building on one that cannot be used" in says
    assert "What they build on is missing" not in says
