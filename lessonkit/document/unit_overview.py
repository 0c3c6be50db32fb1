"""The unit at a glance: aims, calendar, block plan, the steps of the skill, the rules of the place."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lessonkit.document.dates_in_words import short_day
from lessonkit.document.detail import CountPages
from lessonkit.document.keys import field_key, listed
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, brisk_minutes
from lessonkit.document.lesson_flow import PART_NAMES
from lessonkit.document.lesson_plan import code_anchor, lesson_anchor
from lessonkit.document.model import Block, Cell, Document, Heading, Link, Paragraph, Role, Table, WritingSpace, text
from lessonkit.document.pieces import EN_DASH, cell, keyed_bullets, labelled, sentence, strong_cell, words_cell
from lessonkit.document.unit_coverage import assessment_blocks, coverage_blocks, in_lessons, lessons_of, word_blocks
from lessonkit.logistics.activity_time import against_half
from lessonkit.logistics.weekly import week
from lessonkit.records.activity import LESSON_PARTS
from lessonkit.records.skill import Skill

ANCHOR = "overview"
TITLE = "The unit at a glance"
_LINES_OF_A_BARE_PAGE = 26
"""Ruled lines that a page can still hold of which no more than a sixth is filled."""
_MOVING = "Moving leaves out set-up and waiting for a turn; what a teacher takes to explain comes off it."


def fitted_overview(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return the overview of a unit in letters for a desk, smaller where ``pages`` says that this saves a bare page."""
    blocks = overview_blocks(facts)
    if pages is None:
        return blocks

    def count(tried: tuple[Block, ...]) -> int:
        return pages(Document("", "", "", "", "", tried, paper=facts.school.paper))

    most = count(blocks)
    if count((*blocks, WritingSpace("", _LINES_OF_A_BARE_PAGE))) > most:
        return blocks
    smaller = tuple(map(_smaller, blocks))
    return smaller if count(smaller) < most else blocks


def _smaller(block: Block) -> Block:
    return replace(block, large=False) if isinstance(block, Table) else block


def overview_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the overview of a unit as it stands in a binder."""
    return (
        Heading(1, text(TITLE), ANCHOR, new_page=True),
        sentence(facts.unit.summary, Role.SUMMARY, field_key("unit", facts.unit.id, "summary")),
        Heading(2, text("What the children will reach")),
        _aims(facts),
        Heading(2, text("Calendar")),
        *_calendar(facts),
        Heading(2, text("Lesson by lesson")),
        _block_plan(facts),
        Heading(2, text(f"The {'skill' if len(facts.unit.skills) == 1 else 'skills'}, step by step")),
        *steps_blocks(facts),
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
    return Table((header, *rows), (12, 46, 42), "The aims of the unit", row_header=True, large=True)


def _code(code: str) -> Cell:
    return cell(Paragraph((Link(text(code), f"#{code_anchor(code)}"),)))


def _calendar(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the lessons by date. Minutes and place that are the same for all of them are said once, below."""
    minutes, places = _minutes(facts), _places(facts)
    columns = (
        ("Lesson", 0, tuple(map(_lesson, facts.lessons))),
        ("Day", 12, _cells(short_day(lesson.lesson.date) for lesson in facts.lessons)),
        ("Time", 7, _cells(lesson.lesson.at for lesson in facts.lessons)),
        *((("Where", 9, _cells(places)),) if len(set(places)) > 1 else ()),
        *((("Minutes", 8, _cells(minutes)),) if len(set(minutes)) > 1 else ()),
        ("Moving", 8, _cells(f"{lesson.moving:.0f}" for lesson in facts.lessons)),
        ("Briskly", 8, _cells(map(brisk_minutes, facts.lessons))),
        ("Checked", 18, _cells(map(_checked, facts.lessons))),
    )
    used = sum(share for _, share, _ in columns)
    rows = zip(*(cells for _, _, cells in columns), strict=True)
    table = Table(
        (tuple(words_cell(name) for name, _, _ in columns), *rows),
        tuple(float(share or 100 - used) for _, share, _ in columns),
        "The lessons of the unit by date",
        row_header=True,
        large=True,
    )
    same = [
        *([f"{minutes[0]} minutes"] if len(set(minutes)) == 1 else ()),
        *([places[0]] if len(set(places)) == 1 else ()),
    ]
    every = f"Every lesson: {', '.join(same)}. " if same else ""
    said = (every + _MOVING, *minutes_say(facts))
    return (table, *(Paragraph(text(says), Role.CAPTION) for says in said))


def _minutes(facts: PlanFacts) -> tuple[str, ...]:
    return tuple(str(lesson.lesson.minutes) for lesson in facts.lessons)


def _places(facts: PlanFacts) -> tuple[str, ...]:
    return tuple(lesson.space.title for lesson in facts.lessons)


def _checked(lesson: LessonFacts) -> str:
    return ", ".join(code for slot in lesson.slots for code in slot.slot.assess) or EN_DASH


def _cells(words: Iterable[str]) -> tuple[Cell, ...]:
    return tuple(map(words_cell, words))


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
    return Table((header, *rows), shares, "Block plan of the unit", row_header=True, large=True)


def steps_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return the steps of the unit's skills and the lessons that work on each, under the names of several skills.

    The steps from the first to the last that a lesson works on stand in a table; the others are only named.
    """
    blocks: list[Block] = []
    for skill_id in facts.unit.skills:
        skill = facts.library.skills[skill_id]
        if len(facts.unit.skills) > 1:
            blocks.append(Heading(3, text(skill.title)))
        blocks.extend(_steps(facts, skill))
    return tuple(blocks)


def _steps(facts: PlanFacts, skill: Skill) -> Iterator[Block]:
    worked = [_lessons_on(facts, skill.id, step.id) for step in skill.steps]
    taught = [place for place, numbers in enumerate(worked) if numbers]
    first, last = (taught[0], taught[-1] + 1) if taught else (0, 0)
    if taught:
        header = tuple(words_cell(words) for words in ("Step", "A child who is there", "Worked on in"))
        rows = (_step(skill, place, worked[place]) for place in range(first, last))
        yield Table((header, *rows), (24, 54, 22), f"Steps of {skill.title}", row_header=True, large=True)
    for name, steps in (("Earlier", skill.steps[:first]), ("Later", skill.steps[last:])):
        if steps:
            label = f"{name} step{'s' * (len(steps) > 1)}:"
            yield Paragraph(labelled(label, f"{', '.join(step.title.lower() for step in steps)}."), Role.CAPTION)


def _step(skill: Skill, place: int, lessons: tuple[int, ...]) -> tuple[Cell, Cell, Cell]:
    """Return the row of a step: its name, what a child can do who is there, and the lessons that work on it."""
    step = skill.steps[place]
    title, means = (field_key("skill", skill.id, "steps", place, part) for part in ("title", "means"))
    worked = in_lessons(lessons).capitalize() if lessons else EN_DASH
    return strong_cell(f"{place + 1}. {step.title}", title), words_cell(step.means, key=means), words_cell(worked)


def _lessons_on(facts: PlanFacts, skill: str, step: str) -> tuple[int, ...]:
    return tuple(
        lesson.lesson.lesson
        for lesson in facts.lessons
        if any((s.skill, s.step) == (skill, step) for slot in lesson.slots for s in slot.activity.skills)
    )


def _routines(facts: PlanFacts) -> tuple[Block, ...]:
    if not facts.school.routines:
        return ()
    keyed = listed("school", facts.school.id, "routines", words=facts.school.routines)
    return (Heading(2, text("How we work here")), *keyed_bullets(keyed, Role.READING))
