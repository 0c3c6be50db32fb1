"""The sheet for a substitute: one page, whatever the lesson, and what it never leaves out."""

from dataclasses import replace
from itertools import cycle, islice

import msgspec
import pytest

from lessonkit.document.circuit_table import circuits
from lessonkit.document.lesson_facts import LessonFacts, PlanFacts, work_out
from lessonkit.document.model import Document, Table, WritingSpace, plain
from lessonkit.document.pieces import inline
from lessonkit.document.substitute_sheet import substitute_document
from lessonkit.document.substitute_sizes import Told, cut_steps, shorter
from lessonkit.document.substitute_steps import run_in, steps_lengths
from lessonkit.writers.word.writer import safe_pages
from tests.document.printed import facts, flat, said, steps_of
from tests.document.sheet_plans import library, plan_facts


def test_first_sentences_stay_longest_and_the_first_step_whole() -> None:
    """Worked by hand: the longest later step loses sentences, then the last steps go, then the first."""
    steps = ((10, 5), (8, 4, 9), (3,))

    assert ((2, 3, 1), (2, 2, 1), (2, 1, 1), (2, 1, 0), (2, 0, 0), (1, 0, 0), (0, 0, 0)) == shorter(steps)


def test_the_activity_that_is_longest_for_its_minutes_is_cut_first() -> None:
    """Alike but for their minutes, 4 and 12: the short one loses a sentence, the longer one follows."""
    steps = ((20,), (20, 20))
    short, long = Told(steps, 4), Told(steps, 12)

    assert ((1, 1), (1, 2)) == cut_steps([short, long], 1)
    assert ((1, 2), (1, 1)) == cut_steps([short._replace(minutes=13), long], 1)
    assert ((1, 0), (1, 0)) == cut_steps([short, long], 4)


@pytest.mark.parametrize(
    ("steps", "shown", "expected"),
    [
        ("1. Face your partner. Jog.\n2. Spilled? Pick it up at once and go on.\n", (1, 1), None),
        (
            "1. *Home!* Walk to a spot by a free road. Look.\n",
            (1,),
            "Home! Walk to a spot by a free road. \u2026",
        ),
        ("1. Stand on your own spot in a row.\n2. Walk.\n", (1, 0), "Stand on your own spot in a row. \u2026"),
        ("1. Walk about 1.5 m, e.g. there.\n- Deep.\n", (1, 1), "Walk about 1.5 m, e.g. there. 2. Deep."),
    ],
)
def test_steps_are_cut_between_sentences(steps: str, shown: tuple[int, ...], expected: str | None) -> None:
    """Three dots stand for what is left out, once; a beginning of a word or two keeps the sentence behind it."""
    activity = msgspec.structs.replace(facts().lessons[0].slots[0].activity, steps=steps)
    expected = expected or "Face your partner. Jog. 2. Spilled? Pick it up at once and go on."

    assert f"1. {expected}" == flat(plain(run_in(activity, shown)))


def test_whole_steps_are_said_word_for_word() -> None:
    """No word is lost where sentences are taken apart and put together, in any shipped activity."""
    for activity in library().activities.values():
        shown = [len(step) for step in steps_lengths(activity)]
        words = flat(plain(run_in(activity, shown)))

        assert [] == [step for step in steps_of(activity) if flat(step) not in words], activity.id


@pytest.mark.parametrize(("klass", "children", "paper"), [("3", 36, "a4"), ("K", 8, "letter"), ("5", 36, "letter")])
def test_a_substitute_teaches_from_one_page(klass: str, children: int, paper: str) -> None:
    """One page for any grade, class size and paper; the longest activities keep what must be said."""
    plan = plan_facts(klass, children, paper)
    sheet = substitute_document(plan, 1, safe_pages)

    assert 1 == safe_pages(sheet)
    assert [] == _missing(sheet, plan.lessons[0])


def test_what_keeps_children_safe_never_goes() -> None:
    """The activities three times over are no lesson for a page, but each keeps groups, stop signal and caution."""
    plan = _with_slots(plan_facts("3", 25, "letter"), 15)

    assert [] == _missing(substitute_document(plan, 1, safe_pages), plan.lessons[0])


def test_a_short_lesson_has_everything() -> None:
    """One activity: every step, where things lie, every caution, how everyone takes part, and much room for notes."""
    plan = _with_slots(facts(), 1)
    sheet = substitute_document(plan, 1, safe_pages)
    activity, words = plan.lessons[0].slots[0].activity, said(sheet)
    notes = sheet.blocks[-1]

    assert 1 == safe_pages(sheet)
    assert [] == [each for each in (*steps_of(activity), *activity.safety) if flat(plain(inline(each))) not in words]
    assert "\u2026 stands for" not in words
    assert isinstance(notes, WritingSpace)
    assert notes.lines > 5


def test_what_a_sheet_leaves_free_is_room_to_write() -> None:
    """Of two activities one more line for notes would take a second page, or there are 12."""
    sheet = substitute_document(_with_slots(facts(), 2), 1, safe_pages)
    *others, notes = sheet.blocks
    assert isinstance(notes, WritingSpace)
    longer = replace(sheet, blocks=(*others, replace(notes, lines=notes.lines + 1)))

    assert notes.lines == 12 or safe_pages(longer) > 1


def test_a_substitute_knows_where_things_lie_and_who_is_left_over() -> None:
    """Photo Album, lesson 2: 25 children are 11 pairs and three more, on 12 times 2 spots, as its record says."""
    three_lessons = facts()
    sheet = said(substitute_document(three_lessons, 2))
    uneven = three_lessons.lessons[1].slots[1].activity.organisation.uneven
    assert uneven is not None

    assert f"11 pairs and one group of three. {uneven.say}" in sheet
    assert "Uses: 12 large light foam balls (20 cm) \u2013 " in sheet
    assert "24 floor spots \u2013 one for each partner" in sheet


def test_a_substitute_reads_the_time_of_day() -> None:
    """A lesson at 10:15 whose first activity takes 9 minutes goes on at 10:24 (10:15 and 9 minutes)."""
    plan = facts()
    first, second = plan.lessons[1].slots[:2]
    table = next(
        block for block in substitute_document(plan, 2).blocks if isinstance(block, Table) and block.row_header
    )

    assert ("10:15", 9) == (plan.lessons[1].lesson.at, second.starts - first.starts)
    assert ["10:15", "10:24"] == [_first_words(row[0].blocks) for row in table.rows[1:3]]


def test_a_substitute_finds_who_helps_at_the_head_of_the_sheet() -> None:
    """Room for four names comes before anything else; handwriting wants rows of 20 points (common practice)."""
    sheet = substitute_document(plan_facts(), 1)
    first = next(block for block in sheet.blocks if isinstance(block, Table))

    assert "Who helps" == first.title
    assert 4 == sum(not _first_words(cell.blocks) for cell in first.rows[0])
    assert first.row_height >= 20


def test_a_circuit_is_one_row_and_a_short_one_for_each_station() -> None:
    """All stations run at once: one time, one stop signal, how large squads are; what each is stands in a row."""
    plan, lesson = next(
        (found, lesson)
        for plan in sorted(library().plans.values(), key=lambda plan: plan.id)
        if any(slot.station for lesson in plan.lessons for slot in lesson.activities)
        for found in [work_out(plan, library())]
        for lesson in found.lessons
        if circuits(lesson)
    )
    sheet = substitute_document(plan, lesson.lesson.lesson, safe_pages)
    stations = circuits(lesson)[0]
    words = said(sheet)

    assert 1 == safe_pages(sheet)
    assert 1 == words.count("Stop, for all stations at once:")
    assert f"{stations[0].starts}\u2013{stations[-1].ends}" in words
    assert [] == [each.activity.id for each in stations if flat(plain(inline(each.activity.summary))) not in words]
    assert [] == _missing(sheet, lesson)


def _missing(sheet: Document, lesson: LessonFacts) -> list[str]:
    """Return what must stand on a sheet and does not; the stations of a circuit have one stop signal."""
    words = said(sheet)
    wanted = [facts.grouping.says for facts in lesson.slots]
    wanted += [facts.activity.safety[0] for facts in lesson.slots]
    wanted += [facts.activity.stop_signal or "" for facts in lesson.slots if facts.slot.station is None]
    return [each for each in wanted if flat(plain(inline(each))) not in words]


def _first_words(blocks: tuple[object, ...]) -> str:
    return plain(getattr(blocks[0], "content", ()))


def _with_slots(plan: PlanFacts, count: int) -> PlanFacts:
    """Return a plan with so many activities in its first lesson, which come again where it has fewer."""
    first, *others = plan.plan.lessons
    slots = tuple(islice(cycle(first.activities), count))
    changed = msgspec.structs.replace(first, activities=slots)
    return work_out(msgspec.structs.replace(plan.plan, lessons=(changed, *others)), plan.library)
