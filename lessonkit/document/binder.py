"""The binder of a unit: cover, contents, overview, every lesson, activity cards, lists and the outcome codes."""

from lessonkit.document import check_list, equipment_list, record_card, unit_overview
from lessonkit.document.activity_card import activity_anchor, fitted_card
from lessonkit.document.check_list import check_list_blocks
from lessonkit.document.cover import fitted_cover
from lessonkit.document.detail import CountPages
from lessonkit.document.equipment_list import equipment_blocks
from lessonkit.document.keys import field_key
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import lesson_anchor, lesson_blocks, lesson_detail
from lessonkit.document.model import Block, Contents, Document, Heading, text
from lessonkit.document.outcome_page import outcome_blocks
from lessonkit.document.pieces import EN_DASH
from lessonkit.document.record_card import record_card_blocks
from lessonkit.records.activity import Activity

Row = tuple[int, str, str, int]


def binder_document(facts: PlanFacts, pages: CountPages | None = None) -> Document:
    """Return the whole binder of a plan. With ``pages`` lessons and cards are fitted to their sheets."""
    lists = tuple(
        (title, anchor, blocks)
        for title, anchor, blocks in (
            (equipment_list.TITLE, equipment_list.ANCHOR, equipment_blocks(facts, pages)),
            (check_list.TITLE, check_list.ANCHOR, check_list_blocks(facts, pages)),
            (record_card.TITLE, record_card.ANCHOR, record_card_blocks(facts, pages)),
            ("The outcome codes", "outcomes", outcome_blocks(facts, pages)),
        )
        if blocks
    )
    return Document(
        title=facts.unit.title,
        subject=f"Unit binder {EN_DASH} {facts.school_class.title}",
        author=facts.school.title,
        footer=f"{facts.school.title} {EN_DASH} {facts.unit.title}",
        date=facts.lessons[0].lesson.date,
        blocks=(
            *fitted_cover(facts, pages),
            Heading(1, text("Contents"), "contents", new_page=True),
            _contents(facts, tuple((1, title, anchor, 0) for title, anchor, _ in lists)),
            *unit_overview.fitted_overview(facts, pages),
            *_lessons(facts, pages),
            *(block for activity in activities_of(facts) for block in fitted_card(activity, facts, pages)),
            *(block for _, _, blocks in lists for block in blocks),
        ),
        paper=facts.school.paper,
        keywords=tuple(aim.code for aim in facts.unit.aims),
        about=field_key("plan", facts.plan.id),
    )


def activities_of(facts: PlanFacts) -> tuple[Activity, ...]:
    """Return the activities of a plan, each once, by title."""
    found = {slot.activity.id: slot.activity for lesson in facts.lessons for slot in lesson.slots}
    return tuple(sorted(found.values(), key=lambda activity: activity.title))


def _lessons(facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    return tuple(
        block
        for lesson in facts.lessons
        for block in lesson_blocks(facts, lesson, lesson_detail(facts, lesson, pages), links=True, new_page=True)
    )


def _contents(facts: PlanFacts, lists: tuple[Row, ...]) -> Contents:
    """List what the binder holds, lessons and cards below a row for all of them; whoever lays it out counts pages."""
    numbers = [(lesson.lesson.lesson, lesson.title) for lesson in facts.lessons]
    activities = activities_of(facts)
    rows: list[Row] = [(1, unit_overview.TITLE, unit_overview.ANCHOR, 0)]
    rows.append((1, "The lessons", lesson_anchor(numbers[0][0]), 0))
    rows.extend((2, f"Lesson {number}: {title}", lesson_anchor(number), 0) for number, title in numbers)
    rows.append((1, "The activities", activity_anchor(activities[0].id), 0))
    rows.extend((2, activity.title, activity_anchor(activity.id), 0) for activity in activities)
    return Contents((*rows, *lists), gathers=1)
