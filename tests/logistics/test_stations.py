"""Stations stand side by side: each with floor for its squad, apart from the others, clear of doors."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.crowding import floor_per_child
from lessonkit.logistics.floor import need_of
from lessonkit.logistics.layout import Box, Room, door_area
from lessonkit.logistics.packing import place_blocks
from lessonkit.logistics.stations import StationsAnswer, stations
from lessonkit.records.activity import Activity, Form
from lessonkit.records.school import Side, Space

from .floors import activity, door, gym

PAIRS = activity(3, 2, 1, form="pairs")
WALL = activity(2, 4, 1, form="pairs", wall=True)
COURT = activity(9, 5, 1, form="fours")
OWN = activity(2, 2, 1)
HALL = gym(walls=("left", "right", "far"), doors=(door("right", 1.5),))


def check(answer: StationsAnswer, space: Space) -> None:
    """Check every station's areas against the room, the other stations and the doors, by plain subtraction."""
    for station in answer.stations:
        need = need_of(station.activity)
        for placed in station.areas:
            box = placed.box
            sides = {
                "left": box.x,
                "right": space.length.metres - box.x - box.length,
                "near": box.y,
                "far": space.width.metres - box.y - box.width,
            }
            close = [side for side, distance in sides.items() if distance < need.safety - 1e-3]
            assert min(sides.values()) > -1e-3
            assert len(close) <= need.wall
            assert not need.wall or abs(min(sides[side] for side in space.walls)) < 1e-3
            assert not any(box.overlaps(door_area(each, space)) for each in space.doors)
            for other in answer.stations:
                for around in other.areas:
                    inside = other is station
                    kept = need.safety if inside else max(need.safety, need_of(other.activity).safety, 1.0)
                    assert around is placed or not box.overlaps(around.box, kept - 1e-3)


@pytest.mark.parametrize(
    "activities",
    [
        (PAIRS,),
        (PAIRS, OWN),
        (WALL, WALL, PAIRS, PAIRS),
        (OWN, WALL, COURT, PAIRS, OWN, PAIRS),
        (COURT, COURT, COURT, WALL),
    ],
)
def test_stations_keep_apart(activities: tuple[Activity, ...]) -> None:
    """Every station is placed, with areas for the squads of sixteen."""
    answer = stations(activities, 16, HALL)

    assert answer.fits
    assert list(range(1, len(activities) + 1)) == [station.number for station in answer.stations]
    assert 16 == sum(station.children for station in answer.stations)
    check(answer, HALL)


@settings(deadline=None, max_examples=25)
@given(
    sizes=st.lists(
        st.tuples(
            st.integers(2, 9),
            st.integers(2, 6),
            st.sampled_from((0.0, 0.5, 1.0)),
            st.sampled_from(("individuals", "pairs", "fours")),
            st.booleans(),
        ),
        min_size=1,
        max_size=6,
    ),
    children=st.integers(6, 32),
)
def test_whatever_is_placed_keeps_its_distance(sizes: list[tuple[int, int, float, Form, bool]], children: int) -> None:
    """Rows or solver, all stations or some: none comes too close to anything."""
    activities = [activity(length, width, safety, form=form, wall=wall) for length, width, safety, form, wall in sizes]
    answer = stations(activities, children, HALL)

    assert answer.fits == (len(answer.stations) == len(activities))
    check(answer, HALL)


def test_stations_without_room_are_named() -> None:
    """Five courts of 9 by 5 m do not stand in 22 by 14 m, as two rows of two take 20 by 12 m; four do."""
    answer = stations((COURT, COURT, COURT, COURT, activity(9, 5, 1, form="fours", title="The Fifth")), 20, HALL)

    assert not answer.fits
    assert 4 == len(answer.stations)
    assert "Only 4 of 5 stations fit the gym at once" in answer.says


def test_a_room_too_small_for_any_station_is_said() -> None:
    """A closet holds no court."""
    answer = stations((COURT,), 4, gym(3, 3))

    assert "None of the stations fits the gym with a squad of 4." == answer.says
    assert () == answer.stations


def test_squads_of_unequal_size_are_said() -> None:
    """Twenty-five children at six stations are squads of five and four."""
    answer = stations((OWN, PAIRS) * 3, 25, gym(40, 30))

    assert "All 6 stations fit the gym at once, for squads of 4 or 5." == answer.says
    assert [5, 4, 4, 4, 4, 4] == [station.children for station in answer.stations]
    # The largest squad visits every station, so each has room for five: five own spaces, or three pairs' (one alone).
    assert [5, 3, 5, 3, 5, 3] == [len(station.areas) for station in answer.stations]


def test_the_next_station_of_a_ring_is_near() -> None:
    """In two rows each station's neighbour in the ring is its neighbour on the floor: no way crosses the room."""
    placed = stations((PAIRS,) * 6, 24, gym()).stations
    middles = [(each.box.x + each.box.length / 2, each.box.y + each.box.width / 2) for each in placed]

    for (x, y), (next_x, next_y) in zip(middles, [*middles[1:], middles[0]], strict=True):
        assert abs(x - next_x) < 1e-6 or abs(y - next_y) < 1e-6


def test_blocks_are_never_squeezed() -> None:
    """On the solver's grid of decimetres a block of 4.01 m counts as 4.1 m, and two of them need 8.2 m and the gap."""
    choice: tuple[tuple[float, float, Side | None], ...] = ((4.01, 2.0, None),)
    wide = place_blocks([choice, choice], [0.0, 0.0], [[1.0, 1.0], [1.0, 1.0]], Room(9.2, 2))
    narrow = place_blocks([choice, choice], [0.0, 0.0], [[1.0, 1.0], [1.0, 1.0]], Room(9.1, 2))

    assert 2 == sum(spot is not None for spot in wide)
    assert 1 == sum(spot is not None for spot in narrow)


def test_a_block_chooses_its_wall() -> None:
    """A block with a choice of walls stands against the one that is free, its far edge at the wall."""
    choices: list[tuple[tuple[float, float, Side | None], ...]] = [
        ((5.0, 2.0, "far"),),
        ((5.0, 2.0, "far"), (2.0, 3.0, "right")),
    ]
    first, second = place_blocks(choices, [0.0, 0.0], [[0.5, 0.5], [0.5, 0.5]], Room(7.5, 6))

    assert (Box(0, 4, 5, 2), 0) == first
    assert second is not None
    assert (1, 5.5) == (second[1], second[0].x)


@pytest.mark.parametrize(
    ("length", "width", "children", "says"),
    [
        # 22 x 14 / 25 = 12.32 m2; 12.32 / 0.09290304 = 132.6 sq ft (the foot is 0.3048 m exactly).
        (22, 14, 25, "Each of 25 children has 12.3 square meters (133 sq ft), within the 110 to 150 sq ft"),
        (12, 8, 25, "Each of 25 children has 3.8 square meters (41 sq ft), less than the 110 to 150 sq ft"),
        (40, 30, 1, "The only child has 1200.0 square meters (12917 sq ft), more than the 110 to 150 sq ft"),
        # The specification of 5075 sq ft is 471 m2 and 203 sq ft for each of 25 (EQ-014).
        (23.55, 20.02, 25, "Each of 25 children has 18.9 square meters (203 sq ft), more than the 110 to 150 sq ft"),
    ],
)
def test_floor_per_child(length: float, width: float, children: int, says: str) -> None:
    """The published range of 110 to 150 sq ft is from memory (EQ-015)."""
    answer = floor_per_child(Room(length, width), children)

    assert answer.says.startswith(says)
    assert answer.reaches == ("less" not in answer.says)
