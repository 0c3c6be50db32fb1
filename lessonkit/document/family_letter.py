"""The letter to families: what a unit brings, as its author wrote it, with the facts of the class filled in."""

import re
from collections.abc import Mapping
from dataclasses import replace

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages
from lessonkit.document.keys import field_key, leaf_keyed
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.markdown import read_markdown
from lessonkit.document.model import Block, Document, Heading, ListBlock, Paragraph, Role, plain, text
from lessonkit.document.pieces import EN_DASH
from lessonkit.records.unit import LETTER_WORDS

_MARKDOWN_SIGNS = re.compile(r"([\\`*_{}\[\]<>()#+\-.!|~&])")


def letter_document(facts: PlanFacts, pages: CountPages | None = None) -> Document | None:
    """Return the letter of a plan's unit, or None where the unit has none.

    A letter that ``pages`` finds longer than a page is set in smaller letters, if it then is not.
    """
    if facts.unit.letter is None:
        return None
    letter = _document(facts, Role.LETTER)
    if pages is None or pages(letter) == 1:
        return letter
    smaller = _document(facts, Role.LETTER_SMALL)
    return smaller if pages(smaller) == 1 else letter


def _document(facts: PlanFacts, role: Role) -> Document:
    blocks = tuple(_enlarged(block, role) for block in _written(facts))
    title = next((plain(block.content) for block in blocks if isinstance(block, Heading)), facts.unit.title)
    opening = () if any(isinstance(block, Heading) for block in blocks) else (Heading(1, text(title)),)
    return Document(
        title=title,
        subject=facts.unit.title,
        author=facts.school.title,
        footer=f"{facts.school.title} {EN_DASH} {facts.school_class.title}",
        date=facts.lessons[0].lesson.date,
        blocks=(*opening, *blocks),
        paper=facts.school.paper,
        about=field_key("unit", facts.unit.id),
    )


def _written(facts: PlanFacts) -> tuple[Block, ...]:
    words = filled_in(facts.unit.letter or "", placeholders(facts))
    return leaf_keyed(read_markdown(words), field_key("unit", facts.unit.id, "letter"))


def placeholders(facts: PlanFacts) -> dict[str, str]:
    """Return what stands for each word that a letter may hold in braces."""
    lessons = facts.lessons
    first, last = day_in_words(lessons[0].lesson.date), day_in_words(lessons[-1].lesson.date)
    values = (facts.school.title, facts.school_class.title, str(len(lessons)), first, last)
    return dict(zip(LETTER_WORDS, values, strict=True))


def filled_in(letter: str, values: Mapping[str, str]) -> str:
    """Return a Markdown letter with its words in braces filled in; braces around any other word stay as they are."""
    for name, value in values.items():
        letter = letter.replace(f"{{{name}}}", _MARKDOWN_SIGNS.sub(r"\\\1", value))
    return letter


def _enlarged(block: Block, role: Role) -> Block:
    """Set plain paragraphs, also those of lists, in the letters of a role; a heading stands out above them."""
    match block:
        case Paragraph(role=Role.BODY):
            return replace(block, role=role)
        case Heading(level=level):
            return replace(block, large=role is Role.LETTER and level > 1)
        case ListBlock(items=items):
            return replace(block, items=tuple(tuple(_enlarged(inner, role) for inner in item) for item in items))
        case _:
            return block
