"""``rotation``: which squad is at which station, and when."""

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import change_time, duration, whole_number
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.handout import add_handout_arguments, write_handouts, write_page
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.model import Document
    from lessonkit.logistics.rotation import Rotation

NAME = "rotation"
HELP = "Make the timetable of squads that go from station to station."
EXAMPLES = (
    ("lessonkit rotation --squads 6 --stations 6 --work 4 --change 1", "who is where, and when"),
    ("lessonkit rotation --squads 6 --stations 4 --extra share", "two squads at some stations, nobody rests"),
    ("lessonkit rotation --squads 4 --stations 4 --balanced", "no station always follows the same other"),
    ("lessonkit rotation --squads 5 --stations 5 --minutes 20", "the longest turns that fit 20 minutes"),
    ("lessonkit rotation --squads 6 --stations 6 --svg map.svg", "a map with the way round as well"),
)
_MOST = 24
_COLUMNS = 6
"""Squads side by side in a table; more make a second table."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's options."""
    parser.add_argument("--squads", metavar="N", required=True, help=f"how many squads (1 to {_MOST})")
    parser.add_argument("--stations", metavar="N", help="how many stations (default: as many as squads)")
    parser.add_argument("--work", metavar="TIME", help="how long a turn lasts, such as 4 or 3:30 (default: 4)")
    parser.add_argument("--change", metavar="TIME", default="1", help="how long a change takes (default: 1)")
    parser.add_argument("--minutes", metavar="TIME", help="how long there is; sets the turns unless --work does")
    parser.add_argument("--balanced", action="store_true", help="every station follows every other equally often")
    parser.add_argument(
        "--extra",
        choices=("rest", "share"),
        default="rest",
        help="squads beyond the stations rest in turn (the default), or share stations",
    )
    add_handout_arguments(parser)
    parser.add_argument("--svg", metavar="FILE", help="also draw a map of the stations, as an SVG picture")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the timetable, and write the pages asked for. Returns 0."""
    squads = whole_number(args.squads, "--squads", "squads", 1, _MOST)
    stations = whole_number(args.stations, "--stations", "stations", 1, _MOST) if args.stations else squads
    plan, opening = _rotation(args, squads, stations)
    says = (plan.says, *opening)
    for sentence in says:
        terminal.tell(sentence)
    for first in range(0, plan.squads, _COLUMNS):
        terminal.line()
        for line in grid(*_table(plan, first, min(first + _COLUMNS, plan.squads)), terminal.width):
            terminal.line(line)
    write_handouts(args, lambda: _sheet(plan, says), terminal)
    if args.svg:
        write_page(Path(args.svg), ".svg", _map(plan, arrows=not args.balanced), terminal)
    return 0


def _rotation(args: argparse.Namespace, squads: int, stations: int) -> "tuple[Rotation, tuple[str, ...]]":
    """Return the rotation that was asked for, and what its time means."""
    from lessonkit.logistics.rotation import CannotRotateError, rotation

    change = change_time(args.change, "--change")
    there_is = duration(args.minutes, "--minutes") if args.minutes else None
    turns = max(squads, stations) if args.extra == "rest" else stations
    work = duration(args.work or "4", "--work")
    if there_is is not None and args.work is None:
        work = _longest(there_is, turns, change)
    try:
        plan = rotation(squads, stations, work, change, order="balanced" if args.balanced else "next", extra=args.extra)
    except CannotRotateError as fault:
        raise CannotRunError(f"{str(fault)[:1].lower()}{str(fault)[1:]}") from None
    return plan, tuple(_time_says(plan, there_is))


def _longest(there_is: int, turns: int, change: int) -> int:
    """Return the longest turn, in whole 5 seconds, with which all turns fit."""
    from lessonkit.logistics.durations import say_duration
    from lessonkit.logistics.rotation import work_that_fits

    work = work_that_fits(there_is, turns, change) // 5 * 5
    if work < 5:
        raise CannotRunError(
            f"{turns} turns with a change of {say_duration(change)} between do not fit into {say_duration(there_is)}."
        )
    return work


def _time_says(plan: "Rotation", there_is: int | None) -> Iterator[str]:
    """Say how long turns and changes are, and how the whole stands to the time there is."""
    from lessonkit.logistics.durations import say_duration
    from lessonkit.logistics.rotation import turns_that_fit, work_that_fits

    change = f", {say_duration(plan.change)} to change" if plan.change else ""
    yield f"A turn is {say_duration(plan.work)}{change}."
    if there_is is None:
        return
    if plan.seconds <= there_is:
        over = there_is - plan.seconds
        yield f"{say_duration(over)} are left of {say_duration(there_is)}." if over else "That fills the time."
        return
    fitting = turns_that_fit(there_is, plan.work, plan.change)
    shorter = work_that_fits(there_is, len(plan.where), plan.change) // 5 * 5
    instead = f"; with turns of {say_duration(shorter)} all fit" if shorter >= 5 else ""
    yield f"Only {fitting} of {len(plan.where)} turns fit into {say_duration(there_is)}{instead}."


def _table(plan: "Rotation", first: int, last: int) -> tuple[list[str], list[list[str]]]:
    """Return the header and rows for some of the squads, counted from 0."""
    from lessonkit.logistics.durations import clock

    header = ["Turn", "Starts", *(f"Squad\u00a0{squad + 1}" for squad in range(first, last))]
    rows = [
        [str(turn), clock(starts), *("rest" if place is None else str(place) for place in row[first:last])]
        for turn, (starts, row) in enumerate(zip(plan.starts, plan.where, strict=True), 1)
    ]
    return header, rows


def _sheet(plan: "Rotation", says: tuple[str, ...]) -> "Document":
    from lessonkit.document.table_sheet import table_sheet

    header, rows = _table(plan, 0, plan.squads)
    note = "The numbers below a squad are its stations."
    return table_sheet(f"Stations for {plan.squads} squads", (*says, note), header, rows)


def _map(plan: "Rotation", *, arrows: bool) -> bytes:
    from lessonkit.document.rotation_map import rotation_map
    from lessonkit.writers.svg import picture_file

    beginning = tuple(plan.at(station, 0) for station in range(1, plan.stations + 1))
    begins = "; ".join(
        f"station {station}: {', '.join(f'squad {squad}' for squad in squads) or 'nobody'}"
        for station, squads in enumerate(beginning, 1)
    )
    return picture_file(rotation_map(beginning, arrows=arrows), f"Map of stations and who begins there. {begins}.")
