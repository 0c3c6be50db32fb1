"""The timetable of a lesson's circuits: which squad is at which station in which minutes."""

from collections.abc import Iterable

from lessonkit.document.lesson_facts import LessonFacts, SlotFacts, stations_of
from lessonkit.document.model import Paragraph, Role, Table, text
from lessonkit.document.pieces import EN_DASH, cell, words_cell
from lessonkit.logistics.rotation import rotation

_MOST_IN_LINE = 4
"""Columns whose heads have room for their words in one line."""


def circuits(lesson: LessonFacts) -> tuple[tuple[SlotFacts, ...], ...]:
    """Return the circuits of a lesson, each with its stations in their order."""
    return tuple(part for part in stations_of(lesson.slots) if len(part) > 1)


def circuit_says(part: tuple[SlotFacts, ...]) -> str:
    """Say how many stations and squads there are, for how long, and where each squad begins."""
    slot = part[0].slot
    change = f", {slot.setup} min to change" if slot.setup else ""
    return (
        f"Circuit of {len(part)} stations for {len(part)} squads: {slot.minutes} min at each{change}. "
        "Each squad begins at the station of its number and moves on to the next."
    )


def circuit_table(part: tuple[SlotFacts, ...], role: Role = Role.BODY, *, tall: bool = False) -> Table:
    """Return who is at which station in which minutes; ``role`` gives the letters.

    With ``tall``, as of five stations, a column's minutes stand on a line of their own, so that they stay whole.
    """
    number, first = len(part), part[0]
    turns = rotation(number, number, first.slot.minutes * 60, first.slot.setup * 60)
    line = " " if number <= _MOST_IN_LINE and not tall else "\n"
    times = (f"minutes{line}{facts.starts}{EN_DASH}{facts.ends}" for facts in part)
    heads = (cell(*(Paragraph(text(words), role) for words in time.split("\n"))) for time in times)
    header = (words_cell("Station", role), *heads)
    rows = tuple(
        (
            words_cell(f"{station}  {facts.activity.title}", role),
            *(words_cell(listed_squads(turns.at(station, turn)), role) for turn in range(number)),
        )
        for station, facts in enumerate(part, 1)
    )
    shares = (36.0, *([64.0 / number] * number))
    return Table((header, *rows), shares, "Who is at which station, minute by minute", row_header=True)


def listed_squads(squads: Iterable[int]) -> str:
    """Return the squads of a station, as ``squad 1, squad 4``."""
    return ", ".join(f"squad {squad}" for squad in squads)
