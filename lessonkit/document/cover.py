"""The cover of a binder: whose unit this is, when, what the children will be able to say, and the floor of the goal."""

from lessonkit.document.dates_in_words import day_in_words
from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.keys import field_key
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_setup import floor_drawing, main_slot
from lessonkit.document.model import Block, Document, KeyValues, Note, Paragraph, Role, text
from lessonkit.document.pieces import EN_DASH, bullets, sentence

_WIDTHS = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.0)
"""Shares of the text's width that the drawing may take, largest first; 0 for none."""


def fitted_cover(facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    """Return the cover with the largest drawing that its page holds, as far as ``pages`` can tell."""
    if pages is None:
        return _cover(facts, 0.7)

    def fits(width: float) -> bool:
        return pages(Document("", "", "", "", "", _cover(facts, width), paper=facts.school.paper)) == 1

    return _cover(facts, fullest(_WIDTHS, fits))


def child_words(facts: PlanFacts) -> tuple[str, ...]:
    """Return what a child can say at the end: a sentence for every aim, from where it is checked or else practised."""
    said: dict[str, None] = {}
    for aim in facts.unit.aims:
        entries = [
            (aim.code not in slot.slot.assess, entry.i_can)
            for lesson in facts.lessons
            for slot in lesson.slots
            for entry in slot.activity.look_for
            if entry.outcome == aim.code
        ]
        if entries:
            said.setdefault(min(entries, key=lambda entry: entry[0])[1])
    return tuple(said)


def _cover(facts: PlanFacts, width: float) -> tuple[Block, ...]:
    first, last = facts.lessons[0].lesson, facts.lessons[-1].lesson
    pairs = (
        ("Class", f"{facts.school_class.title}, {facts.school_class.children} children"),
        ("From", day_in_words(first.date)),
        ("To", day_in_words(last.date)),
        ("Lessons", f"{len(facts.lessons)} of {first.minutes} minutes"),
    )
    says = child_words(facts)
    return (
        Paragraph(text(f"{facts.school.title} {EN_DASH} physical education"), Role.KICKER),
        Paragraph(text(facts.unit.title), Role.TITLE, field_key("unit", facts.unit.id, "title")),
        sentence(facts.unit.summary, Role.SUMMARY, field_key("unit", facts.unit.id, "summary")),
        KeyValues(tuple((name, text(value)) for name, value in pairs)),
        *((Note("At the end a child can say", bullets(says)),) if says else ()),
        *_floor(facts, width),
    )


def _floor(facts: PlanFacts, width: float) -> tuple[Block, ...]:
    """Show the floor of the last lesson, which the unit leads to."""
    if not width:
        return ()
    lesson = facts.lessons[-1]
    activity = main_slot(lesson).activity
    words = f"Where the unit leads: {activity.title}, lesson {lesson.lesson.lesson}, {lesson.space.title.lower()}."
    return (Paragraph(text(words), Role.CAPTION), floor_drawing(facts, lesson, width))
