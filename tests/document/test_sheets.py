"""The sheets around a unit's lessons: what they say, and that they keep to their pages."""

from dataclasses import replace
from functools import partial
from itertools import cycle, islice

import msgspec
import pytest

from lessonkit.commands.sheets import SHEETS, missing_says, sheet_documents
from lessonkit.document.family_letter import filled_in, letter_document
from lessonkit.document.lesson_facts import PlanFacts, work_out
from lessonkit.document.model import Document, Heading, ListBlock, Paragraph, Role, Table, WritingSpace, plain
from lessonkit.document.pieces import closed, inline
from lessonkit.document.record_card import unit_says
from lessonkit.document.substitute_sheet import share_steps, substitute_document
from lessonkit.document.unit_coverage import word_blocks
from lessonkit.logistics.reading_level import grade, grade_level, sentences_of
from lessonkit.records.activity import Measured
from lessonkit.writers.word.writer import pages, write
from tests.document.printed import facts, flat, said, steps_of, walk
from tests.document.sheet_plans import plan_facts, with_unit
from tests.writers.word.word_parts import parts, schema_faults


def test_the_formula_is_the_published_one() -> None:
    """Kincaid and others 1975: 10 words in 1 sentence with 10 syllables give 3.9 + 11.8 - 15.59 (worked by hand)."""
    assert 0.11 == pytest.approx(grade(10, 1, 10))


def test_the_flagships_letter_reads_easily() -> None:
    """Plain language: at most grade 6 by Flesch-Kincaid (common practice, no source)."""
    letter = letter_document(plan_facts())
    assert letter is not None
    said = [plain(block.content) for block in walk(letter.blocks) if isinstance(block, Paragraph)]

    assert any(isinstance(block, ListBlock) for block in letter.blocks)
    assert grade_level([each for words in said for each in sentences_of(words)]) <= 6


def test_a_letter_is_filled_in_and_may_be_missing() -> None:
    """Known words in braces are filled in, others stay; without the field there is a sentence instead."""
    without = with_unit(plan_facts(), letter=None)

    assert "At Hill\\-Top {x}" == filled_in("At {school} {x}", {"school": "Hill-Top"})
    assert [] == list(sheet_documents("letter", without))
    assert "There is no family letter: the unit has no field letter yet." == missing_says("letter")


def test_a_record_card_says_only_what_the_task_does_not() -> None:
    """More is better as everybody knows, and a minute that the task names is not said again."""
    measured = Measured(what="Swaps in one minute", measure="count", unit="swaps", seconds=60)
    others = (
        msgspec.structs.replace(measured, what="Swaps"),
        Measured(what="Your fastest loop", measure="time", unit="seconds", better="lower"),
    )

    assert "swaps" == unit_says(measured)
    assert ["swaps \u2013 60 seconds", "seconds, less is better"] == [unit_says(each) for each in others]


def test_a_title_is_closed_once() -> None:
    """Words follow it on the same line; a question needs no stop besides."""
    assert ["Over the Brook.", "Which Way?"] == [closed(title) for title in ("Over the Brook", "Which Way?")]


def test_steps_are_shared_out_in_turn() -> None:
    """Five steps for three activities with 3, 1 and 4: one each, then the first and the third again."""
    assert (2, 1, 2) == share_steps((3, 1, 4), 5)
    assert (3, 1, 4) == share_steps((3, 1, 4), None)


@pytest.mark.parametrize(("klass", "children", "paper"), [("3", 36, "a4"), ("K", 8, "letter"), ("5", 36, "letter")])
def test_a_substitute_sheet_has_every_step_on_one_sheet(klass: str, children: int, paper: str) -> None:
    """One or two pages for any grade, class size and paper, and no step of the longest activities left out."""
    facts = plan_facts(klass, children, paper)
    sheet = substitute_document(facts, 1, partial(pages, spare=9.0))

    assert pages(sheet) in (1, 2)
    assert [] == _steps_not_in(sheet, facts)


def test_a_substitute_knows_where_things_lie_and_who_is_left_over() -> None:
    """Photo Album, lesson 2: 25 children are 11 pairs and three more, on 12 times 2 spots, as its record says."""
    three_lessons = facts()
    sheet = said(substitute_document(three_lessons, 2, partial(pages, spare=9.0)))
    album = three_lessons.lessons[1].slots[1].activity
    uneven = album.organisation.uneven
    assert uneven is not None

    assert f"11 pairs and one group of three. {uneven.say}" in sheet
    assert "You need: 12 large light foam balls (20 cm) \u2013 " in sheet
    assert "24 floor spots \u2013 one for each partner" in sheet
    assert f"Everyone takes part: {flat(plain(inline(album.inclusion.space[0])))}" in sheet
    assert "the teacher is you" in sheet


def test_what_a_substitute_sheet_leaves_free_is_room_to_write() -> None:
    """Four more lines would take a third page, whatever size the steps have; no sheet has more than 16."""
    count = partial(pages, spare=9.0)
    sheet = substitute_document(facts(), 2, count)
    *others, notes = sheet.blocks
    assert isinstance(notes, WritingSpace)
    longer = replace(sheet, blocks=(*others, replace(notes, lines=notes.lines + 4)))

    assert notes.lines == 16 or count(longer) > 2


def test_a_short_lesson_keeps_to_one_side() -> None:
    """The first of the lesson's activities fits one side with every step."""
    facts = _with_slots(plan_facts("3", 25, "letter"), 1)
    sheet = substitute_document(facts, 1, partial(pages, spare=9.0))

    assert 1 == pages(sheet)
    assert [] == _steps_not_in(sheet, facts)


def test_only_a_lesson_too_long_for_two_sides_is_cut_short() -> None:
    """The same activities three times over: still one sheet, three dots standing for steps."""
    facts = _with_slots(plan_facts("3", 25, "letter"), 15)
    sheet = substitute_document(facts, 1, partial(pages, spare=9.0))

    assert 2 == pages(sheet)
    assert [] != _steps_not_in(sheet, facts)
    assert "\u2026" in said(sheet)


def _steps_not_in(sheet: Document, facts: PlanFacts) -> list[str]:
    words = said(sheet)
    steps = [step for slot in facts.lessons[0].slots for step in steps_of(slot.activity)]
    return [step for step in steps if flat(step) not in words]


def _with_slots(facts: PlanFacts, count: int) -> PlanFacts:
    """Return a plan with so many activities in its first lesson, which come again where it has fewer."""
    first, *others = facts.plan.lessons
    slots = tuple(islice(cycle(first.activities), count))
    changed = msgspec.structs.replace(first, activities=slots)
    return work_out(msgspec.structs.replace(facts.plan, lessons=(changed, *others)), facts.library)


def test_words_to_learn_are_not_torn() -> None:
    """Up to forty words are one row of two columns as high as each other, and a row is never broken over two pages."""
    table = next(block for block in word_blocks(plan_facts()) if isinstance(block, Table))
    columns = [[each for each in column.blocks if isinstance(each, Paragraph)] for column in table.rows[0]]
    left, right = (sum(1 + len(plain(each.content)) // 64 for each in column) for column in columns)

    assert 1 == len(table.rows)
    assert left - right in (-2, -1, 0, 1, 2)


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_obeys_the_standard(name: str) -> None:
    """The schemas of ISO/IEC 29500-4 find nothing, and a page begins with a heading of level 1."""
    for _, document in sheet_documents(name, plan_facts("3", 36, "a4")):
        content = parts(write(document))["word/document.xml"]

        assert [] == schema_faults("word/document.xml", content)
        assert 1 == next(block.level for block in document.blocks if isinstance(block, Heading))


def test_a_long_letter_is_set_smaller_before_it_takes_two_pages() -> None:
    """The letters of a letter are made smaller only where that brings it to one page."""
    facts = plan_facts()
    tight, never, roomy = (
        letter_document(facts, lambda letter, most=most: 1 + (str(letter.blocks).count(".LETTER:") > most))
        for most in (0, -1, 10_000)
    )
    sizes = [
        {block.role for block in walk(letter.blocks) if isinstance(block, Paragraph)}
        for letter in (tight, never, roomy)
        if letter
    ]

    assert [{Role.LETTER_SMALL}, {Role.LETTER}, {Role.LETTER}] == sizes


def test_a_substitute_finds_who_helps_at_the_head_of_the_sheet() -> None:
    """Room for four names comes before the steps; handwriting wants rows of 20 points (common practice)."""
    sheet = substitute_document(plan_facts(), 1)
    first = next(block for block in sheet.blocks if isinstance(block, Table))

    assert "Who helps" == first.title
    assert 4 == len(first.rows[1])
    assert first.row_height >= 20
