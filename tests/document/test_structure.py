"""Lessons and binders are sound documents: headings in order, anchors unique, links that lead somewhere."""

import itertools

import pytest

from lessonkit.document.binder import activities_of, binder_document
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.model import Contents, Document, Heading, Paragraph, Role, Table, plain
from lessonkit.writers.word.writer import numbered, pages, safe_pages
from tests.document.printed import contents_of, facts, flat, links_of, said, steps_of, walk

DOCUMENTS: dict[str, Document] = {
    "binder": binder_document(facts(), safe_pages),
    "uncounted binder": binder_document(facts()),
    **{f"lesson {number}": lesson_document(facts(), number, safe_pages) for number in (1, 2, 3)},
    "uncounted lesson": lesson_document(facts(), 1),
}
ANY = pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)
LESSONS = pytest.mark.parametrize("number", [1, 2, 3])


@ANY
def test_headings_never_skip_a_level(document: Document) -> None:
    """WCAG 2.2, technique G141: a heading is at most one level below the one before it, the first is of level 1."""
    levels = [0, *(block.level for block in walk(document.blocks) if isinstance(block, Heading))]

    assert [] == [pair for pair in itertools.pairwise(levels) if pair[1] > pair[0] + 1]
    assert 1 in levels


@ANY
def test_anchors_are_unique_and_links_resolve(document: Document) -> None:
    """Every link inside the document, and every row of the contents, leads to exactly one heading."""
    blocks = list(walk(document.blocks))
    anchors = [block.anchor for block in blocks if isinstance(block, Heading) and block.anchor]
    targets = {target for block in blocks for content in contents_of(block) for target in links_of(content)}
    rows = {row[2] for block in blocks if isinstance(block, Contents) for row in block.rows}

    assert len(anchors) == len(set(anchors))
    assert set() == {target[1:] for target in targets if target.startswith("#")} - set(anchors)
    assert set() == rows - set(anchors)


@ANY
def test_rows_fill_their_tables(document: Document) -> None:
    """The spans of every row add up to the table's columns, and no column is narrower than a word needs."""
    tables = [block for block in walk(document.blocks) if isinstance(block, Table)]

    assert [] == [
        table.title for table in tables for row in table.rows if sum(c.span for c in row) != len(table.shares)
    ]
    assert [] == [table.title for table in tables if min(table.shares) / sum(table.shares) < 0.045]


@LESSONS
def test_a_lesson_holds_every_cue_step_and_code(number: int) -> None:
    """However little room there is, steps, cues and outcome codes are never left out."""
    lesson = facts().lessons[number - 1]
    words = said(lesson_document(facts(), number, safe_pages))
    wanted = [target.code for target in lesson.targets]
    for slot in lesson.slots:
        wanted += [*steps_of(slot.activity), *slot.activity.cues, slot.activity.title]

    assert [] == [sentence for sentence in wanted if flat(sentence.replace("*", "")) not in words]


def test_where_things_lie_is_said_for_each_activity() -> None:
    """Floor spots lie in four ways in lesson 2, cue cards in one: the records' notes, with titles where they differ."""
    page = said(DOCUMENTS["binder"])

    assert "floor spots \u2013 Window Twins, three meters apart; each is home for one twin. Photo Album, one" in page
    assert "12 cue cards \u2013 the five photographs as stick figures." in page
    assert "Set-up: Large light foam balls \u2013 behind the photographer's spot until the film is run. Cue" in page


def test_an_aim_that_is_not_checked_says_so() -> None:
    """Two aims of the unit are practiced in the fixed plan's lessons and checked in none: no reader has to search."""
    page = said(DOCUMENTS["binder"])

    assert "; not checked." in page
    assert "Moving leaves out set-up and waiting for a turn" in page


def test_a_caution_says_which_activity_it_is_of() -> None:
    """*Another stove* is a riddle before one has read of the kitchen: Popcorn Kitchen's first caution, by its name."""
    assert "Popcorn Kitchen: A ball that rolls into another stove waits" in said(DOCUMENTS["lesson 1"])


def test_the_clock_names_the_part_as_a_plan_does() -> None:
    """One short word below the minutes, the record's own; longer names would break over three lines there."""
    tables = [block for block in lesson_document(facts(), 3).blocks if isinstance(block, Table)]
    flow = next(table for table in tables if table.title == "The lesson minute by minute")
    small = [[plain(each.content) for each in walk(row[0].blocks) if isinstance(each, Paragraph)] for row in flow.rows]

    assert ["warm-up", "game", "closing"] == [words[1] for words in small[1:]]


@LESSONS
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_lesson_takes_one_sheet(number: int, paper: str) -> None:
    """Two pages, counted with a line to spare; both hold more than a few lines, as notes fill what is left."""
    document = lesson_document(facts(paper=paper), number, safe_pages)

    assert 2 == safe_pages(document)
    assert 3 == pages(document, spare=120)


def test_the_binder_holds_every_record_whole() -> None:
    """A card leaves nothing of its activity out: steps, cues, changes, faults, cautions, criteria, questions, words."""
    words = said(DOCUMENTS["binder"])
    missing = []
    for activity in activities_of(facts()):
        inclusion = activity.inclusion
        wanted = [*steps_of(activity), *activity.cues, *activity.easier, *activity.harder, *activity.safety]
        wanted += [*inclusion.space, *inclusion.task, *inclusion.equipment, *inclusion.people]
        wanted += [pair.say for pair in activity.see_say] + [question.ask for question in activity.questions]
        wanted += [entry.criterion for entry in activity.look_for] + [word.means for word in activity.words]
        missing += [sentence for sentence in wanted if flat(sentence.replace("*", "")) not in words]

    assert [] == missing


def test_every_card_takes_one_page() -> None:
    """From the first activity on, each card is one page further than the one before it."""
    counted = _counted(DOCUMENTS["binder"])
    places = [counted[activity.title] for activity in activities_of(facts())]

    assert list(range(places[0], places[0] + len(places))) == places


def test_lessons_of_a_binder_take_two_pages_each() -> None:
    """Printed on both sides, every lesson is a sheet of its own."""
    counted = _counted(DOCUMENTS["binder"])
    places = [place for words, place in counted.items() if words.startswith("Lesson ")]

    assert [places[0], places[0] + 2, places[0] + 4] == places


def test_contents_name_every_lesson_activity_and_list() -> None:
    """Three lessons, eleven activities, and the lists at the end."""
    rows = next(block for block in DOCUMENTS["binder"].blocks if isinstance(block, Contents)).rows

    assert 3 == sum(words.startswith("Lesson ") for _, words, _, _ in rows)
    assert len(activities_of(facts())) == sum(anchor.startswith("activity_") for _, _, anchor, _ in rows) - 1
    assert ["Equipment for the unit", "Class check list", "My record card", "The outcome codes"] == [
        row[1] for row in rows
    ][-4:]


def test_the_cover_says_whose_unit_it_is() -> None:
    """School, class, first and last day, and what a child can say at the end."""
    cover = list(walk(DOCUMENTS["binder"].blocks))[:40]
    words = flat(" ".join(plain(content) for block in cover for content in contents_of(block)))

    assert [facts().unit.title] == [
        plain(block.content) for block in cover if isinstance(block, Paragraph) and block.role is Role.TITLE
    ]
    for sentence in (
        "Quillfeather School",
        "Grade 3 Heron, 25 children",
        "January 5, 2027",
        "January 12, 2027",
        "I can",
    ):
        assert sentence in words


def _counted(document: Document) -> dict[str, int]:
    """Return the pages of the contents rows, as the Word writer counts them."""
    rows = next(block for block in numbered(document).blocks if isinstance(block, Contents)).rows
    return {words: place for _, words, _, place in rows}
