"""Equipment and moving time come out as a teacher counts them."""

import pytest

from lessonkit.logistics.activity_time import HALF_OF_LESSON, WEEKLY_MINUTES, active_minutes, turns
from lessonkit.logistics.equipment import in_sequence, needed, shortages, side_by_side
from lessonkit.records.activity import Activity, Effort, Floor, Inclusion, Minutes, Need, Organisation, Uneven
from lessonkit.records.equipment import Item, StandIn
from lessonkit.records.measures import GradeBand, Length
from lessonkit.records.school import Calendar, Owned, School


def activity(organisation: Organisation, *needs: Need, effort: Effort = "moderate") -> Activity:
    """Return an activity with an organisation and equipment."""
    return Activity(
        kind="activity",
        id="test",
        title="Test",
        summary="A test.",
        grades=GradeBand("3", "3"),
        parts=("practice",),
        outcomes={},
        minutes=Minutes(least=5, usual=5, most=5),
        organisation=organisation,
        equipment=needs,
        floor=Floor(length=Length(2, "2 m"), width=Length(2, "2 m")),
        effort=effort,
        steps="1. Do it.",
        cues=(),
        easier=(),
        harder=(),
        inclusion=Inclusion(),
        safety=(),
    )


PAIRS = Organisation(form="pairs", uneven=Uneven(rule="larger-group", say="Three together."))


def test_equipment_is_counted_for_child_pair_group_and_class() -> None:
    """25 children in pairs: 25, 13 (pairs begun), 11 pairs and a three make 12 groups, one class (by hand)."""
    lesson = activity(
        PAIRS,
        Need(item="paddle", count=1, per="child"),
        Need(item="net", count=1, per="pair"),
        Need(item="cone", count=2, per="group"),
        Need(item="drum", count=1, per="class"),
    )

    assert {"cone": 24, "drum": 1, "net": 13, "paddle": 25} == needed(lesson, 25)


def test_parts_in_sequence_take_the_most_and_stations_add() -> None:
    """Six balls then four balls need six; side by side they need ten (by hand)."""
    parts = ({"ball": 6, "cone": 2}, {"ball": 4})

    assert {"ball": 6, "cone": 2} == in_sequence(parts)
    assert {"ball": 10, "cone": 2} == side_by_side(parts)


def test_a_stand_in_fills_a_shortage_from_what_is_left_over() -> None:
    """Of 30 balls wanted 20 are owned; 12 beanbags, 5 of them in use, leave 7 to stand in: three are still short."""
    items = {"ball": Item(id="ball", title="Ball", plural="Balls", stand_ins=(StandIn(item="beanbag"),))}
    school = School(
        kind="school",
        id="s",
        title="School",
        time_zone="America/Chicago",
        spaces=(),
        equipment=(Owned(item="ball", count=20), Owned(item="beanbag", count=12)),
        classes=(),
        calendar=Calendar(first_day="2026-08-31", last_day="2027-06-11"),
    )
    (shortage,) = shortages({"ball": 30, "beanbag": 5}, school, items)

    assert (("beanbag", 7),) == shortage.stand_ins
    assert 3 == shortage.still_short


def test_half_a_pair_moves_at_a_time() -> None:
    """One of each pair and one of the three move, 12 of 25; the longest wait is two turns of 25 seconds."""
    organisation = Organisation(form="pairs", uneven=PAIRS.uneven, at_once=1, waiting="Count.", turn_seconds=25)
    found = turns(activity(organisation), 25)

    assert pytest.approx(12 / 25) == found.share
    assert (13, 50.0) == (found.waiting, found.longest_wait)


@pytest.mark.parametrize(
    ("effort", "any_movement", "moderate", "vigorous"),
    [("rest", 0, 0, 0), ("light", 10, 0, 0), ("moderate", 10, 10, 0), ("vigorous", 10, 10, 10)],
)
def test_the_cut_decides_what_counts(effort: Effort, any_movement: int, moderate: int, vigorous: int) -> None:
    """Sources cut moderate-to-vigorous at different places; each cut counts what lies at or above it."""
    found = activity(Organisation(form="individuals"), effort=effort)

    assert any_movement == active_minutes(found, 25, 10, "any-movement")
    assert moderate == active_minutes(found, 25, 10, "moderate")
    assert vigorous == active_minutes(found, 25, 10, "vigorous")


def test_the_published_doses_are_as_published() -> None:
    """Half of lesson time (Institute of Medicine 2013) and 150 minutes a week (the national guideline it restates)."""
    assert (0.5, 150) == (HALF_OF_LESSON, WEEKLY_MINUTES)
