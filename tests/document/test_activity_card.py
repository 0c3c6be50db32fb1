"""The card of an activity: one page, however much its record says, on a school's letterhead too."""

import io
from functools import cache, partial

import docx
import pytest
from docx.shared import Cm

from lessonkit.document.activity_card import fitted_card
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.model import Document, Heading, KeyValues
from lessonkit.records.activity import Activity
from lessonkit.writers.options import SchoolLook
from lessonkit.writers.word.setting import setting
from lessonkit.writers.word.writer import pages, safe_pages
from tests.document.sheet_plans import library, plan_facts
from tests.writers.word.school_files import picture, saved

FULLEST = 6
CM = 1440 / 2.54


@cache
def letterhead() -> SchoolLook:
    """Return a letterhead of a logo and three lines above and one below."""
    document = docx.Document()
    section = document.sections[0]
    section.header.paragraphs[0].add_run().add_picture(io.BytesIO(picture()), height=Cm(1.2))
    for line in ("Quillfeather School", "12 Sparrow Lane", "Where everyone moves"):
        section.header.add_paragraph(line)
    section.footer.paragraphs[0].text = "12 Sparrow Lane"
    return SchoolLook(saved(document))


def by_words() -> list[Activity]:
    """Return the shipped activities, those whose records say most last."""
    return sorted(library().activities.values(), key=lambda each: (len(repr(each)), each.id))


def fullest() -> list[Activity]:
    """Return the activities whose records say most."""
    found = by_words()
    return [each.for_grade(next(grade for grade in "K12345" if grade in each.grades)) for each in found[-FULLEST:]]


def _card(activity: Activity, facts: PlanFacts, look: SchoolLook | None) -> Document:
    blocks = fitted_card(activity, facts, partial(safe_pages, look=look))
    return Document(activity.title, "", "", "", "", blocks, paper=facts.school.paper)


def test_a_letterhead_takes_five_centimetres() -> None:
    """What these tests call a letterhead: a logo and lines make the text of a page 4.5 to 5.5 cm less high."""
    own, theirs = (setting("letter", False, "en-US", look).sheet for look in (None, letterhead()))

    assert 4.5 <= (own.text_height - theirs.text_height) / CM <= 5.5


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_fullest_cards_are_one_page_on_a_letterhead_too(paper: str) -> None:
    """What does not go below each other stands in running words; nothing of a card runs over."""
    facts = plan_facts("3", 25, paper)

    for activity in fullest():
        assert 1 == pages(_card(activity, facts, None))
        assert 1 == pages(_card(activity, facts, letterhead()), look=letterhead())


def test_a_card_with_room_keeps_its_lists() -> None:
    """An activity with little to say has its facts side by side and its parts of the lesson above its title."""
    facts = plan_facts("K")
    least = next(each for each in by_words() if "K" in each.grades)
    blocks = _card(least.for_grade("K"), facts, None).blocks

    assert any(isinstance(block, KeyValues) for block in blocks)
    assert not isinstance(blocks[1], Heading)
