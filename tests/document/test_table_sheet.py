"""A page for the gym wall has letters as large as it holds, and stays one page."""

import pytest

from lessonkit.document.model import Paragraph, Table
from lessonkit.document.poster_words import POINTS
from lessonkit.document.table_sheet import table_sheet
from lessonkit.writers.word.writer import pages

SAYS = ("Nobody meets the same child twice in three rounds; more than seven such rounds cannot be had.",)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(
    ("columns", "rows", "least"), [(2, 3, 34.0), (4, 10, 20.0), (9, 7, 20.0), (9, 11, 11.5), (4, 60, 0.0)]
)
def test_letters_are_as_large_as_the_page_holds(paper: str, columns: int, rows: int, least: float) -> None:
    """20 points are read from two metres and 34 from three (common practice, no source); long lists stay small."""
    header = ["Round", *(f"Court {number}" for number in range(1, columns))]
    table = [[str(row), *("1 v 4" for _ in header[1:])] for row in range(1, rows + 1)]
    sheet = table_sheet("Games for 4 teams", SAYS, header, table, paper=paper)
    (made,) = (block for block in sheet.blocks if isinstance(block, Table))
    roles = {block.role for row in made.rows for cell in row for block in cell.blocks if isinstance(block, Paragraph)}

    assert len(roles) == 1
    assert POINTS.get(roles.pop(), 9.0) >= least
    assert 1 == pages(sheet) or least == 0.0


def test_columns_have_room_for_their_longest_word() -> None:
    """A column of numbers is narrower than one of names, and none tears a word (widths in points of 490)."""
    sheet = table_sheet("Groups", (), ("Group", "Who"), [("1", "Marigold, Buttercup, Foxglove and Cornflower")])
    (made,) = (block for block in sheet.blocks if isinstance(block, Table))

    assert made.shares[0] < made.shares[1]
    assert sum(made.shares) <= 491
