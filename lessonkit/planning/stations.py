"""What stands in the way of an activity as a station of a circuit, where a squad does it instead of the whole class.

The floor is shared out in equal cells, one a station, as near to squares as can be; an activity that fits its cell with
a squad leaves the other stations alone. Where the cells are one more than the stations, as for three or five, one
station may take two of them.
"""

from collections.abc import Iterator
from math import ceil

import msgspec

from lessonkit.logistics.activity_time import active_minutes
from lessonkit.logistics.equipment import needed
from lessonkit.logistics.floor import fits
from lessonkit.logistics.groups import CannotGroupError, group
from lessonkit.logistics.words import listed
from lessonkit.planning.case import LeftOut, counted
from lessonkit.planning.eligible import Setting
from lessonkit.planning.said import Said
from lessonkit.records.activity import Activity
from lessonkit.records.measures import Length
from lessonkit.records.school import Space


def squad_of(children: int, stations: int) -> int:
    """Return how many children the largest squad has."""
    return ceil(children / stations)


def cell_of(space: Space, stations: int, safety: float = 0.0) -> Space:
    """Return the part of a space that one of several stations has for itself.

    The clear distance around an activity (``safety``, in metres) is shared with the neighbours, half by each.
    """
    columns, rows = _grid(space, stations)
    return msgspec.structs.replace(
        space, length=_share(space.length, columns, safety), width=_share(space.width, rows, safety), doors=()
    )


def _grid(space: Space, stations: int) -> tuple[int, int]:
    """Return the columns and rows of a circuit's cells: as many as there are stations, or one more."""
    length, width = space.length.metres, space.width.metres

    def stretch(columns: int) -> float:
        across, down = length / columns, width / ceil(stations / columns)
        return max(across, down) / min(across, down)

    grids = [number for number in range(1, stations + 1) if number * ceil(stations / number) <= stations + stations % 2]
    columns = min(grids, key=lambda number: (round(stretch(number), 6), number))
    return columns, ceil(stations / columns)


def _share(length: Length, pieces: int, safety: float, taken: int = 1) -> Length:
    if pieces <= taken:
        return length
    metres = taken * length.metres / pieces + safety / 2
    return Length(metres, f"{metres:.1f} m")


def station_bars(activity: Activity, setting: Setting) -> Iterator[LeftOut]:
    """Yield why an activity, resolved for the grade, cannot be a station in some lessons."""
    if not activity.station:
        return
    for stations, space_id in sorted(_circuits(setting)):
        lessons = tuple(n for n, keys in enumerate(_circuits_of(setting)) if (stations, space_id) in keys)
        answer = _why_not(activity, setting, stations, space_id)
        if answer is not None:
            code, field, says = answer
            yield LeftOut(activity.id, code, lessons, Said("activity", activity.id, (field,), says), station=True)


def _circuits_of(setting: Setting) -> list[set[tuple[int, str]]]:
    return [
        {(stations, space) for stations in circuits}
        for circuits, space in zip(setting.circuits, setting.spaces, strict=True)
    ]


def _circuits(setting: Setting) -> set[tuple[int, str]]:
    return {key for keys in _circuits_of(setting) for key in keys}


def _why_not(activity: Activity, setting: Setting, stations: int, space_id: str) -> tuple[str, str, str] | None:
    squad = squad_of(setting.school_class.children, stations)
    as_station = f"{activity.title} as one of {counted(stations, 'station')}"
    try:
        group(activity.organisation, squad)
    except CannotGroupError as error:
        return "station-size", "organisation", f"{as_station} cannot group a squad of {squad}: {error}"
    short = []
    for item, count in needed(activity, squad).items():
        owned = setting.school.owned(item)
        if count > owned:
            name = setting.library.items[item].plural if item in setting.library.items else item
            short.append(f"{count} {name} (there are {owned})")
    if short:
        return "station-equipment", "equipment", f"{as_station} needs {listed(short)} for a squad of {squad}."
    space = setting.school.space(space_id)
    if activity.floor.where not in ("either", space.where):
        says = f"{activity.title} is for {activity.floor.where} only, and {space.title} is {space.where}."
        return "station-where", "floor", says
    if not _fits_one(activity, stations, space, squad) and not _fits_two(activity, stations, space, squad):
        share = f"its share of {space.title}, {_metres(cell_of(space, stations))}"
        return "station-floor", "floor", f"{as_station} does not fit {share}, with a squad of {squad}."
    return None


def _fits_one(activity: Activity, stations: int, space: Space, squad: int) -> bool:
    """Tell whether an activity fits one station's share of a space. Raises CannotGroupError."""
    return fits(activity, squad, cell_of(space, stations, activity.floor.clear)).fits


def _fits_two(activity: Activity, stations: int, space: Space, squad: int) -> bool:
    """Tell whether an activity fits two cells side by side where the grid has a cell more than there are stations."""
    columns, rows = _grid(space, stations)
    if columns * rows == stations:
        return False
    safety = activity.floor.clear
    long = (_share(space.length, columns, safety, 2), _share(space.width, rows, safety))
    wide = (_share(space.length, columns, safety), _share(space.width, rows, safety, 2))
    cells = (msgspec.structs.replace(space, length=length, width=width, doors=()) for length, width in (long, wide))
    return any(fits(activity, squad, cell).fits for cell in cells)


def wide_lessons(activity: Activity, setting: Setting) -> tuple[int, ...]:
    """Return the lessons in whose circuit an activity takes two cells of the floor; one station of a circuit may."""
    if not activity.station:
        return ()
    found = []
    for lesson, keys in enumerate(_circuits_of(setting)):
        for stations, space_id in keys:
            squad, space = squad_of(setting.school_class.children, stations), setting.school.space(space_id)
            try:
                one = _fits_one(activity, stations, space, squad)
            except CannotGroupError:
                continue
            if not one and _fits_two(activity, stations, space, squad):
                found.append(lesson)
    return tuple(sorted(set(found)))


def _metres(cell: Space) -> str:
    return f"{cell.length.metres:.1f} m by {cell.width.metres:.1f} m"


def station_needs(activity: Activity, setting: Setting) -> tuple[tuple[int, str, int], ...]:
    """Return (stations, item, count) for what a squad needs at an activity, for every number of stations there is."""
    if not activity.station:
        return ()
    found = []
    for stations in sorted({number for numbers in setting.circuits for number in numbers}):
        try:
            needs = needed(activity, squad_of(setting.school_class.children, stations))
        except CannotGroupError:
            continue
        found += [(stations, item, count) for item, count in needs.items()]
    return tuple(found)


def station_share(activity: Activity, setting: Setting) -> float:
    """Return the least share of its time that a child of a squad moves at an activity, from 0 to 1."""
    shares = []
    for stations in sorted({number for numbers in setting.circuits for number in numbers}):
        squad = squad_of(setting.school_class.children, stations)
        try:
            shares.append(active_minutes(activity, squad, 1.0, "any-movement"))
        except CannotGroupError:
            shares.append(0.0)
    return min(shares, default=0.0)
