"""The lists of a binder: what to pull, whom to check, what a child counts."""

import pytest

from lessonkit.document.check_list import assessed_criteria, check_list_blocks
from lessonkit.document.detail import fullest, fullest_detail
from lessonkit.document.equipment_list import equipment_blocks
from lessonkit.document.model import Table, plain
from lessonkit.document.record_card import measured_tasks, record_card_blocks
from lessonkit.logistics.equipment import needed
from tests.document.printed import contents_of, facts, walk


def cells(table: Table) -> list[list[str]]:
    """Return the words of a table's cells, row by row."""
    return [
        [" ".join(plain(words) for block in walk(cell.blocks) for words in contents_of(block)) for cell in row]
        for row in table.rows
    ]


def tables(blocks: object) -> list[Table]:
    """Return the tables of blocks."""
    return [block for block in blocks if isinstance(block, Table)]  # type: ignore[attr-defined]  # any sequence of blocks


def test_most_is_the_largest_number_of_any_lesson() -> None:
    """Parts of a lesson follow each other, so its need is the largest of theirs; the unit's that of its lessons."""
    expected: dict[str, int] = {}
    for lesson in facts().lessons:
        for slot in lesson.slots:
            for item, count in needed(slot.activity, 25).items():
                name = facts().item_name(item, 2)
                expected[name] = max(expected.get(name, 0), count)
    rows = cells(tables(equipment_blocks(facts()))[0])

    assert ["Packed", "Item", "Most", "In school", "1", "2", "3"] == rows[0]
    assert expected == {row[1]: int(row[2]) for row in rows[1:]}
    assert [] == [row for row in rows[1:] if int(row[2]) != max(int(count or 0) for count in row[4:])]


@pytest.mark.parametrize("children", [1, 8, 25, 36])
def test_every_child_has_a_row_in_the_check_list(children: int) -> None:
    """Children are numbered from 1; a box stands for each criterion of the checked outcomes."""
    rows = cells(tables(check_list_blocks(facts(children=children)))[1])
    criteria = assessed_criteria(facts())

    assert [str(number) for number in range(1, children + 1)] == [row[0] for row in rows[1:]]
    assert {2 + len(criteria)} == {len(row) for row in rows}


def test_the_key_names_what_is_looked_for_and_when() -> None:
    """The criteria are those of the activities that the plan checks in: two checks of the fixed plan."""
    expected = {
        (code, entry.criterion)
        for lesson in facts().lessons
        for slot in lesson.slots
        for code in slot.slot.assess
        for entry in slot.activity.look_for
        if entry.outcome == code
    }

    assert expected == {(each.code, each.says) for each in assessed_criteria(facts())}
    assert {"S1.E24.3b", "S2.E3.3"} == {each.code for each in assessed_criteria(facts())}


def test_the_record_card_has_a_line_for_every_measured_task() -> None:
    """A task is measured where its record says what to count."""
    titles = {slot.activity.title for le in facts().lessons for slot in le.slots if slot.activity.measured}
    rows = cells(tables(record_card_blocks(facts()))[0])

    assert titles == {row[0] for row in rows[1:]} == {activity.title for activity, _, _ in measured_tasks(facts())}


@pytest.mark.parametrize(("limit", "chosen"), [(100, 9), (9, 9), (4, 4), (1, 1), (0, 1)])
def test_fullest_takes_the_first_that_fits(limit: int, chosen: int) -> None:
    """Choices shrink; where none fits, the smallest is taken."""
    assert chosen == fullest((9, 7, 4, 2, 1), lambda size: size <= limit)


def test_detail_grows_with_the_room() -> None:
    """With boundless room the fullest detail is chosen, with none the barest."""
    assert (10, 16) == (fullest_detail(lambda _: True).remarks, fullest_detail(lambda _: True).lines)
    assert (0, 1) == (fullest_detail(lambda _: False).remarks, fullest_detail(lambda _: False).lines)
