"""Squads over stations: who is where and when, until every squad has met every station once."""

from dataclasses import dataclass
from typing import Literal

from lessonkit.logistics.durations import say_duration
from lessonkit.logistics.latin_squares import balanced_square, next_station_square
from lessonkit.logistics.words import counted, number, opened

Order = Literal["next", "balanced"]
"""To the next station each time; or balanced, so that no station always follows the same other."""
Extra = Literal["rest", "share"]
"""What squads beyond the number of stations do: rest in turn, or share a station with another squad."""


class CannotRotateError(Exception):
    """There is no such rotation; the message is a sentence for the teacher."""


@dataclass(frozen=True, slots=True)
class Rotation:
    """A timetable.

    ``where[turn][squad]`` is the station (from 1) of a squad (from 0), None for a rest. ``starts`` are the seconds from
    the beginning at which turns begin, ``seconds`` how long it all takes: turns, and a change between each two.
    """

    stations: int
    where: tuple[tuple[int | None, ...], ...]
    starts: tuple[int, ...]
    work: int
    change: int
    says: str

    @property
    def squads(self) -> int:
        """How many squads there are."""
        return len(self.where[0])

    @property
    def seconds(self) -> int:
        """How long the rotation takes, from the first start to the last whistle."""
        return self.starts[-1] + self.work

    def at(self, station: int, turn: int) -> tuple[int, ...]:
        """Return the squads (from 1) at a station (from 1) in a turn (from 0)."""
        return tuple(squad for squad, place in enumerate(self.where[turn], 1) if place == station)


def rotation(
    squads: int, stations: int, work: int, change: int, *, order: Order = "next", extra: Extra = "rest"
) -> Rotation:
    """Return the timetable of ``squads`` over ``stations`` with ``work`` seconds each and ``change`` between.

    Raises CannotRotateError for no squads, stations or time, and where a balanced order is not to be had.
    """
    if squads < 1 or stations < 1:
        raise CannotRotateError("A rotation needs a squad and a station at least.")
    if work < 1 or change < 0:
        raise CannotRotateError("A turn takes a second at least, and a change takes no less than no time.")
    places = max(squads, stations) if extra == "rest" else stations
    rows = balanced_square(places) if order == "balanced" else next_station_square(places)
    if order == "balanced":
        _must_balance(squads, stations, places, len(rows))
    where = tuple(
        tuple(_station(rows[squad % len(rows)][turn], stations) for squad in range(squads)) for turn in range(places)
    )
    starts = tuple(turn * (work + change) for turn in range(places))
    return Rotation(stations, where, starts, work, change, _says(where, stations, starts[-1] + work, extra))


def turns_that_fit(seconds: int, work: int, change: int) -> int:
    """Return how many turns of ``work`` seconds, with a change between each two, fit in a time."""
    return max(0, (seconds + change) // (work + change))


def work_that_fits(seconds: int, turns: int, change: int) -> int:
    """Return the whole seconds of work a turn may take so that so many turns fit; 0 or less where they do not."""
    return (seconds - (turns - 1) * change) // turns


def _must_balance(squads: int, stations: int, places: int, rows: int) -> None:
    if squads % rows:
        odd = f"an odd number of places needs {rows} squads" if places % 2 else f"it needs {rows} squads"
        what = f"{counted(squads, 'squad')} over {counted(stations, 'station')}"
        raise CannotRotateError(f"No balanced order for {what}: {odd}.")


def _station(place: int, stations: int) -> int | None:
    return place if place <= stations else None


def _says(where: tuple[tuple[int | None, ...], ...], stations: int, seconds: int, extra: Extra) -> str:
    squads, turns = len(where[0]), len(where)
    opening = (
        f"{opened(counted(squads, 'squad'))} over {counted(stations, 'station')}: {counted(turns, 'turn')}, "
        f"{say_duration(seconds)}"
    )
    if squads > stations and extra == "rest":
        resting = counted(squads - stations, "squad rests", "squads rest")
        return f"{opening}; {resting} in every turn, and each squad rests {_times(squads - stations)}."
    if squads > stations:
        most = max(row.count(1) for row in where)
        return f"{opening}; up to {number(most)} squads share a station."
    if squads < stations:
        return f"{opening}; {counted(stations - squads, 'station stands', 'stations stand')} empty in every turn."
    return f"{opening}; every squad meets every station once."


def _times(count: int) -> str:
    return "once" if count == 1 else "twice" if count == 2 else f"{number(count)} times"
