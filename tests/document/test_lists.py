"""The lists of a binder: what to pull, whom to check, what a child counts."""

from dataclasses import replace

import msgspec
import pytest

from lessonkit.document.check_list import assessed_criteria, check_list_blocks
from lessonkit.document.check_sheet import check_sheet
from lessonkit.document.day_equipment import Visit, day_blocks, shared_days
from lessonkit.document.detail import fullest, fullest_detail
from lessonkit.document.equipment_list import equipment_blocks
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import CheckBoxes, Document, Heading, Paragraph, Rule, Table, WritingSpace, plain
from lessonkit.document.outcome_page import outcome_blocks
from lessonkit.document.pull_list import pull_list
from lessonkit.document.record_card import ANCHOR, measured_tasks, record_card_blocks
from lessonkit.document.unit_coverage import assessment_blocks, word_blocks
from lessonkit.document.unit_overview import overview_blocks
from lessonkit.logistics.equipment import needed
from lessonkit.records.activity import LookFor, Word
from lessonkit.writers.word.writer import pages, safe_pages, write
from tests.document.printed import contents_of, facts, fixed_plan, links_of, walk, worked_out
from tests.writers.word.word_parts import tree, w


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
    above, head, *rows = cells(tables(equipment_blocks(facts()))[0])

    assert ["", "Lesson"] == above
    assert ["Item", "Ready", "Most", "In school", "1", "2", "3"] == head
    assert expected == {row[0]: int(row[2]) for row in rows}
    assert [] == [row for row in rows if int(row[2]) != max(int(count or 0) for count in row[4:])]


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
    rows = cells(tables(record_card_blocks(facts()))[-1])

    assert titles == {row[0] for row in rows[1:]} == {activity.title for activity, _, _ in measured_tasks(facts())}


def with_measured(number: int, times: int = 1) -> PlanFacts:
    """Return the fixed plan, come again and again, with no more than so many measured tasks."""
    kept = {activity.id for activity, _, _ in measured_tasks(facts())[:number]}
    lessons = [
        replace(
            lesson,
            lesson=msgspec.structs.replace(lesson.lesson, lesson=3 * turn + lesson.lesson.lesson),
            slots=tuple(slot for slot in lesson.slots if slot.activity.id in kept),
        )
        for turn in range(times)
        for lesson in facts().lessons
    ]
    return replace(facts(), lessons=tuple(lessons))


@pytest.mark.parametrize(("number", "cards"), [(1, 4), (3, 4), (4, 3), (6, 2)])
def test_small_record_cards_share_a_page(number: int, cards: int) -> None:
    """A Letter page has 660 points below its title, a row 28, the rest of a card 70: four of 154, three of 182, two."""
    blocks = record_card_blocks(with_measured(number), safe_pages)
    lines = [block for block in blocks if isinstance(block, Rule) and block.cut]
    titles = [table for table in tables(blocks) if table.title == "Record card"]

    assert cards == len(lines) == len(titles)
    assert 1 == pages(Document("", "", "", "", "", blocks))
    assert 1 == sum(isinstance(block, Heading) for block in blocks)
    assert all(table.row_height >= 28 for table in titles)


@pytest.mark.parametrize(("times", "rows"), [(1, 1), (2, 1), (5, 1), (6, 2)])
def test_a_task_has_a_place_for_a_try_in_each_of_its_lessons(times: int, rows: int) -> None:
    """Up to five tries side by side, then another row; the lessons of a task that comes with every third (by hand)."""
    table = tables(record_card_blocks(with_measured(1, times)))[-1]
    head, *tries = cells(table)
    words = [word for row in tries for word in row[2:-1]]
    ((_, _, numbers),) = measured_tasks(with_measured(1, times))

    assert rows == len(tries)
    assert ["Task", "What I count", "First try", "My best"] == [*head[:3], head[-1]]
    assert [f"Lesson {number}" for number in numbers] == [word for word in words if word]


@pytest.mark.parametrize(("limit", "chosen"), [(100, 9), (9, 9), (4, 4), (1, 1), (0, 1)])
def test_fullest_takes_the_first_that_fits(limit: int, chosen: int) -> None:
    """Choices shrink; where none fits, the smallest is taken."""
    assert chosen == fullest((9, 7, 4, 2, 1), lambda size: size <= limit)


def test_detail_grows_with_the_room() -> None:
    """With boundless room the fullest detail is chosen, with none the barest, without lines for notes."""
    assert (10, 16) == (fullest_detail(lambda _: True).remarks, fullest_detail(lambda _: True).lines)
    assert (0, 0) == (fullest_detail(lambda _: False).remarks, fullest_detail(lambda _: False).lines)


@pytest.mark.parametrize(("children", "least"), [(8, 30.0), (25, 18.0), (36, 14.0)])
def test_a_check_sheet_fills_its_page(children: int, least: float) -> None:
    """Rows are as tall as a Letter sheet of 715 points holds: 20 points for a name in handwriting (common practice)."""
    sheet = check_sheet(facts(children=children), safe_pages)
    assert sheet is not None
    grid = tables(sheet.blocks)[0]
    notes = [block.lines for block in sheet.blocks if isinstance(block, WritingSpace)]

    assert 2 == pages(sheet)
    assert grid.row_height >= least
    assert (children == 8) == bool(notes)
    assert (children == 8) == any(
        isinstance(block, WritingSpace) for block in check_list_blocks(facts(children=children), safe_pages)
    )


def with_criteria(number: int, children: int = 36) -> PlanFacts:
    """Return the fixed plan checking one outcome by so many criteria, each of the usual length."""
    lesson, *others = (
        replace(each, slots=tuple(replace(s, slot=msgspec.structs.replace(s.slot, assess=())) for s in each.slots))
        for each in facts(children=children).lessons
    )
    says = "Sends high and low when asked by changing the finish and the force, two balls of three"
    seen = tuple(LookFor(outcome="S2.E3.3", criterion=f"{says}, {place}.", i_can="I can.") for place in range(number))
    slot = replace(
        lesson.slots[0],
        activity=msgspec.structs.replace(lesson.slots[0].activity, look_for=seen),
        slot=msgspec.structs.replace(lesson.slots[0].slot, assess=("S2.E3.3",)),
    )
    return replace(facts(children=children), lessons=(replace(lesson, slots=(slot, *lesson.slots[1:])), *others))


@pytest.mark.parametrize(("number", "sheets"), [(1, [1]), (4, [4]), (6, [6]), (7, [4, 3]), (13, [5, 4, 4])])
def test_criteria_share_as_few_sheets_as_hold_the_class(number: int, sheets: list[int]) -> None:
    """Up to six criteria and 36 children on one page; more on pages with about as many each (by hand)."""
    sheet = check_sheet(with_criteria(number), safe_pages)
    assert sheet is not None
    grids = [table for table in tables(sheet.blocks) if table.header_rows == 2]
    heads = [cells(table)[1] for table in grids]
    levels = ["not yet", "nearly", "yes"] if max(sheets) <= 4 else ["1", "2", "3"]

    assert sheets == [len(table.rows[0]) - 1 for table in grids]
    assert [["Child", "Name", *(levels * count)] for count in sheets] == heads
    assert [len(sheets)] == [pages(replace(sheet, blocks=sheet.blocks[: 3 * len(sheets)]))]
    assert 1 == len({table.shares[-1] for table in grids})


def test_written_rows_are_as_tall_as_they_say() -> None:
    """ISO/IEC 29500-1, 17.4.80 and 17.4.83: a least height in twentieths of a point, words in a cell's middle."""
    sheet = check_sheet(facts(children=8), safe_pages)
    assert sheet is not None
    table = next(tree(write(sheet)).iter(w("tbl")))
    heads = tables(sheet.blocks)[0].header_rows
    heights = [row.find(f"{w('trPr')}/{w('trHeight')}") for row in table.iter(w("tr"))]
    places = {place.get(w("val")) for place in table.iter(w("vAlign"))}

    assert [None] * heads == heights[:heads]
    assert {"640"} == {"" if height is None else height.get(w("val")) for height in heights[heads:]}
    assert {"center"} == places


@pytest.mark.parametrize(("children", "short"), [(8, False), (36, True)])
def test_a_pull_list_names_only_what_is_short(children: int, short: bool) -> None:
    """Quillfeather has 28 paddles, which 36 children have not enough of: on the unit's table and on each lesson's."""
    blocks = pull_list(facts(children=children)).blocks
    words = [" ".join(row) for table in tables(blocks) for row in cells(table)]

    assert short == any("28, too few" in row for row in words)
    assert short == any("36 short-handled paddles, 8 short: " in row for row in words)


def test_every_lesson_has_a_list_with_a_box_for_each_item() -> None:
    """One heading a lesson, and below it as many boxes as the lesson needs items."""
    lists = [cell.blocks for table in tables(pull_list(facts()).blocks)[1:] for row in table.rows for cell in row]
    boxes = [[len(block.items) for block in blocks if isinstance(block, CheckBoxes)] for blocks in lists]

    assert [[len(lesson.equipment)] for lesson in facts().lessons] == boxes
    assert ["Lesson 1", "Lesson 2", "Lesson 3"] == [
        plain(block.content).partition(",")[0] for blocks in lists for block in blocks if isinstance(block, Heading)
    ]


def test_a_day_shows_what_comes_out_and_goes_away_before_every_class() -> None:
    """Hoops, then fewer of them and 2 drums, then nothing more; 4 hoops and one drum are too few (by hand)."""
    owned = facts().school.owned("hoop")
    needs: list[dict[str, int]] = [{"hoop": owned + 4}, {"drum": 2, "hoop": 6}, {}]
    visits = [Visit(f"1{place}:00", 30, f"Class {place}", "3", each) for place, each in enumerate(needs)]
    day = facts().lessons[1].lesson.date
    heading, table, says = day_blocks(facts(), day, visits, 14.0)
    assert isinstance(heading, Heading) and isinstance(table, Table)
    rows = cells(table)

    assert plain(heading.content).endswith("(lesson 2 of Grade 3 Heron)")
    assert ["Item", "Ready", "Most", "In school"] == rows[0][:4]
    assert ["10:00 Class 0", "11:00 Class 1", "12:00 Class 2"] == rows[0][4:]
    assert ["2", "1, too few", "", "2\u00a0 +2", "\u22122"] == rows[1][2:]
    assert [f"{owned + 4}\u00a0 +{owned + 4}", f"6\u00a0 \u2212{owned - 2}", "\u22126"] == rows[2][4:]
    assert ["Class 0 at 10:00: 4 hoops short, use", "Class 1 at 11:00: 1 hand drum short, use"] == [
        plain(block.content).partition(" use")[0] + " use" for block in walk((says,)) if isinstance(block, Paragraph)
    ]


def test_a_day_of_many_classes_has_more_than_one_table() -> None:
    """Nine classes that use a ball more each: 5 and 4 side by side, the sixth's ball added to the fifth's five."""
    visits = [Visit(f"{9 + place}:00", 30, f"Class {place}", "3", {"foam-ball": place + 1}) for place in range(9)]
    first, second = tables(day_blocks(facts(), facts().lessons[0].lesson.date, visits, 14.0))

    assert ["1\u00a0 +1", "2\u00a0 +1", "3\u00a0 +1", "4\u00a0 +1", "5\u00a0 +1"] == cells(first)[1][4:]
    assert ["6\u00a0 +1", "7\u00a0 +1", "8\u00a0 +1", "9\u00a0 +1"] == cells(second)[1][4:]


def test_days_with_several_classes_share_pages() -> None:
    """Two plans with the same three days: a page for the unit and its lessons, and one for its days."""
    later = worked_out(fixed_plan(), "grade-4-sandpiper", 25, "letter")
    document = pull_list(facts(), [later], safe_pages)
    days = shared_days(facts(), [later])

    assert [2, 2, 2] == [len(visits) for visits in days.values()]
    assert 2 == pages(document)
    assert len(days) == sum(" of Grade 3 Heron)" in plain(b.content) for b in document.blocks if isinstance(b, Heading))


def test_codes_stand_side_by_side_where_that_is_one_page() -> None:
    """The same anchors in the same order in two columns or in one; two columns only on a single page."""
    one_page, more = (outcome_blocks(facts(), lambda _, count=count: count) for count in (1, 2))
    anchors = [[each.anchor for each in walk(blocks) if isinstance(each, Heading)] for blocks in (one_page, more)]

    assert anchors[0] == anchors[1]
    assert tables(one_page) and not tables(more)


def test_counted_tasks_are_named_once_and_explained_on_the_record_card() -> None:
    """The overview says in which activities children count, and leads to the card that says what."""
    blocks = assessment_blocks(facts())
    words = " ".join(plain(content) for block in walk(blocks) for content in contents_of(block))
    targets = [target for block in walk(blocks) for content in contents_of(block) for target in links_of(content)]

    assert all(activity.title in words for activity, _, _ in measured_tasks(facts()))
    assert [f"#{ANCHOR}"] == [target for target in targets if "card" in target]


@pytest.mark.parametrize("count", [1, 2, 41])
def test_an_odd_word_to_learn_stands_beside_an_empty_cell(count: int) -> None:
    """Two words stand in a row (21 rows for 41), and every row of a table fills its columns."""
    words = tuple(Word(word=f"word {number:03}", means="a meaning") for number in range(count))
    lesson = facts().lessons[0]
    slot = replace(lesson.slots[0], activity=msgspec.structs.replace(lesson.slots[0].activity, words=words))
    (_, table) = word_blocks(replace(facts(), lessons=(replace(lesson, slots=(slot,)),)))
    assert isinstance(table, Table)

    assert (count + 1) // 2 == len(table.rows)
    assert {2} == {len(row) for row in table.rows}


def test_an_overview_ends_with_the_words_to_learn() -> None:
    """Where the last section turns to a page of its own, it is the words to learn and not a few lines."""
    titles = [plain(each.content) for each in overview_blocks(facts()) if isinstance(each, Heading)]

    assert ["How we work here", "Words to learn"] == titles[-2:]
