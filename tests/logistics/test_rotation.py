"""Squads meet every station once, and the timetable adds up."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.latin_squares import balanced_square, is_balanced, is_latin, next_station_square
from lessonkit.logistics.rotation import CannotRotateError, Extra, rotation, turns_that_fit, work_that_fits


def test_six_squads_end_where_a_seventh_turn_would_begin_again() -> None:
    """Six squads over six stations meet each once; one more move leads back to the start (common practice)."""
    found = rotation(6, 6, 240, 60)
    moved_on = tuple(place % 6 + 1 for place in found.where[5] if place)

    assert all({1, 2, 3, 4, 5, 6} == set(turn) for turn in found.where)
    assert all({1, 2, 3, 4, 5, 6} == set(squad) for squad in zip(*found.where, strict=True))
    assert moved_on == found.where[0]


def test_the_clock_adds_up() -> None:
    """Six turns of 4 minutes and five changes of 1 minute are 29 minutes (by hand)."""
    found = rotation(6, 6, 240, 60)

    assert (0, 300, 600, 900, 1200, 1500) == found.starts
    assert 29 * 60 == found.seconds
    assert "Six squads over six stations: six turns, 29 min; every squad meets every station once." == (
        found.says.replace("\u00a0", " ")
    )


@settings(deadline=None)
@given(squads=st.integers(1, 15), stations=st.integers(1, 15), extra=st.sampled_from(("rest", "share")))
def test_every_squad_meets_every_station_once(squads: int, stations: int, extra: Extra) -> None:
    """Whatever the numbers; a resting rotation has one squad at a station, a sharing one lets nobody rest."""
    found = rotation(squads, stations, 60, 10, extra=extra)

    for squad in range(squads):
        places = [turn[squad] for turn in found.where]
        assert list(range(1, stations + 1)) == sorted(place for place in places if place)
        assert extra == "rest" or None not in places
    for turn in range(len(found.where)):
        here = [found.at(station, turn) for station in range(1, stations + 1)]
        assert extra == "share" or all(len(squads_there) <= 1 for squads_there in here)
        assert max(map(len, here)) <= -(-squads // stations)


@pytest.mark.parametrize(
    ("squads", "stations", "extra", "says"),
    [
        (5, 4, "rest", "one squad rests in every turn, and each squad rests once."),
        (7, 5, "rest", "two squads rest in every turn, and each squad rests twice."),
        (5, 4, "share", "up to two squads share a station."),
        (4, 6, "rest", "two stations stand empty in every turn."),
    ],
)
def test_unequal_numbers_are_said_plainly(squads: int, stations: int, extra: Extra, says: str) -> None:
    """What happens when squads and stations differ in number (by counting)."""
    assert rotation(squads, stations, 60, 10, extra=extra).says.endswith(says)


@pytest.mark.parametrize("stations", range(2, 13))
def test_balanced_squares_are_balanced(stations: int) -> None:
    """An even number needs n rows, an odd one 2n (Bradley 1958); the plain rotation is never balanced beyond two."""
    rows = balanced_square(stations)

    assert stations * (1 + stations % 2) == len(rows)
    assert is_balanced(rows)
    assert is_latin(next_station_square(stations))
    assert (stations == 2) == is_balanced(next_station_square(stations))


@pytest.mark.parametrize("rows", [(), ((1, 2), (1,)), ((1, 2), (1, 2)), ((1, 1), (2, 2)), ((1, 2, 3), (2, 3, 1))])
def test_what_is_no_square_is_refused(rows: tuple[tuple[int, ...], ...]) -> None:
    """A row holds each thing once, and so does a column (definition of a Latin square)."""
    assert not is_latin(rows)
    assert not is_balanced(rows)


def test_a_balanced_rotation_walks_the_square() -> None:
    """Six squads over six stations in a balanced order: 30 ordered neighbours, each once (by counting)."""
    found = rotation(6, 6, 60, 10, order="balanced")
    orders = list(zip(*found.where, strict=True))

    assert is_balanced(orders)


@pytest.mark.parametrize(
    ("squads", "stations", "work", "change", "order", "says"),
    [
        (0, 4, 60, 10, "next", "needs a squad and a station"),
        (4, 0, 60, 10, "next", "needs a squad and a station"),
        (4, 4, 0, 10, "next", "takes a second at least"),
        (5, 5, 60, 10, "balanced", "an odd number of places needs 10 squads"),
        (3, 6, 60, 10, "balanced", "three squads over six stations: it needs 6 squads"),
    ],
)
def test_what_cannot_be_is_said(squads: int, stations: int, work: int, change: int, order: str, says: str) -> None:
    """No timetable without squads, stations or time, and no balance where there is none."""
    with pytest.raises(CannotRotateError, match=says):
        rotation(squads, stations, work, change, order=order)  # type: ignore[arg-type]


@settings(deadline=None)
@given(seconds=st.integers(1, 4000), work=st.integers(1, 600), change=st.integers(0, 120))
def test_turns_that_fit_do_fit(seconds: int, work: int, change: int) -> None:
    """So many turns and the changes between them take no longer than there is; one more would (by adding up)."""
    turns = turns_that_fit(seconds, work, change)

    assert turns == 0 or turns * work + (turns - 1) * change <= seconds
    assert (turns + 1) * work + turns * change > seconds
    if turns:
        assert work <= work_that_fits(seconds, turns, change)
