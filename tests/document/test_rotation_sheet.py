"""The rotation sheet of a circuit lesson: one page that says who is where."""

import pytest

from lessonkit.document.lesson_facts import work_out
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
    """A round has as many ways as stations, and every box holds its number and its squad."""
    scene = wall_map(stations, 680)
    boxes = [shape for shape in scene.shapes if isinstance(shape, Area)]
    labels = [shape for shape in scene.shapes if isinstance(shape, Label)]

    assert stations == len(boxes) == sum(isinstance(shape, Way) for shape in scene.shapes)
    for box, number in zip(boxes, range(1, stations + 1), strict=True):
        inside = {
            each.words for each in labels if box.x < each.x < box.x + box.width and box.y < each.y < box.y + box.depth
        }
        assert {str(number), f"squad {number}"} == inside


@pytest.mark.parametrize("stations", [2, 3, 4, 5, 6])
def test_the_squads_of_a_wall_map_are_read_from_three_metres(stations: int) -> None:
    """Letters of 36 points, whose capitals are 8 mm high (common practice, no source), find room in their boxes."""
    across = least_across(stations)[0]
    scene = wall_map(stations, across)
    meant = [shape for shape in scene.shapes if isinstance(shape, Label)]
    placed = [shape for shape in settle(scene, across / scene.width).shapes if isinstance(shape, Label)]

    assert {36.0} == {LABEL_POINTS[label.size] for label in placed}
    assert [(label.words, round(label.x, 2), round(label.y, 2)) for label in meant] == [
        (label.words, round(label.x, 2), round(label.y, 2)) for label in placed
    ]
