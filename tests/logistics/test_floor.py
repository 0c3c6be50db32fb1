"""Groups stand inside the room, apart from each other, and as many as an arrangement by hand holds."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.floor import FloorAnswer, does_it_fit, fits
from lessonkit.logistics.layout import Need, Room, door_area
from lessonkit.records.activity import Form, Uneven
from lessonkit.records.measures import read_length
from lessonkit.records.school import Space

from .floors import activity, door, gym


@pytest.mark.parametrize(
    ("length", "width", "safety", "largest"),
    [
        # 7 columns of 2 m with 8 gaps of 1 m take 22 m; 4 rows with 5 gaps take 13 of 14 m: by hand.
        (2, 2, 1, 28),
        # 22 / 5.5 = 4 columns and 14 / 3.5 = 4 rows, without gaps: by hand.
        (5.5, 3.5, 0, 16),
        # Turned by a quarter, 3 m by 7 m: 7 columns and 2 rows, more than 3 columns of 7 m and 4 rows.
        (7, 3, 0, 14),
        (22, 14, 0, 1),
        (22.5, 14, 0, 0),
    ],
)
def test_as_many_fit_as_by_hand(length: float, width: float, safety: float, largest: int) -> None:
    """The largest number is what a tape measure gives."""
    assert largest == fits(activity(length, width, safety), 40, gym()).largest


@pytest.mark.parametrize(
    ("area", "room", "largest"),
    [
        # Pickleball with its least surround, 60 by 30 ft (EQ-008), on the floor of an elementary court, 74 by 42 ft
        # (EQ-010): turned either way there is one.
        (("60 ft", "30 ft"), ("74 ft", "42 ft"), 1),
        # A full badminton court is 13.40 by 6.10 m (EQ-009): one fits a gym of 22 by 14 m lengthwise in each of two
        # rows, and turned by a quarter three stand side by side.
        (("13.40 m", "6.10 m"), ("22 m", "14 m"), 3),
        # Mini-basketball's largest court, 28 by 15 m (EQ-003), is longer than that gym; its smallest is 12 by 7 m and
        # stands there three times, turned by a quarter: 3 x 7 = 21 of 22 m.
        (("28 m", "15 m"), ("22 m", "14 m"), 0),
        (("12 m", "7 m"), ("22 m", "14 m"), 3),
        # Red courts of 36 by 14 ft (EQ-006) in the 74 by 42 ft hall: two in a row, three rows.
        (("36 ft", "14 ft"), ("74 ft", "42 ft"), 6),
        # A handball court of 40 by 20 m with 2 m behind its ends (EQ-019) fills 44 m of length.
        (("44 m", "22 m"), ("44 m", "22 m"), 1),
    ],
)
def test_published_courts(area: tuple[str, str], room: tuple[str, str], largest: int) -> None:
    """Courts of published sizes; how many fit is worked out by hand beside each."""
    need = Need(read_length(area[0]).metres, read_length(area[1]).metres)
    hall = Room(read_length(room[0]).metres, read_length(room[1]).metres)

    assert largest == does_it_fit(need, 20, hall).largest


@pytest.mark.parametrize(
    ("length", "width", "safety", "form", "children", "says"),
    [
        (2, 2, 1, "individuals", 25, "All 25 areas of 2 m by 2 m fit the gym, 1 m apart; there is room for 28."),
        (2, 2, 1, "individuals", 1, "The area of 2 m by 2 m fits the gym with 1 m clear around it."),
        (2, 2, 0, "pairs", 2, "The area of 2 m by 2 m fits the gym."),
        (2, 2, 1, "individuals", 64, "Only 28 of 64 areas of 2 m by 2 m fit the gym, 1 m apart. Take turns."),
        (30, 2, 1, "individuals", 25, "Not even one area of 30 m by 2 m fits the gym with 1 m clear around it."),
        (20, 12, 1, "whole-class", 31, "The area of 20 m by 12 m fits the gym with 1 m clear around it."),
        (20, 13, 1, "whole-class", 7, "Not even one area of 20 m by 13 m fits the gym with 1 m clear around it."),
        (6, 5, 1, "fours", 25, "All 6 areas of 6 m by 5 m fit the gym, 1 m apart; there is room for 6."),
    ],
)
def test_every_answer_is_a_sentence(
    length: float, width: float, safety: float, form: Form, children: int, says: str
) -> None:
    """One child, a full class, more than the room holds, a room smaller than one group: each is answered."""
    answer = fits(
        activity(length, width, safety, form=form, uneven=Uneven(rule="larger-group", say="One more.")),
        children,
        gym(),
    )

    assert says == answer.says
    assert answer.fits == (not says.startswith(("Only", "Not")))


@pytest.mark.parametrize(
    ("areas", "says"),
    [
        (5, "Only 4 of 5 areas of 10 m by 6 m fit the room. Work in 2 waves of 3 and 2 groups, by turns."),
        (9, "Only 4 of 9 areas of 10 m by 6 m fit the room. Work in 3 waves of 3, 3 and 3 groups, by turns."),
    ],
)
def test_groups_without_floor_take_turns(areas: int, says: str) -> None:
    """Without a record's own rule the answer shares the groups over as few waves as can be."""
    assert says == does_it_fit(Need(10, 6), areas, Room(22, 14)).says


def test_one_at_a_time_is_said_as_such() -> None:
    """Where only one group fits there are no waves to count."""
    says = "Only 1 of 3 areas of 20 m by 12 m fit the room. The groups take turns, one at a time."

    assert says == does_it_fit(Need(20, 12), 3, Room(22, 14)).says


def test_a_group_larger_than_its_area_holds_follows_the_rule() -> None:
    """The small-area rule (common practice, no source): everybody at once up to six, beyond that two at a time."""
    rule = "Two at a time."
    seven = activity(6, 6, 1, form="whole-class", most_children=6, if_more=rule)
    without = activity(6, 6, 1, form="whole-class", most_children=6, if_more=None)
    area = "The area of 6 m by 6 m fits the gym with 1 m clear around it."

    assert area == fits(seven, 6, gym()).says
    assert f"{area} One area holds 6 children at once, and a group has 7. {rule}" == fits(seven, 7, gym()).says
    assert fits(seven, 7, gym()).fits
    assert not fits(without, 7, gym()).fits


def test_a_room_without_walls_has_none_to_play_against() -> None:
    """A field has no walls."""
    answer = fits(activity(2, 4, 1, wall=True), 3, gym())

    assert "There is no wall to play against in the gym." == answer.says
    assert not answer.fits


def check_layout(answer: FloorAnswer, space: Space, safety: float, *, wall: bool) -> None:
    """Check every placed area against the room, its neighbours and the doors, by plain subtraction."""
    boxes = [placed.box for placed in answer.layout.placed]
    for number, box in enumerate(boxes):
        inside = 0 if wall else safety
        assert box.x >= inside - 1e-6 and box.x + box.length <= space.length.metres - inside + 1e-6
        assert box.y >= inside - 1e-6 and box.y + box.width <= space.width.metres - inside + 1e-6
        for other in boxes[:number]:
            apart_x = max(box.x - other.x - other.length, other.x - box.x - box.length)
            apart_y = max(box.y - other.y - other.width, other.y - box.y - box.width)
            assert max(apart_x, apart_y) >= safety - 1e-5
        assert not any(box.overlaps(door_area(each, space)) for each in space.doors)
        if wall:
            assert min(box.x, space.length.metres - box.x - box.length, space.width.metres - box.y - box.width) < 1e-6


@settings(deadline=None)
@given(
    length=st.integers(2, 24),
    width=st.integers(2, 16),
    safety=st.sampled_from((0.0, 0.5, 1.0, 3.0)),
    children=st.integers(1, 64),
    form=st.sampled_from(("individuals", "pairs", "fours", "whole-class")),
    wall=st.booleans(),
    at=st.floats(1, 21),
)
def test_areas_keep_their_distance(
    length: int, width: int, safety: float, children: int, form: Form, wall: bool, at: float
) -> None:
    """Whatever is placed lies in the room, keeps the safety distance, leaves the door free and touches its wall.

    Three metres between throwing pairs is the distance of a published coaching page (SF-011; local policy goes first).
    """
    space = gym(walls=("left", "right", "far"), doors=(door("near", at), door("far", 21)))
    answer = fits(activity(length / 2, width / 2, safety, form=form, wall=wall), children, space)

    assert len(answer.layout.placed) == min(answer.groups, answer.largest)
    assert answer.fits == (answer.groups <= answer.largest)
    check_layout(answer, space, safety, wall=wall)


def test_spaces_are_numbered_as_they_are_read() -> None:
    """Space 1 is at the far left, the last at the near right."""
    placed = fits(activity(2, 2, 1), 25, gym()).layout.placed

    assert [str(number) for number in range(1, 26)] == [each.name for each in placed]
    assert (placed[0].box.x, placed[0].box.y) < (placed[-1].box.x, placed[0].box.y + 1)
    assert placed[0].box.y > placed[-1].box.y


def test_rows_are_as_equal_as_can_be() -> None:
    """Twenty-five places in four rows are seven and three times six."""
    rows: dict[float, int] = {}
    for placed in fits(activity(2, 2, 1), 25, gym()).layout.placed:
        rows[placed.box.y] = rows.get(placed.box.y, 0) + 1

    assert [7, 6, 6, 6] == list(rows.values())


@pytest.mark.parametrize("children", [14, 13, 9, 2])
def test_places_at_a_wall_touch_it(children: int) -> None:
    """Groups that need a wall stand against one that may be played against: seven along 22 m, by hand."""
    answer = fits(activity(2, 4, 1, form="pairs", wall=True), children, gym(walls=("far",)))

    assert (children + 1) // 2 == len(answer.layout.placed)
    assert 7 == answer.largest
    assert all(box.box.y + box.box.width == pytest.approx(14) for box in answer.layout.placed)
