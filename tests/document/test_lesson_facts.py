"""What a lesson does, worked out for its class."""

from dataclasses import replace

import msgspec

from lessonkit.document.lesson_facts import LessonFacts, brisk_minutes, work_out
from lessonkit.document.lesson_flow import groups_say, in_grade
from lessonkit.document.lesson_setup import main_slot
from lessonkit.document.model import Heading, Paragraph, Table, plain
from lessonkit.document.unit_coverage import in_lessons
from lessonkit.document.unit_overview import steps_blocks
from lessonkit.records.plan import Slot
from tests.document.printed import facts, fixed_plan, library, worked_out
from tests.document.sheet_plans import with_unit


def _codes(*also: str) -> set[str]:
    """Return the outcomes of the fixed plan for a class of grade 3 and others."""
    school = library().schools["quillfeather"]
    heron = school.school_class("grade-3-heron")
    classes = tuple(
        msgspec.structs.replace(each, also_grades=also) if each.id == heron.id else each for each in school.classes
    )
    changed = msgspec.structs.replace(school, classes=classes)
    facts = work_out(fixed_plan(), replace(library(), schools={school.id: changed}))
    return {target.code for lesson in facts.lessons for target in lesson.targets}


def test_a_combined_class_has_the_outcomes_of_all_its_grades() -> None:
    """Grade 3 alone has no outcomes of grade 4 in its lessons; with grade 4 in the room it has both."""
    alone, together = _codes(), _codes("4")

    assert not {code for code in alone if ".4" in code}
    assert {code for code in together if ".4" in code}
    assert alone < together


def test_an_outcome_is_introduced_once() -> None:
    """The record of Photo Album introduces S1.E24.3b; the plan here begins with it, and has its lesson twice."""
    plan = fixed_plan()
    album = plan.lessons[1]
    twice = msgspec.structs.replace(plan, lessons=(album, msgspec.structs.replace(album, lesson=3)))
    lessons = worked_out(twice, "grade-3-heron", 25, "letter").lessons
    ways = [target.ways for lesson in lessons for target in lesson.targets if target.code == "S1.E24.3b"]

    assert [("introduced", "practised", "assessed"), ("practised", "assessed")] == ways


def test_what_was_practised_before_is_not_introduced_any_more() -> None:
    """Ladder of Taps in lesson 1 practises S1.E24.3b, so Photo Album in lesson 2 only goes on with it."""
    ways = [target.ways for lesson in facts().lessons for target in lesson.targets if target.code == "S1.E24.3b"]

    assert [("practised",), ("practised", "assessed")] == ways[:2]


def test_an_activity_that_comes_again_says_from_when_it_is_known() -> None:
    """The ladder of lesson 1 is put into lesson 3, which is otherwise as it was."""
    plan = fixed_plan()
    first, second, third = plan.lessons
    again = msgspec.structs.replace(
        plan, lessons=(first, second, msgspec.structs.replace(third, activities=(_LADDER,)))
    )
    lessons = worked_out(again, "grade-3-heron", 25, "letter").lessons

    assert "25 children, each alone." == groups_say(lessons[0].slots[2])
    assert "25 children, each alone. Known from lesson 1." == groups_say(lessons[2].slots[0])


def test_steps_that_hold_an_and_are_told_apart() -> None:
    """Photo Album works on *Drop and hit*, Echo Wall on *Wall rally*: only a comma says where one step ends."""
    with_and = _lesson(Slot(part="skill", activity="photo-album", minutes=10), _ECHO_WALL)
    without = _lesson(_LADDER, _ECHO_WALL)

    assert "Drop and hit, and wall rally" == with_and.title
    assert "Tap up and wall rally" == without.title


def test_lessons_of_the_same_title_are_told_apart_by_an_activity_of_their_own() -> None:
    """Both work on dropping and hitting and on the wall rally; only the second has Ladder of Taps."""
    plan = fixed_plan()
    photo = Slot(part="skill", activity="photo-album", minutes=10)
    twice = tuple(
        msgspec.structs.replace(plan.lessons[place], activities=slots)
        for place, slots in enumerate(((photo, _ECHO_WALL), (photo, _ECHO_WALL, _LADDER)))
    )
    lessons = worked_out(msgspec.structs.replace(plan, lessons=twice), "grade-3-heron", 25, "letter").lessons

    assert ["Drop and hit, and wall rally", "Drop and hit, and wall rally (Ladder of Taps)"] == [
        lesson.title for lesson in lessons
    ]


def test_of_two_as_long_the_floor_is_that_of_the_game() -> None:
    """A practice and a game of ten minutes each: the lesson leads to the game."""
    lesson = _lesson(_LADDER, Slot(part="game", activity="three-fields", minutes=10))

    assert "three-fields" == main_slot(lesson).activity.id


_LADDER = Slot(part="practice", activity="ladder-of-taps", minutes=10)
_ECHO_WALL = Slot(part="practice", activity="echo-wall", minutes=10)


def _lesson(*slots: Slot) -> LessonFacts:
    """Return a lesson of the fixed plan with other activities."""
    plan = fixed_plan()
    lesson = msgspec.structs.replace(plan.lessons[0], activities=slots)
    changed = msgspec.structs.replace(plan, lessons=(lesson,))
    return worked_out(changed, "grade-3-heron", 25, "letter").lessons[0]


def test_what_holds_for_a_grade_names_it() -> None:
    """A reader does not know which grade *this grade* is; K is kindergarten."""
    assert ["In kindergarten:", "In grade 3:"] == [in_grade(grade) for grade in ("K", "3")]


def test_no_brisk_minute_is_said_in_a_word() -> None:
    """A lesson of drops and rolls alone: *0 of them briskly* is no English."""
    still = replace(_lesson(_LADDER), brisk=0.3)

    assert ["none", "6"] == [brisk_minutes(each) for each in (still, replace(still, brisk=6.4))]


def test_several_skills_are_named_before_their_steps() -> None:
    """Steps of two skills each begin with 1; a unit of one skill needs no name."""
    one, two = facts(), with_unit(facts(), skills=("short-paddle", "throw"))
    headings = [
        [plain(each.content) for each in steps_blocks(plan) if isinstance(each, Heading)] for plan in (one, two)
    ]

    assert [[], ["Striking with a short-handled paddle", "Throwing underhand and overhand"]] == headings


def test_steps_that_no_lesson_works_on_are_only_named() -> None:
    """A row that says of itself that it is not for this unit tells a reader less than a name behind those that are."""
    lesson = _lesson(_LADDER)
    blocks = steps_blocks(replace(facts(), lessons=(lesson,)))
    table = next(each for each in blocks if isinstance(each, Table))
    worked = sorted({step.step for step in lesson.slots[0].activity.skills})
    said = [plain(each.content).partition(":")[0] for each in blocks if isinstance(each, Paragraph)]

    assert len(worked) == len(table.rows) - 1
    assert ["Earlier steps", "Later steps"] == said


def test_lessons_in_a_row_are_named_by_the_first_and_the_last() -> None:
    """Three or more in a row, as one reads page numbers; two are named both (common practice, no source)."""
    assert "no lesson" == in_lessons(())
    assert "lesson 4" == in_lessons((4,))
    assert "lessons 1 and 2" == in_lessons((1, 2))
    assert "lessons 1 to 3, 5, 6 and 8" == in_lessons((1, 2, 3, 5, 6, 8))
    assert "lessons 3 to 8" == in_lessons((3, 4, 5, 6, 7, 8))


def test_children_that_share_the_floor_are_told_how_and_move_less() -> None:
    """Areas of 2 m, 1 m apart and from the sides: 7 in 22 m times 4 in 14 m; the other 12 of 40 count for a partner."""
    few, many = (worked_out(fixed_plan(), "grade-3-heron", children, "letter").lessons[0] for children in (25, 40))
    ladder = many.slots[2]

    assert "ladder-of-taps" == ladder.activity.id
    assert few.slots[2].by_turns is None
    assert f"There is floor for 28 of 40 children at a time. {ladder.activity.floor.if_more}" == ladder.by_turns
    assert (1.0, 28 / 40) == (few.slots[2].on_floor, ladder.on_floor)
    assert str(ladder.by_turns) in groups_say(ladder)
    assert many.moving < few.moving
