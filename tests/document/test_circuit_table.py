"""The timetable of a circuit in a lesson plan."""

import msgspec

from lessonkit.document.circuit_table import circuit_says, circuit_table, circuits
from lessonkit.document.lesson_facts import work_out
from tests.by_hand import library

from .test_circuits_and_settings import with_circuit


def test_every_squad_meets_every_station_in_turn() -> None:
    """Two squads change places once: a Latin square of two, in the minutes that the plan gives the stations."""
    (lesson,) = work_out(with_circuit(), library()).lessons
    (part,) = circuits(lesson)
    shown = repr(circuit_table(part))

    assert "Circuit of 2 stations for 2 squads" in circuit_says(part)
    assert all(f"{facts.starts}\u2013{facts.ends}" in shown for facts in part)
    assert len(part) == shown.count("minutes ")
    assert ["squad 1", "squad 2"] == [each for each in ("squad 1", "squad 2") if shown.count(each) == 2]


def test_a_lesson_without_stations_has_no_circuit() -> None:
    """The first lesson of the plan has none."""
    plan = library().plans[with_circuit().id]
    plain = msgspec.structs.replace(plan, lessons=plan.lessons[:1])

    assert [()] == [circuits(lesson) for lesson in work_out(plain, library()).lessons]
