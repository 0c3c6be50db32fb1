"""Groups stand inside the room, apart from each other, and as many as an arrangement by hand holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lessonkit.logistics.floor import FloorAnswer, door_area, fits
from lessonkit.records.activity import Activity, Floor, Inclusion, Minutes, Organisation
from lessonkit.records.measures import GradeBand, Length
from lessonkit.records.school import Door, Side, Space


def metres(number: float) -> Length:
    """Return a length in metres."""
    return Length(number, f"{number:g} m")


def room(length: float = 22, width: float = 14, walls: tuple[Side, ...] = (), doors: tuple[Door, ...] = ()) -> Space:
    """Return a gym."""
    return Space(
        id="gym",
        title="Gym",
        length=metres(length),
        width=metres(width),
        where="indoors",
        surface="wood",
        walls=walls,
        doors=doors,
    )


def activity(length: float, width: float, safety: float, *, pairs: bool = False, wall: bool = False) -> Activity:
    """Return an activity that needs a floor of a size for each child or pair."""
    return Activity(
        kind="activity",
        id="test",
        title="Test",
        summary="A test.",
        grades=GradeBand("3", "3"),
        parts=("practice",),
        outcomes={},
        minutes=Minutes(least=5, usual=5, most=5),
        organisation=Organisation(form="pairs" if pairs else "individuals"),
        floor=Floor(
            length=metres(length), width=metres(width), safety=metres(safety), wall=wall, if_more="Take turns."
        ),
        effort="light",
        steps="1. Do it.",
        cues=(),
        easier=(),
        harder=(),
        inclusion=Inclusion(),
        safety=(),
    )


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
    assert largest == fits(activity(length, width, safety), 25, room()).largest


def test_too_many_groups_are_said_with_the_rule() -> None:
    """The answer says how many fit, and what the record does with the others."""
    answer = fits(activity(5.5, 3.5, 0), 25, room())

    assert not answer.fits
    assert "Only 16 of 25 groups fit the gym, each 5.5 m by 3.5 m. Take turns." == answer.says


def test_a_room_smaller_than_one_group_is_said() -> None:
    """Nothing fits, and the sentence says what is needed."""
    assert "Not even one group fits the gym: it needs 30 m by 2 m." == fits(activity(30, 2, 1), 25, room()).says


def check_layout(answer: FloorAnswer, space: Space, safety: float, *, wall: bool) -> None:
    """Check every placed area against the room, its neighbours and the doors."""
    boxes = [placed.box for placed in answer.layout.placed]
    for number, box in enumerate(boxes):
        inside = 0 if wall else safety
        assert box.x >= inside - 1e-6 and box.x + box.length <= space.length.metres - inside + 1e-6
        assert box.y >= inside - 1e-6 and box.y + box.width <= space.width.metres - inside + 1e-6
        for other in boxes[:number]:
            apart_x = max(box.x - other.x - other.length, other.x - box.x - box.length)
            apart_y = max(box.y - other.y - other.width, other.y - box.y - box.width)
            assert max(apart_x, apart_y) >= safety - 1e-6
        assert not any(box.overlaps(door_area(door, space)) for door in space.doors)


@given(
    length=st.integers(1, 12),
    width=st.integers(1, 8),
    safety=st.sampled_from((0.0, 0.5, 1.0, 2.0)),
    children=st.integers(1, 40),
    pairs=st.booleans(),
    wall=st.booleans(),
)
def test_areas_keep_their_distance(
    length: int, width: int, safety: float, children: int, pairs: bool, wall: bool
) -> None:
    """Whatever is placed lies in the room, keeps the safety distance and leaves the door free."""
    space = room(walls=("left", "right", "far"), doors=(Door(side="near", at=metres(4), width=metres(2)),))
    answer = fits(activity(length, width, safety, pairs=pairs, wall=wall), children, space)

    assert len(answer.layout.placed) == min(answer.groups, answer.largest)
    check_layout(answer, space, safety, wall=wall)


def test_places_at_a_wall_touch_it() -> None:
    """Groups that need a wall stand against one that may be played against."""
    space = room(walls=("far",))
    answer = fits(activity(2, 4, 1, pairs=True, wall=True), 14, space)

    assert 7 == answer.largest
    assert all(box.box.y + box.box.width == pytest.approx(14) for box in answer.layout.placed)
