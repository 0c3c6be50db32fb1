"""The timetable of a circuit in a lesson plan."""

import msgspec

from lessonkit.document.circuit_table import circuit_tables
from lessonkit.document.lesson_facts import work_out
from lessonkit.document.model import Paragraph, Table
from tests.by_hand import library

from .test_circuits_and_settings import with_circuit


def test_every_squad_meets_every_station_in_turn() -> None:
    """Two squads change places once: a Latin square of two, in the minutes that the plan gives the stations."""
    (lesson,) = work_out(with_circuit(), library()).lessons
    stations = [slot for slot in lesson.slots if slot.slot.station is not None]

    sentence, table = circuit_tables(lesson)

    assert isinstance(sentence, Paragraph) and isinstance(table, Table)
    assert "Circuit of 2 stations for 2 squads" in repr(sentence)
    shown = repr(table)
    assert all(f"{facts.starts}\u2013{facts.ends}" in shown for facts in stations)
    assert ["squad 1", "squad 2"] == [each for each in ("squad 1", "squad 2") if shown.count(each) == 2]


def test_a_lesson_without_stations_has_no_timetable() -> None:
    """The shipped plan has no circuit, and its lessons show none."""
    plan = library().plans[with_circuit().id]
    plain = msgspec.structs.replace(plan, lessons=plan.lessons[:1])

    assert [] == [block for lesson in work_out(plain, library()).lessons for block in circuit_tables(lesson)]
