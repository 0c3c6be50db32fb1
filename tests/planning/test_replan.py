"""Planning again after something has happened."""

from typing import Any

import msgspec
import pytest
import yaml

from lessonkit.planning.audit_plan import audit_plan, inputs_changed
from lessonkit.planning.edits import holds_edits
from lessonkit.planning.happened import after
from lessonkit.planning.read_plan import read_plan
from lessonkit.planning.reasons import reasons
from lessonkit.planning.replan import Replanned, replan
from lessonkit.planning.sequence import Impossible, Options, Planned, sequence
from lessonkit.planning.write_plan import plan_text
from lessonkit.records.library import Library
from lessonkit.records.measures import read_length
from lessonkit.records.plan import Broken, Happened, Lesson, Plan, Room, Shortened
from lessonkit.records.school import Owned

from .school_records import library, school, unit


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Return the plan of the small school."""
    found = sequence(library(), "taps", "heron", Options())
    assert isinstance(found, Planned)
    return found.plan


def _taught(plan: Plan, lessons: int) -> Plan:
    done = tuple(
        msgspec.structs.replace(lesson, taught=True) if number < lessons else lesson
        for number, lesson in enumerate(plan.lessons)
    )
    return msgspec.structs.replace(plan, lessons=done)


def _again(plan: Plan, found: Library, **options: Any) -> tuple[Plan, Replanned]:
    answer = replan(found, plan, Options(), **options)
    assert isinstance(answer.outcome, Planned), answer.outcome
    return answer.outcome.plan, answer


def test_nothing_happened_nothing_changes(plan: Plan) -> None:
    """With the same records the least changed plan is the old plan, taught or not."""
    for lessons in (0, 2):
        new, answer = _again(_taught(plan, lessons), library())

        assert () == answer.changes
        assert _taught(plan, lessons).lessons == new.lessons


def test_a_lost_day_moves_the_dates_only(plan: Plan) -> None:
    """When a lesson falls out, the later ones move on by one date and keep what they had."""
    lost = library(unit(lost_days=("2027-01-12",)))

    new, answer = _again(_taught(plan, 2), lost)

    assert ["2027-01-05", "2027-01-07", "2027-01-14", "2027-01-19"] == [lesson.date for lesson in new.lessons]
    assert [lesson.activities for lesson in plan.lessons] == [lesson.activities for lesson in new.lessons]
    assert [(3, 0), (4, 0)] == [(change.lesson, change.swapped) for change in answer.changes]
    assert ("2027-01-12", "2027-01-14") == (answer.changes[0].date_before, answer.changes[0].date_after)


def test_a_shorter_unit_keeps_what_it_can(plan: Plan) -> None:
    """With one lesson less the aims are still met, and the lessons taught are as they were."""
    new, _ = _again(_taught(plan, 2), library(unit(lessons=3)))

    assert 3 == len(new.lessons)
    assert _taught(plan, 2).lessons[:2] == new.lessons[:2]
    assert () == audit_plan(new, library(unit(lessons=3)))


def test_broken_equipment_changes_what_needs_it(plan: Plan) -> None:
    """With five nets left, Over And Back is out: its lesson loses it and no other lesson changes."""
    own = school(equipment=(Owned(item="paddle", count=12), Owned(item="net", count=5)))
    where = [n for n, lesson in enumerate(plan.lessons, 1) if "over-and-back" in str(lesson.activities)]

    new, answer = _again(_taught(plan, 1), library(own=own))

    assert "over-and-back" not in str(new.lessons)
    assert where == [change.lesson for change in answer.changes]
    assert sum(change.swapped for change in answer.changes) in (1, 2)


def test_pins_in_the_plan_survive(plan: Plan) -> None:
    """An activity that the teacher pinned in the plan stays, even when the best plan is asked for."""
    slots = plan.lessons[3].activities
    closing = msgspec.structs.replace(slots[-1], activity="ring-of-names", pinned=True)
    lessons = (*plan.lessons[:3], msgspec.structs.replace(plan.lessons[3], activities=(*slots[:-1], closing)))

    new, _ = _again(msgspec.structs.replace(plan, lessons=lessons), library(), best=True)

    last = new.lessons[3].activities[-1]
    assert ("ring-of-names", True) == (last.activity, last.pinned)


def test_the_best_plan_from_here(plan: Plan) -> None:
    """Asked for the best plan, nothing stands in the way of more changes, and the cost is no higher."""
    worse = _taught(plan, 1)

    _, least = _again(worse, library())
    _, best = _again(worse, library(), best=True)

    assert isinstance(least.outcome, Planned)
    assert isinstance(best.outcome, Planned)
    assert least.outcome.audit.cost >= best.outcome.audit.cost


def test_no_way_on(plan: Plan) -> None:
    """When the rest cannot be planned, the reasons come as for a new unit."""
    answer = replan(library(unit(exclude=("slow-breath", "two-stars", "ring-of-names"))), _taught(plan, 2), Options())

    assert isinstance(answer.outcome, Impossible)
    assert ["The closing of lesson 3 needs 1 activity, but no activity fits (3 excluded)."] == [
        said.says for said in answer.outcome.because
    ]


def _with(plan: Plan, **happened: Any) -> Plan:
    return msgspec.structs.replace(plan, happened=Happened(**happened))


def _slot(plan: Plan, lesson: int, position: int, **changes: Any) -> Plan:
    """Change a slot of a plan as a teacher does in an editor."""
    slots = list(plan.lessons[lesson].activities)
    slots[position] = msgspec.structs.replace(slots[position], **changes)
    changed = msgspec.structs.replace(plan.lessons[lesson], activities=tuple(slots))
    return msgspec.structs.replace(plan, lessons=(*plan.lessons[:lesson], changed, *plan.lessons[lesson + 1 :]))


def test_a_lesson_in_a_room_that_nothing_fits_may_fall_out(plan: Plan) -> None:
    """A lesson in a closet has no plan; that it falls out is among the ways out, and it is one."""
    closet = msgspec.structs.replace(school().spaces[0], id="closet", title="Closet", length=read_length("1 m"))
    found = library(own=school(spaces=(*school().spaces, closet)))
    day = plan.lessons[2].date

    answer = replan(found, _with(_taught(plan, 1), rooms=(Room(space="closet", date=day),)), Options())

    assert isinstance(answer.outcome, Impossible)
    assert f"Let the lesson on {day} fall out: --lost {day}." in [way.said.says for way in answer.outcome.ways_out]
    assert _again(_with(_taught(plan, 1), lost_days=(day,)), found)


def test_what_happened_stays_with_the_plan(plan: Plan) -> None:
    """News noted in the plan change it like records would, and its check finds neither faults nor changed inputs."""
    new, answer = _again(_with(_taught(plan, 2), lost_days=("2027-01-12",)), library())

    assert ["2027-01-05", "2027-01-07", "2027-01-14", "2027-01-19"] == [lesson.date for lesson in new.lessons]
    assert [0, 0] == [change.swapped for change in answer.changes]
    assert () == audit_plan(new, library())
    assert None is inputs_changed(new, library())
    assert inputs_changed(msgspec.structs.replace(new, happened=None), library()) is not None


def test_the_last_day_can_be_kept(plan: Plan) -> None:
    """With the same end there is one lesson fewer, on the days that remain, and lessons keep their days or move up."""
    new, answer = _again(_with(_taught(plan, 2), dropped_days=("2027-01-12",)), library())

    assert ["2027-01-05", "2027-01-07", "2027-01-14"] == [lesson.date for lesson in new.lessons]
    assert _taught(plan, 2).lessons[:2] == new.lessons[:2]
    assert answer.fewest
    assert () == audit_plan(new, library())


def test_a_day_that_is_made_up_for_and_one_that_is_not(plan: Plan) -> None:
    """Of four lessons the second fell out and was made up for; when the next falls out as well and is not, three stay.

    The last day is then the one that the first loss moved it to.
    """
    first, _ = _again(_with(plan, lost_days=(plan.lessons[1].date,)), library())
    gone = first.lessons[1].date
    new, _ = _again(_with(first, lost_days=(plan.lessons[1].date,), dropped_days=(gone,)), library())

    assert 4 == len(first.lessons)
    assert [lesson.date for lesson in first.lessons if lesson.date != gone] == [lesson.date for lesson in new.lessons]
    assert () == audit_plan(new, library())


@pytest.mark.parametrize(("numbers", "left"), [((2, 4), (3,)), ((2,), (2,)), ((4,), (3,)), ((3, 4), (2, 3))])
def test_the_shape_of_a_lesson_that_is_gone(plan: Plan, numbers: tuple[int, ...], left: tuple[int, ...]) -> None:
    """Without lesson 2 the lessons after it count one less; its own shape goes over where no other lesson has it."""
    special = msgspec.structs.replace(unit().shapes[0], title="Special", lessons=numbers)
    found = library(unit(shapes=(unit().shapes[0], special)))
    lost = _with(plan, dropped_days=(plan.lessons[1].date,))

    assert left == after(found, lost).units["taps"].shapes[1].lessons


def test_a_shortened_lesson_fills_its_new_minutes(plan: Plan) -> None:
    """The lesson of that day lasts 20 minutes; the others keep their activities and minutes."""
    new, answer = _again(_with(plan, shortened=(Shortened(date="2027-01-12", minutes=20),)), library())

    assert [30, 30, 20, 30] == [lesson.minutes for lesson in new.lessons]
    assert 20 == sum(slot.minutes + slot.setup for slot in new.lessons[2].activities)
    assert [3] == [change.lesson for change in answer.changes if "20 minutes instead of 30" in change.frame]
    assert None is inputs_changed(new, library())


def test_another_room_for_a_day_or_from_a_day_on(plan: Plan) -> None:
    """A room of one day stands before one that holds from a day on."""
    rooms = (Room(space="yard", first="2027-01-07"), Room(space="gym", date="2027-01-12"))

    new, _ = _again(_with(plan, rooms=rooms), library())

    assert ["gym", "yard", "gym", "yard"] == [lesson.space for lesson in new.lessons]


def test_fewer_children_and_broken_nets(plan: Plan) -> None:
    """Six nets serve twelve children in pairs; with five nets they serve ten, so that Over And Back may stay."""
    broken = (Broken(item="net", count=1),)

    small, answer = _again(_with(plan, children=10, broken=broken), library())
    large, _ = _again(_with(plan, broken=broken), library())

    assert 0 == sum(change.swapped for change in answer.changes)
    assert "over-and-back" not in str(large.lessons)
    assert None is inputs_changed(small, library())


def test_an_activity_put_in_by_hand_is_held(plan: Plan) -> None:
    """The plan is put right around an activity typed over another: it stays, pinned, and the other stays out."""
    old = plan.lessons[1].activities[0].activity
    other = next(name for name in ("run-and-freeze", "shadow-steps", "line-hops") if name not in str(plan.lessons[1]))

    new, answer = _again(_slot(plan, 1, 0, activity=other, minutes=5), library())

    warm_up = new.lessons[1].activities[0]
    assert (other, True) == (warm_up.activity, warm_up.pinned)
    assert old not in [slot.activity for slot in new.lessons[1].activities]
    assert ([1], ((1, old),)) == ([held.lesson for held in answer.edits.held], answer.edits.taken_out)
    assert new.happened is None
    assert [False, True] == [holds_edits(each, unit()) for each in (plan, new)]
    assert () == audit_plan(new, library())


def _warm_up(plan: Plan, lesson: int) -> str:
    return plan.lessons[lesson].activities[0].activity


def _changed_lesson(plan: Plan, lesson: int, **changes: Any) -> Plan:
    lessons = list(plan.lessons)
    lessons[lesson] = msgspec.structs.replace(lessons[lesson], **changes)
    return msgspec.structs.replace(plan, lessons=tuple(lessons))


def test_what_was_taken_out_by_hand_stays_out_ever_after(plan: Plan) -> None:
    """The lesson keeps a note of it, also when another lesson is lost and the best plan is asked for.

    Without the note the best plan has the activity again, because it was the best before.
    """
    old = _warm_up(plan, 1)
    other = next(name for name in ("run-and-freeze", "shadow-steps", "line-hops") if name not in str(plan.lessons[1]))
    first, _ = _again(_slot(plan, 1, 0, activity=other, minutes=5), library())
    free = _slot(first, 1, 0, pinned=False)

    again, _ = _again(_with(free, lost_days=(plan.lessons[0].date,)), library(), best=True)
    forgotten, _ = _again(_changed_lesson(free, 1, without=()), library(), best=True)

    assert ((old,), (old,)) == (first.lessons[1].without, again.lessons[1].without)
    assert old != _warm_up(again, 1)
    assert old == _warm_up(forgotten, 1)
    assert () == audit_plan(again, library())
    assert first == msgspec.convert(yaml.load(plan_text(first, library()), Loader=yaml.BaseLoader), Plan, strict=False)


def test_what_is_put_back_by_hand_is_no_longer_kept_out(plan: Plan) -> None:
    """An activity typed in again where it was taken out is the teacher's, and what it replaces stays out instead."""
    old = _warm_up(plan, 1)
    other = next(name for name in ("run-and-freeze", "shadow-steps", "line-hops") if name not in str(plan.lessons[1]))
    first, _ = _again(_slot(plan, 1, 0, activity=other, minutes=5), library())

    again, answer = _again(_slot(first, 1, 0, activity=old, pinned=False), library())

    assert ((1, other),) == answer.edits.taken_out
    assert (old, (other,)) == (_warm_up(again, 1), again.lessons[1].without)


def test_lessons_that_are_left_for_an_activity_are_those_to_come(plan: Plan) -> None:
    """Taken out of lesson 2 while lesson 1 is taught, an activity has lessons 3 and 4 left."""
    gone = next(name for name in ("run-and-freeze", "shadow-steps", "line-hops") if name not in str(plan.lessons[1]))
    begun = _changed_lesson(_taught(plan, 1), 1, without=(gone,))
    unused = msgspec.structs.replace(begun, lessons=tuple(_emptied(lesson, gone) for lesson in begun.lessons))
    read = read_plan(unused, library())
    (says,) = (each.says for each in reasons(read.case, read.schedule).unused if each.activity == gone)

    assert says.endswith(" was taken out of lesson 2 by hand. That leaves 2 lessons for it.")


def _emptied(lesson: Lesson, activity: str) -> Lesson:
    kept = tuple(slot for slot in lesson.activities if slot.activity != activity)
    return msgspec.structs.replace(lesson, activities=kept)


def test_everything_taken_out_is_named_and_may_be_put_back(plan: Plan) -> None:
    """A lesson that does without every warm-up has no plan; letting one be in it again is a way out."""
    every = ("run-and-freeze", "shadow-steps", "line-hops")

    answer = replan(library(), _changed_lesson(_slot(plan, 1, 0, activity="slow-breath"), 1, without=every), Options())

    assert isinstance(answer.outcome, Impossible)
    assert any("(3 taken out by hand)" in said.says for said in answer.outcome.because)
    way = answer.outcome.ways_out[0].said
    assert (("lessons", 1, "without"), "plan") == (way.field, way.kind)
    assert "be in lesson 2 again." in way.says


def test_minutes_changed_by_hand_are_held(plan: Plan) -> None:
    """A minute more for a warm-up is taken from another activity of the lesson."""
    slot = plan.lessons[0].activities[0]
    minutes = slot.minutes + 1 if slot.minutes < 6 else slot.minutes - 1

    new, answer = _again(_slot(plan, 0, 0, minutes=minutes), library())

    assert minutes == new.lessons[0].activities[0].minutes
    assert 30 == sum(each.minutes + each.setup for each in new.lessons[0].activities)
    assert 0 == sum(change.swapped for change in answer.changes)


def test_minutes_beyond_the_record_are_taken_back(plan: Plan) -> None:
    """A warm-up of nine minutes, where its record allows six, runs for six."""
    new, _ = _again(_slot(plan, 0, 0, minutes=9), library())

    assert 6 == new.lessons[0].activities[0].minutes
    assert () == audit_plan(new, library())


def test_an_edit_that_cannot_be_is_named_in_the_plan(plan: Plan) -> None:
    """A warm-up typed in as a closing cannot stay; the sentence and the way out point into the plan's file."""
    last = len(plan.lessons[0].activities) - 1

    answer = replan(library(), _slot(plan, 0, last, activity="line-hops"), Options())

    assert isinstance(answer.outcome, Impossible)
    said = answer.outcome.because[0]
    field = ("lessons", 0, "activities", last, "part")
    assert ("plan", plan.id, field) == (said.kind, said.record, said.field)
    assert "Line Hops cannot be the closing of lesson 1" in said.says
    assert "Take Line Hops out of lesson 1 again." in [way.said.says for way in answer.outcome.ways_out]
