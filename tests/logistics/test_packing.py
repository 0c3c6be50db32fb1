"""As many areas are placed as a room can hold: held against slow counting by other means."""

from itertools import product
from typing import Any

import pytest
from ortools.sat.python import cp_model

from lessonkit.logistics.along_walls import along_walls
from lessonkit.logistics.floor import does_it_fit
from lessonkit.logistics.layout import Box, Need, Room
from lessonkit.logistics.packing import pack
from lessonkit.logistics.rows import most_by_counting, rows_and_columns
from lessonkit.records.school import Side

from .floors import every_place, every_place_at_walls, most_at_once

NONE: tuple[Box, ...] = ()
DOOR = (Box(2, 0, 1, 1),)
TINY_FLOORS = [
    (Need(length, width, safety), Room(long, deep, (), clear))
    for (length, width), safety, (long, deep), clear in product(
        ((2, 2), (3, 1), (3, 2), (4, 1), (4, 3), (5, 2)), (0, 1), ((7, 5), (8, 6), (9, 4), (11, 2)), (NONE, DOOR)
    )
]


@pytest.mark.parametrize(("need", "room"), TINY_FLOORS)
def test_the_answer_is_the_most_by_brute_force(need: Need, room: Room) -> None:
    """With whole metres every packing can be pushed onto whole metres; networkx finds the largest clique of these."""
    most = most_at_once(every_place(need, room), need.safety)

    assert most == does_it_fit(need, most + 1, room).largest
    assert most <= most_by_counting(need, room)
    assert len(rows_and_columns(need, room)) <= most


@pytest.mark.parametrize(
    "walls", [("far",), ("far", "left"), ("far", "left", "near"), ("far", "left", "near", "right")]
)
@pytest.mark.parametrize("need", [Need(2, 2, 1, True), Need(1, 3, 0, True), Need(3, 1, 0, True), Need(2, 3, 1, True)])
@pytest.mark.parametrize("clear", [NONE, DOOR])
def test_walls_hold_the_most_by_brute_force(need: Need, walls: tuple[Side, ...], clear: tuple[Box, ...]) -> None:
    """The same by networkx for places at whole metres along the walls."""
    room = Room(10, 8, walls, clear)

    assert most_at_once(every_place_at_walls(need, room), need.safety) == len(along_walls(need, room))


@pytest.mark.parametrize(
    ("need", "clear", "rows", "most"),
    [
        # Courts of 5 by 4 m for ages 7 to 10 (mini-volleyball, Polish federation form, EQ-018); 15 cover 300 of 308 m2.
        (Need(5, 4), NONE, 14, 15),
        # By counting 14 are possible, and without the door there are 14.
        (Need(4.2, 3.1, 0.7), (Box(21, 0.6, 1, 1.8),), 13, 13),
        (Need(4.2, 3.1, 0.7), NONE, 13, 14),
    ],
)
def test_the_solver_finds_and_proves_what_rows_do_not(need: Need, clear: tuple[Box, ...], rows: int, most: int) -> None:
    """The solver goes past rows where there is more to be had, and proves that there is not where there is none.

    The area of 22 by 14 m over 5 by 4 m allows at most 15.4 courts; the next test finds 15 by another model.
    """
    room = Room(22, 14, (), clear)
    packed = pack(need, room, 1000)

    assert rows == len(rows_and_columns(need, room))
    assert (most, most) == (len(packed.placed), packed.most)


def test_another_model_finds_the_same_courts() -> None:
    """Intervals without overlap in two dimensions, another model of the same question, place 15 courts too."""
    model: Any = cp_model.CpModel()
    spans: tuple[list[Any], list[Any]] = ([], [])
    before = None
    for _ in range(15):
        turned = model.new_bool_var("")
        along, across = 4 + (1 - turned), 4 + turned
        x, y = model.new_int_var(0, 22, ""), model.new_int_var(0, 14, "")
        right, far = model.new_int_var(0, 22, ""), model.new_int_var(0, 14, "")
        spans[0].append(model.new_interval_var(x, along, right, ""))
        spans[1].append(model.new_interval_var(y, across, far, ""))
        if before is not None:
            model.add(before <= x)
        before = x
    model.add_no_overlap_2d(*spans)
    solver: Any = cp_model.CpSolver()
    solver.parameters.catch_sigint_signal = False  # it would leave Ctrl-C with the system for all later tests
    solver.parameters.num_workers = 1

    assert cp_model.OPTIMAL == solver.solve(model)


def test_twelve_courts_in_a_gym_are_proven() -> None:
    """Twelve courts of 7.4 by 2.7 m stand in a gym of 22 by 14 m with a door, and a thirteenth is ruled out.

    Rows find 11, and counting alone leaves room for 13 (21.8 x 13.8 m2 over 7.6 x 2.9 m2 is 13.6), so both the twelfth
    court and the proof are the solver's.
    """
    need, room = Need(7.4, 2.7, 0.2), Room(22, 14, (), (Box(21, 0.6, 1, 1.8),))
    assert (11, 13) == (len(rows_and_columns(need, room)), most_by_counting(need, room))

    answer = does_it_fit(need, 20, room)

    assert (12, True) == (answer.largest, answer.proven)


def test_a_floor_of_countless_places_is_answered_by_rows() -> None:
    """Where tiny areas could stand at more places than the solver is given, rows answer and say so."""
    answer = does_it_fit(Need(0.37, 0.23), 20_000, Room(30, 20))

    assert answer.largest >= 81 * 86
    assert not answer.proven
    assert "were found to fit" in answer.says
