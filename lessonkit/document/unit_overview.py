"""The unit at a glance: aims, calendar, block plan, the steps of the skill, the rules of the place."""

from lessonkit.document.dates_in_words import short_day
from lessonkit.document.keys import field_key, listed
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, brisk_minutes
from lessonkit.document.lesson_flow import PART_NAMES
from lessonkit.document.lesson_plan import code_anchor, lesson_anchor
from lessonkit.document.model import Block, Cell, Heading, Link, Paragraph, Role, Strong, Table, text
from lessonkit.document.pieces import EN_DASH, cell, keyed_bullets, sentence, strong_cell, words_cell
from lessonkit.document.unit_coverage import assessment_blocks, coverage_blocks, in_lessons, lessons_of, word_blocks
from lessonkit.logistics.activity_time import against_half
from lessonkit.logistics.weekly import week
from lessonkit.records.activity import LESSON_PARTS

ANCHOR = "overview"
TITLE = "The unit at a glance"
_MOVING = "Moving leaves out set-up and waiting for a turn; what a teacher takes to explain comes off it."


def overview_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the overview of a unit as it stands in a binder."""
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence(facts.unit.summary, Role.SUMMARY, field_key("unit", facts.unit.id, "summary")),
        Heading(2, text("What the children will reach")),
        _aims(facts),
        Heading(2, text("Calendar")),
        _calendar(facts),
        *(Paragraph(text(says), Role.SMALL) for says in (_MOVING, *minutes_say(facts))),
        Heading(2, text("Lesson by lesson")),
        _block_plan(facts),
        Heading(2, text(f"The {'skill' if len(facts.unit.skills) == 1 else 'skills'}, step by step")),
        steps_table(facts),
        *coverage_blocks(facts),
        *assessment_blocks(facts),
        *_routines(facts),
        *word_blocks(facts),
    )


def _aims(facts: PlanFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Outcome", "What it asks", "In this unit"))
    rows = []
    for aim in facts.unit.aims:
        outcome = facts.outcomes.get(aim.code)
        practised, assessed = (lessons_of(facts, aim.code, way) for way in ("practised", "assessed"))
        said = f"Practiced in {in_lessons(practised)}"
        said += f"; checked in {in_lessons(assessed)}." if assessed else "; not checked."
        asks = (outcome.says or outcome.topic) if outcome else ""
        rows.append((_code(aim.code), words_cell(asks), words_cell(said)))
    return Table((header, *rows), (12, 46, 42), "The aims of the unit", row_header=True)


def _code(code: str) -> Cell:
    return cell(Paragraph((Link(text(code), f"#{code_anchor(code)}"),)))


def _calendar(facts: PlanFacts) -> Table:
    header = tuple(words_cell(words) for words in ("Lesson", "Day", "Time", "Where", "Minutes", "Checked"))
    rows = tuple(
        (
            _lesson(lesson),
            words_cell(short_day(lesson.lesson.date)),
            words_cell(lesson.lesson.at),
            words_cell(lesson.space.title),
            words_cell(f"{lesson.lesson.minutes}; {lesson.moving:.0f} moving, {brisk_minutes(lesson)} briskly"),
            words_cell(", ".join(code for slot in lesson.slots for code in slot.slot.assess) or EN_DASH),
        )
        for lesson in facts.lessons
    )
    return Table((header, *rows), (36, 11, 7, 10, 21, 15), "The lessons of the unit by date", row_header=True)


def minutes_say(facts: PlanFacts) -> tuple[str, str]:
    """Hold the unit's active minutes against the recommended half of lesson time, and the class's week against 150."""
    minutes = max(1, sum(lesson.lesson.minutes for lesson in facts.lessons))
    moving = against_half(sum(lesson.brisk for lesson in facts.lessons), minutes, facts.school.active_from)
    return moving.says, f"{facts.school_class.title} has {week(facts.school_class).says}"


def _lesson(lesson: LessonFacts) -> Cell:
    number = lesson.lesson.lesson
    return cell(Paragraph((Link(text(f"{number}. {lesson.title}"), f"#{lesson_anchor(number)}"),)))


def _block_plan(facts: PlanFacts) -> Table:
    """Show the activities of every lesson by part; a part that no lesson has takes no column."""
    parts = [part for part in LESSON_PARTS if any(slot.slot.part == part for le in facts.lessons for slot in le.slots)]
    header = tuple(words_cell(words) for words in ("Lesson", *(PART_NAMES[part] for part in parts)))
    rows = []
    for lesson in facts.lessons:
        columns = [[slot.activity.title for slot in lesson.slots if slot.slot.part == part] for part in parts]
        number = lesson.lesson.lesson
        link = Link(text(str(number)), f"#{lesson_anchor(number)}")
        rows.append((cell(Paragraph((link,))), *(cell(*map(sentence, titles)) for titles in columns)))
    shares = (8.0, *(92 / len(parts) for _ in parts))
    return Table((header, *rows), shares, "Block plan of the unit", row_header=True)


def steps_table(facts: PlanFacts) -> Table:
    """Return the steps of the unit's skills and the lessons that work on each, under the names of several skills."""
    header = tuple(words_cell(words) for words in ("Step", "A child who is there", "Worked on in"))
    rows: list[tuple[Cell, ...]] = []
    for skill_id in facts.unit.skills:
        skill = facts.library.skills[skill_id]
        if len(facts.unit.skills) > 1:
            rows.append((cell(Paragraph((Strong(text(skill.title)),)), span=3, shaded=True),))
        for number, step in enumerate(skill.steps, 1):
            numbers = tuple(
                lesson.lesson.lesson
                for lesson in facts.lessons
                if any((s.skill, s.step) == (skill_id, step.id) for slot in lesson.slots for s in slot.activity.skills)
            )
            worked = in_lessons(numbers).capitalize() if numbers else EN_DASH
            title, means = (field_key("skill", skill_id, "steps", number - 1, part) for part in ("title", "means"))
            lead = strong_cell(f"{number}. {step.title}", title)
            rows.append((lead, words_cell(step.means, key=means), words_cell(worked)))
    return Table((header, *rows), (24, 54, 22), "Steps of the skill", row_header=True)


def _routines(facts: PlanFacts) -> tuple[Block, ...]:
    if not facts.school.routines:
        return ()
    keyed = listed("school", facts.school.id, "routines", words=facts.school.routines)
    return (Heading(2, text("How we work here")), *keyed_bullets(keyed))
