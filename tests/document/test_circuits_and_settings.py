"""Stations of a circuit in a lesson's numbers, and what a school's settings change in its pages."""

from dataclasses import replace

import msgspec
import pytest

from lessonkit.document.lesson_facts import work_out
from lessonkit.document.model import Document
from lessonkit.document.pull_list import pull_list
from lessonkit.document.unit_overview import minutes_say
from lessonkit.records.plan import Plan
from lessonkit.records.school import Cut, Owned
from tests.by_hand import library

PLAN = "paddles-grade-3-grade-3-heron"


def with_circuit() -> Plan:
    """Return the plan with two activities of its fifth lesson, in pairs, as the stations of a circuit."""
    plan = library().plans[PLAN]
    lesson = plan.lessons[4]
    numbers = {"splash-in-the-puddle": 1, "milk-route": 2}
    slots = tuple(
        msgspec.structs.replace(slot, station=numbers[slot.activity], part="practice")
        if slot.activity in numbers
        else slot
        for slot in lesson.activities
    )
    return msgspec.structs.replace(plan, lessons=(msgspec.structs.replace(lesson, activities=slots),))


def words_of(document: Document) -> str:
    """Return all that stands in a document, roughly."""
    return repr(document.blocks).replace("\u00a0", " ")


def test_stations_add_up() -> None:
    """25 in two squads are 13 and 12; 13 in pairs are six groups (five pairs, a three) at each station at once.

    Hoops: 6 x 1 and 6 x 2 are 18. Balls: 6 x 2 and 6 x 2 are 24. The bounce forecast alone needs 12 x 3 = 36 spots.
    """
    (lesson,) = work_out(with_circuit(), library()).lessons
    equipment = dict(lesson.equipment)

    assert (18, 24, 36) == (equipment["hoop"], equipment["foam-ball"], equipment["floor-spot"])


def test_a_clash_between_stations_is_said() -> None:
    """18 hoops at two stations and 10 in school: the pull list names both places, and what is short."""
    school = library().schools["quillfeather"]
    owned = tuple(o if o.item != "hoop" else Owned(item="hoop", count=10) for o in school.equipment)
    poorer = replace(library(), schools={"quillfeather": msgspec.structs.replace(school, equipment=owned)})

    said = words_of(pull_list(work_out(with_circuit(), poorer)))

    assert "(6) and " in said
    assert "at the same time: 18, and there are 10." in said


def test_an_empty_cupboard_is_told_what_to_buy() -> None:
    """Nothing is owned, so nothing stands in: all 18 hoops of the two stations are to be bought."""
    school = msgspec.structs.replace(library().schools["quillfeather"], equipment=())
    empty = replace(library(), schools={"quillfeather": school})

    assert "Buy 18 hoops (18 needed, none owned)" in words_of(pull_list(work_out(with_circuit(), empty)))


@pytest.mark.parametrize(
    ("cut", "minutes", "source"),
    [
        # Vigorous are ropes 7, gaps 5, burrs 7, gale 5 and compass 5.
        ("vigorous", "29", "(6 METs)"),
        ("any-movement", "227.8", "walking and above"),
        ("moderate", "167.8", "(4 METs)"),
    ],
)
def test_a_school_says_what_counts_as_active(cut: Cut, minutes: str, source: str) -> None:
    """31 + 30 + 28 + 25.84 + 31 + 27 + 26 + 29 = 227.84 minutes move; 167.84 of them at moderate effort or above."""
    school = msgspec.structs.replace(library().schools["quillfeather"], active_from=cut)
    changed = replace(library(), schools={"quillfeather": school})
    says, _ = minutes_say(work_out(library().plans[PLAN], changed))

    assert says.startswith(f"An average child is active for {minutes} of 280 minutes")
    assert source in says


def test_a_school_reads_its_own_lengths() -> None:
    """The same plan in metres and in feet: no metre is left in the words of a school that counts in feet."""
    school = msgspec.structs.replace(library().schools["quillfeather"], lengths="metres")
    metric = replace(library(), schools={"quillfeather": school})
    in_metres, in_feet = (
        " ".join(slot.activity.steps for lesson in facts.lessons for slot in lesson.slots)
        for facts in (work_out(library().plans[PLAN], metric), work_out(library().plans[PLAN], library()))
    )

    assert " meters" in in_metres
    assert " meter" not in in_feet
