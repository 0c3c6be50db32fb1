"""The rotation sheet of a circuit lesson: one page that says who is where."""

from lessonkit.document.lesson_facts import work_out
from lessonkit.document.model import Drawing, Paragraph, Table, plain
from lessonkit.document.rotation_sheet import rotation_sheets
from lessonkit.writers.word.writer import pages, write
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
    for _, sheet in rotation_sheets(work_out(with_circuit(), library())):
        content = parts(write(sheet))["word/document.xml"]

        assert 1 == pages(sheet)
        assert [] == schema_faults("word/document.xml", content)
