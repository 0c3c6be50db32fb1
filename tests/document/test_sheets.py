"""The sheets around a unit's lessons: what they say, and that they keep to their pages."""

import msgspec
import pytest

from lessonkit.commands.sheets import SHEETS, missing_says, sheet_documents
from lessonkit.document.family_letter import filled_in, letter_document
from lessonkit.document.model import Heading, ListBlock, Paragraph, Role, Table, plain
from lessonkit.document.pieces import closed
from lessonkit.document.record_card import unit_says
from lessonkit.document.unit_coverage import word_blocks
from lessonkit.logistics.reading_level import grade, grade_level, sentences_of
from lessonkit.records.activity import Measured
from lessonkit.writers.word.writer import write
from tests.document.printed import walk
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


def test_words_to_learn_stand_two_in_a_row() -> None:
    """They are read across in the order of the alphabet, and a page may end after any row."""
    table = next(block for block in word_blocks(plan_facts()) if isinstance(block, Table))
    cells = [cell for row in table.rows for cell in row]
    said = [plain(each.content) for cell in cells for each in cell.blocks if isinstance(each, Paragraph)]

    assert 10 < len(said)
    assert {2} == {len(row) for row in table.rows}
    assert sorted(said, key=lambda words: words.partition(":")[0].lower()) == said


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_obeys_the_standard(name: str) -> None:
    """The schemas of ISO/IEC 29500-4 find nothing, and a page begins with a heading of level 1."""
    for _, document in sheet_documents(name, plan_facts("3", 36, "a4")):
        content = parts(write(document))["word/document.xml"]

        assert [] == schema_faults("word/document.xml", content)
        assert 1 == next(block.level for block in document.blocks if isinstance(block, Heading))


def test_headings_of_a_letter_stand_out_above_its_words() -> None:
    """Where the letters of a letter are large its headings are, too; small ones need no larger headings."""
    roomy = letter_document(plan_facts())
    tight = letter_document(plan_facts(), lambda found: 2 if ".LETTER:" in str(found.blocks) else 1)

    assert roomy is not None
    assert tight is not None
    assert {True} == {block.large for block in roomy.blocks if isinstance(block, Heading) and block.level > 1}
    assert {False} == {block.large for block in tight.blocks if isinstance(block, Heading)}


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
