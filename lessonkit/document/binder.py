"""The binder of a unit: cover, contents, overview, every lesson, activity cards, and the outcome codes."""

from lessonkit.document.activity_card import card_blocks
from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import lesson_blocks
from lessonkit.document.model import (
    Block,
    Contents,
    Document,
    Heading,
    KeyValues,
    PageBreak,
    Paragraph,
    Role,
    plain,
    text,
)
from lessonkit.document.outcome_page import outcome_blocks
from lessonkit.document.pieces import EN_DASH, sentence
from lessonkit.document.unit_overview import overview_blocks
from lessonkit.records.activity import Activity


def binder_document(facts: PlanFacts) -> Document:
    """Return the whole binder of a plan."""
    body = _body(facts)
    return Document(
        title=facts.unit.title,
        subject=f"Unit binder {EN_DASH} {facts.school_class.title}",
        author=facts.school.title,
        footer=f"{facts.school.title} {EN_DASH} {facts.unit.title}",
        date=facts.lessons[0].lesson.date,
        blocks=(*_cover(facts), _contents(body), *body),
        paper=facts.school.paper,
        keywords=tuple(aim.code for aim in facts.unit.aims),
    )


def _body(facts: PlanFacts) -> tuple[Block, ...]:
    return (
        *overview_blocks(facts),
        *(block for lesson in facts.lessons for block in lesson_blocks(facts, lesson, links=True, new_page=True)),
        *(block for activity in activities_of(facts) for block in card_blocks(activity, facts)),
        *outcome_blocks(facts),
    )


def activities_of(facts: PlanFacts) -> tuple[Activity, ...]:
    """Return the activities of a plan, each once, by title."""
    found = {slot.activity.id: slot.activity for lesson in facts.lessons for slot in lesson.slots}
    return tuple(sorted(found.values(), key=lambda activity: activity.title))


def _cover(facts: PlanFacts) -> tuple[Block, ...]:
    first, last = facts.lessons[0].lesson, facts.lessons[-1].lesson
    pairs = (
        ("Class", f"{facts.school_class.title}, {facts.school_class.children} children"),
        ("From", day_in_words(first.date)),
        ("To", day_in_words(last.date)),
        ("Lessons", f"{len(facts.lessons)} of {first.minutes} minutes"),
    )
    return (
        Paragraph(text(facts.school.title), Role.KICKER),
        Paragraph(text(facts.unit.title), Role.TITLE),
        sentence(facts.unit.summary, Role.SUMMARY),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
        PageBreak(),
    )


def _contents(body: tuple[Block, ...]) -> Contents:
    """List the headings of level 1; the page numbers are counted by whoever lays the pages out."""
    rows = [
        (block.level, plain(block.content), block.anchor or "", 0)
        for block in body
        if isinstance(block, Heading) and block.level == 1
    ]
    return Contents(tuple(rows))
