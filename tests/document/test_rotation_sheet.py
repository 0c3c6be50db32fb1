"""The rotation sheet of a circuit lesson: one page that says who is where."""

from dataclasses import replace

import msgspec
import pytest

from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.model import Drawing, Paragraph, Table, plain
from lessonkit.document.poster_words import POINTS
from lessonkit.document.rotation_map import least_across, wall_map
from lessonkit.document.rotation_sheet import rotation_sheets
from lessonkit.document.scene import Area, Label, Way
from lessonkit.writers.forms import LABEL_POINTS
from lessonkit.writers.settle import settle
from lessonkit.writers.word.writer import pages, safe_pages, write
from tests.by_hand import library
from tests.writers.word.word_parts import parts, schema_faults

from .test_circuits_and_settings import with_circuit

ACTIVITIES = (
    "splash-in-the-puddle",
    "milk-route",
    "reflection-in-the-canal",
    "around-the-duck-pond",
    "paddle-to-paddle",
    "balloon-post",
    "moving-van",
    "lamps-in-the-window",
)


def test_each_squad_meets_each_station_once() -> None:
    """As many squads as stations: over the turns, every station's row names every squad once (common practice)."""
    ((_, sheet),) = rotation_sheets(work_out(with_circuit(), library()))
    (table,) = [block for block in sheet.blocks if isinstance(block, Table)]
    rows = [
        [plain(block.content) for cell in row[1:] for block in cell.blocks if isinstance(block, Paragraph)]
        for row in table.rows[1:]
    ]

    assert len(rows) > 1
    assert all(sorted(row) == [f"squad {squad}" for squad in range(1, len(rows) + 1)] for row in rows)
    assert 1 == sum(isinstance(block, Drawing) for block in sheet.blocks)


def test_the_sheet_is_one_page_and_obeys_the_standard() -> None:
    """One page; the schemas of ISO/IEC 29500-4 find nothing."""
    for _, sheet in rotation_sheets(work_out(with_circuit(), library()), safe_pages):
        content = parts(write(sheet))["word/document.xml"]

        assert 1 == pages(sheet)
        assert [] == schema_faults("word/document.xml", content)


def test_the_sheet_is_read_on_the_wall() -> None:
    """The squads of two stations stand in letters of 20 points at least (7 mm lines; common practice, no source)."""
    ((_, sheet),) = rotation_sheets(work_out(with_circuit(), library()), safe_pages)
    (table,) = [block for block in sheet.blocks if isinstance(block, Table)]
    roles = {block.role for row in table.rows for cell in row for block in cell.blocks if isinstance(block, Paragraph)}

    assert all(POINTS[role] >= 20 for role in roles)


@pytest.mark.parametrize("stations", [2, 3, 4, 5, 6, 8])
def test_every_station_of_a_wall_map_leads_on_to_the_next(stations: int) -> None:
    """A round has as many ways as stations; every box holds its number, of up to four also its squad."""
    scene = wall_map(stations, 680)
    boxes = [shape for shape in scene.shapes if isinstance(shape, Area)]
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]

    assert stations == len(boxes) == sum(isinstance(shape, Way) for shape in scene.shapes)
    for box, number in zip(boxes, range(1, stations + 1), strict=True):
        inside = {
            each.words for each in labels if box.x < each.x < box.x + box.width and box.y < each.y < box.y + box.depth
        }
        assert ({str(number), f"squad {number}"} if stations <= 4 else {str(number)}) == inside


@pytest.mark.parametrize("stations", [2, 3, 4, 5, 6, 8])
def test_the_words_of_a_wall_map_are_read_from_three_metres(stations: int) -> None:
    """Letters of 36 points, whose capitals are 8 mm high (common practice, no source), find room in their boxes."""
    across = least_across(stations)[0]
    scene = wall_map(stations, across)
    meant = [shape for shape in scene.shapes if isinstance(shape, Label)]
    placed = [shape for shape in settle(scene, across / scene.width).shapes if isinstance(shape, Label)]

    assert {36.0} == {LABEL_POINTS[label.size] for label in placed}
    assert [(label.words, round(label.x, 2), round(label.y, 2)) for label in meant] == [
        (label.words, round(label.x, 2), round(label.y, 2)) for label in placed
    ]


def circuit_of(stations: int, paper: str) -> PlanFacts:
    """Return the plan's lesson with a circuit of so many stations, five minutes at each."""
    plan = with_circuit()
    slot = next(each for each in plan.lessons[0].activities if each.station)
    slots = tuple(
        msgspec.structs.replace(slot, activity=activity, station=number, minutes=5, assess=())
        for number, activity in enumerate(ACTIVITIES[:stations], 1)
    )
    lesson = msgspec.structs.replace(plan.lessons[0], activities=slots, minutes=60)
    school = msgspec.structs.replace(library().schools["quillfeather"], paper=paper)
    shelf = replace(library(), schools={school.id: school})
    return work_out(msgspec.structs.replace(plan, lessons=(lesson,)), shelf)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("stations", [5, 6, 7, 8])
def test_a_large_circuit_is_read_from_three_metres(stations: int, paper: str) -> None:
    """On one page the map keeps capitals of 8 mm, the sentence letters of 20 points (common practice, no source)."""
    ((_, sheet),) = rotation_sheets(circuit_of(stations, paper), safe_pages)
    (drawn,) = [block for block in sheet.blocks if isinstance(block, Drawing)]
    (sentence,) = [block for block in sheet.blocks if isinstance(block, Paragraph)]

    assert 1 == pages(sheet)
    assert {36.0} == {LABEL_POINTS[shape.size] for shape in drawn.scene.shapes if isinstance(shape, Label)}
    assert POINTS[sentence.role] >= 20


def test_a_map_without_room_is_left_out() -> None:
    """Where no map goes onto the page, the sheet is the table alone, not a map in letters that nobody can read."""
    ((_, sheet),) = rotation_sheets(
        circuit_of(8, "a4"), lambda tried: 1 + any(isinstance(block, Drawing) for block in tried.blocks)
    )

    assert [] == [block for block in sheet.blocks if isinstance(block, Drawing)]
    assert 1 == sum(isinstance(block, Table) for block in sheet.blocks)
