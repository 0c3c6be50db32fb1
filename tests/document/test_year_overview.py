"""The yearly overview says when each unit is, keeps to the standard, and tells what the year leaves out."""

from functools import cache
from pathlib import Path

from lessonkit.document.model import Cell, Document, Paragraph, Table, plain
from lessonkit.document.year_overview import year_documents
from lessonkit.loading.folder import load_folder
from lessonkit.records.library import Library
from lessonkit.writers.word.writer import pages, safe_pages, write
from tests.writers.word.word_parts import parts, schema_faults

CURRICULUM = Path(__file__).parents[2] / "curriculum"


@cache
def library() -> Library:
    """Load the shipped curriculum."""
    return load_folder(CURRICULUM, "curriculum").library


@cache
def documents() -> dict[str, Document]:
    """Return the overview documents of the shipped year by the names of their files."""
    (found,) = library().year_maps.values()
    return dict(year_documents(found, library(), safe_pages))


def _words(cell: Cell) -> str:
    return " ".join(plain(block.content) for block in cell.blocks if isinstance(block, Paragraph))


def test_the_school_has_one_page_with_every_unit() -> None:
    """The planner's rows span all weeks, and each unit of the map stands in a row with its dates."""
    school = documents()["year-school"]
    (planner,) = [block for block in school.blocks if isinstance(block, Table)]
    (found,) = library().year_maps.values()
    said = "\n".join(_words(cell) for row in planner.rows for cell in row)

    assert 1 == pages(school)
    assert {len(planner.shares)} == {sum(cell.span for cell in row) for row in planner.rows}
    assert all(library().units[each.unit].title in said for each in found.units)


def test_a_grade_names_what_the_year_leaves_out() -> None:
    """Outcomes practised and those listed as missing are together the active outcomes of the grade."""
    framework = library().frameworks["us-pe-2013"]
    for name, document in documents().items():
        if name == "year-school":
            continue
        grade = name.removeprefix("year-grade-").upper()
        active = [o for o in framework.outcomes if o.status == "active" and o.grade == grade]
        tables = [block for block in document.blocks if isinstance(block, Table)]
        missing = len(tables[1].rows) - 1 if len(tables) > 1 else 0
        counted = f"{len(active) - missing} of {len(active)}"

        assert any(counted in str(block) for block in document.blocks), name


def test_every_page_obeys_the_standard() -> None:
    """The schemas of ISO/IEC 29500-4 find nothing in any overview."""
    for document in documents().values():
        content = parts(write(document))["word/document.xml"]

        assert [] == schema_faults("word/document.xml", content)


def test_the_planner_fills_its_page() -> None:
    """The rows take more than half of the 535 points of a Letter sheet laid across, and still stand on one page."""
    planner = next(block for block in documents()["year-school"].blocks if isinstance(block, Table))

    assert planner.row_height * (len(planner.rows) - 1) > 535 / 2
    assert 1 == pages(documents()["year-school"])


def test_a_week_is_not_called_a_lesson() -> None:
    """A unit's first day is the Monday of its week, which may be a holiday or no day of the class at all."""
    table = next(block for block in documents()["year-grade-3"].blocks if isinstance(block, Table))
    mondays = [_words(row[0]) for row in table.rows[1:]]

    assert "Week of" == _words(table.rows[0][0])
    assert {"Mon"} == {words[:3] for words in mondays}
