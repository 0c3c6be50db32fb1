"""A lesson prints on the two pages of a sheet, and leaves out as little as can be."""

from dataclasses import replace

import pytest

from lessonkit.document.detail import Cut, last_true
from lessonkit.document.lesson_flow import Flow
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.model import Block, ListBlock, Paragraph, Table, plain
from lessonkit.writers.word.writer import safe_pages
from tests.document.sheet_plans import plan_facts


def flow(grade: str = "5") -> Flow:
    """Return the flow of a lesson of the longest activities."""
    return Flow(plan_facts(grade).lessons[0])


def words(blocks: tuple[Block, ...]) -> list[str]:
    """Return the words of paragraphs, of lists and of tables, in their order."""
    found: list[str] = []
    for block in blocks:
        match block:
            case Paragraph():
                found.extend(plain(block.content).split())
            case ListBlock():
                found.extend(word for item in block.items for word in words(item))
            case Table():
                found.extend(word for row in block.rows for cell in row for word in words(cell.blocks))
            case _:
                pass
    return found


def lists(table: Table) -> list[tuple[int | None, int]]:
    """Return the first number and the items of every list of a table."""
    blocks = [block for row in table.rows for cell in row for block in cell.blocks]
    return [(block.start, len(block.items)) for block in blocks if isinstance(block, ListBlock)]


@pytest.mark.parametrize("grade", ["K", "1", "3", "5"])
def test_a_lesson_of_the_longest_activities_takes_a_sheet(grade: str) -> None:
    """Two pages, and every step stands on them."""
    facts = plan_facts(grade, 36)
    for number in (1, 2):
        document = lesson_document(facts, number, safe_pages)
        shown = " ".join(words(document.blocks))

        assert safe_pages(document) <= 2
        assert all(slot.activity.title.split()[-1] in shown for slot in facts.lessons[number - 1].slots)


def test_a_parted_activity_keeps_its_words_and_its_numbers() -> None:
    """The second row has the clock again, and its list counts on where the first one ended."""
    whole, parted = flow().table(0), flow().table(0, Cut(1, 4))
    (start, steps) = lists(whole)[1]

    assert len(whole.rows) + 1 == len(parted.rows)
    assert [(start, 2), ((start or 0) + 2, steps - 2)] == lists(parted)[1:3]
    assert words((whole,)) == words((replace(parted, rows=parted.rows[:3]),)) + words(parted.rows[3][1].blocks) + words(
        (replace(parted, rows=parted.rows[4:]),)
    )
    assert "goes on" == " ".join(words(parted.rows[3][0].blocks)[1:])


def test_a_table_ends_at_a_cut() -> None:
    """As far as a cut the table is the same as the parted one."""
    until = flow().table(0, until=Cut(1, 4))

    assert until.rows == flow().table(0, Cut(1, 4)).rows[:3]


def test_an_activity_is_not_parted_at_its_edges() -> None:
    """A title, cues and a step stand at the foot of a page, two paragraphs at the head of the next."""
    cuts = [cut.after for cut in flow().cuts(0) if cut.place == 0]

    assert 3 == cuts[0]
    assert cuts[-1] - 2 == cuts[-2]


@pytest.mark.parametrize("count", [1, 2, 7, 30])
def test_the_last_place_that_holds_is_found_from_anywhere(count: int) -> None:
    """Every answer is found from every beginning, and no place is looked at twice."""
    for answer in range(-1, count):
        for near in (-1, 0, count // 2, count):
            asked: list[int] = []

            def holds(place: int, answer: int = answer, asked: list[int] = asked) -> bool:
                asked.append(place)
                return place <= answer

            assert answer == last_true(holds, count, near)
            assert len(asked) == len(set(asked))
