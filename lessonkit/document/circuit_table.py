"""The timetable of a lesson's circuits: which squad is at which station in which minutes."""

from collections.abc import Iterator

from lessonkit.document.lesson_facts import LessonFacts, SlotFacts, stations_of
from lessonkit.document.model import Block, Paragraph, Table, text
from lessonkit.document.pieces import EN_DASH, words_cell
from lessonkit.logistics.rotation import rotation


def circuit_tables(lesson: LessonFacts) -> Iterator[Block]:
    """Yield a sentence and a table for every circuit of a lesson; nothing for a lesson without stations."""
    for part in stations_of(lesson.slots):
        if len(part) > 1:
            yield Paragraph(text(_says(part)))
            yield _table(part)


def _says(part: tuple[SlotFacts, ...]) -> str:
    slot = part[0].slot
    change = f", {slot.setup} min to change" if slot.setup else ""
    return (
        f"Circuit of {len(part)} stations for {len(part)} squads: {slot.minutes} min at each{change}. "
        "Each squad begins at the station of its number and moves on to the next."
    )


def _table(part: tuple[SlotFacts, ...]) -> Table:
    number, first = len(part), part[0]
    turns = rotation(number, number, first.slot.minutes * 60, first.slot.setup * 60)
    times = [f"{facts.starts}{EN_DASH}{facts.ends}" for facts in part]
    header = (words_cell("Station"), *(words_cell(time) for time in times))
    rows = tuple(
        (
            words_cell(f"{station}  {facts.activity.title}"),
            *(words_cell(", ".join(f"squad {squad}" for squad in turns.at(station, turn))) for turn in range(number)),
        )
        for station, facts in enumerate(part, 1)
    )
    share = 64.0 / number
    return Table(
        (header, *rows), (36.0, *([share] * number)), "Who is at which station, minute by minute", row_header=True
    )
