"""The plan's file: written, read back, edited, audited."""

from typing import Any

import msgspec
import pytest
import yaml

from lessonkit.planning.audit_plan import audit_plan, inputs_changed
from lessonkit.planning.sequence import Options, Planned, sequence
from lessonkit.planning.write_plan import plan_text
from lessonkit.records.plan import Plan, Slot
from lessonkit.records.unit import Repeats

from .school_records import activity, library, unit


@pytest.fixture(scope="module")
def plan() -> Plan:
    """Return the plan of the small school."""
    found = sequence(library(), "taps", "heron", Options(version="1.2.3"))
    assert isinstance(found, Planned)
    return found.plan


def test_the_text_reads_back_as_the_same_plan(plan: Plan) -> None:
    """PyYAML reads the file as the plan that was written, field by field."""
    read = yaml.load(plan_text(plan, library()), Loader=yaml.BaseLoader)

    assert plan == msgspec.convert(read, Plan, strict=False)


def test_the_text_helps_whoever_edits_it(plan: Plan) -> None:
    """The file says what may be changed, names the day of each lesson and the titles of activities."""
    text = plan_text(plan, library())

    assert text.startswith("# A plan made by the sequencer. It is yours: change it here and check it again with\n")
    assert "  # Tuesday 5 January 2027\n  - lesson: 1\n    date: 2027-01-05\n" in text
    assert "activity: wall-taps" in text
    assert "  # Wall Taps\n" in text
    assert max(len(line) for line in text.splitlines()) <= 120


def test_awkward_titles_are_quoted(plan: Plan) -> None:
    """A title that YAML would read otherwise stands between quotes and reads back as it is."""
    for title in ("No", "3", "a: b", "# 1", "yes, no", 'say "hi"', "[x]", "1e3", "Ünïted / taps", "null"):
        changed = msgspec.structs.replace(plan, title=title)

        assert title == yaml.safe_load(plan_text(changed, library()))["title"]


def _edit(plan: Plan, lesson: int, position: int, **changes: Any) -> Plan:
    lessons = list(plan.lessons)
    slots = list(lessons[lesson].activities)
    slots[position] = msgspec.structs.replace(slots[position], **changes)
    lessons[lesson] = msgspec.structs.replace(lessons[lesson], activities=tuple(slots))
    return msgspec.structs.replace(plan, lessons=tuple(lessons))


def test_minutes_moved_by_hand(plan: Plan) -> None:
    """A minute more in one activity makes the lesson too long, and that is said at the lesson."""
    found = audit_plan(_edit(plan, 1, 0, minutes=5), library())

    before = plan.lessons[1].activities[0].minutes
    assert (
        (("lessons", 1), f"Lesson 2 lasts 30 minutes, but its activities and set-up take {30 - before + 5}."),
    ) == found


def test_an_activity_beyond_its_limits(plan: Plan) -> None:
    """An activity that runs for longer than its record allows is named at its own place."""
    found = audit_plan(_edit(plan, 0, 0, minutes=9), library())
    title = library().activities[plan.lessons[0].activities[0].activity].title

    assert (("lessons", 0, "activities", 0), f"{title} runs for 3 to 6 minutes, not 9.") in found


def test_an_activity_swapped_by_hand(plan: Plan) -> None:
    """A late activity put into the first lesson breaks the order of steps at its own place."""
    found = audit_plan(_edit(plan, 0, 1, activity="wall-taps"), library())

    says = "Wall Taps is at the step “To a wall”, which comes after “Tap down”."
    assert (("lessons", 0, "activities", 1), says) in found


def test_an_activity_that_the_class_cannot_do(plan: Plan) -> None:
    """An activity for another grade in an edited plan says why it is not for this class."""
    old = activity("big-jumps", "warm-up", minutes=(3, 4, 6, 0))
    old = msgspec.structs.replace(old, grades=msgspec.structs.replace(old).grades.__class__("4", "5"))
    found = audit_plan(_edit(plan, 0, 0, activity="big-jumps"), library(extra=(old,)))

    says = "Big Jumps is written for grade 4-5, not for grade 3."
    assert (("lessons", 0, "activities", 0), says) in found


def test_an_activity_that_does_not_exist_is_left_to_others(plan: Plan) -> None:
    """An unknown activity is passed over here; the places of the others stay right."""
    edited = _edit(_edit(plan, 0, 0, activity="no-such"), 0, 1, activity="wall-taps")

    places = [place for place, _ in audit_plan(edited, library())]

    assert ("lessons", 0, "activities", 1) in places
    assert ("lessons", 0, "activities", 0) not in places


def test_a_part_that_the_shape_does_not_have(plan: Plan) -> None:
    """A game in a shape without a game is named at its place."""
    found = audit_plan(_edit(plan, 3, 2, part="game"), library())

    title = library().activities[plan.lessons[3].activities[2].activity].title
    says = f"{title} is in a part that the shape “Usual lesson” does not have."
    assert (("lessons", 3, "activities", 2), says) in found


@pytest.mark.parametrize(
    ("day", "says"),
    [
        ("2027-01-06", "Grade 3 Heron does not meet on that day of the week (2027-01-06)."),
        ("2027-01-07", "Grade 3 Heron has no lesson on 2027-01-07: lost day named in the unit request."),
        ("2027-02-30", "2027-02-30 is not a day of the calendar."),
    ],
)
def test_a_lesson_on_a_wrong_day(plan: Plan, day: str, says: str) -> None:
    """A lesson moved to a day without one is named at its date."""
    lessons = (plan.lessons[0], msgspec.structs.replace(plan.lessons[1], date=day), *plan.lessons[2:])
    edited = msgspec.structs.replace(plan, lessons=lessons)

    assert (("lessons", 1, "date"), says) in audit_plan(edited, library(unit(lost_days=("2027-01-07",))))


def test_a_lesson_that_was_taught_is_not_judged(plan: Plan) -> None:
    """What happened in a taught lesson is a fact, however it breaks its shape."""
    edited = _edit(plan, 0, 0, minutes=25)
    lessons = (msgspec.structs.replace(edited.lessons[0], taught=True), *edited.lessons[1:])

    assert () == audit_plan(msgspec.structs.replace(edited, lessons=lessons), library())


def test_changed_inputs_are_noticed(plan: Plan) -> None:
    """A change of the request is noticed; a change of a title is not a change of what can be planned."""
    renamed = library(unit(title="Tapping"))
    other = library(unit(repeats=Repeats(most=3)))

    assert None is inputs_changed(plan, renamed)
    says = "The records that this plan was made from have changed since; plan the unit again, or check it by eye."
    assert (("made", "inputs"), says) == inputs_changed(plan, other)


def test_a_plan_written_by_hand_has_no_inputs(plan: Plan) -> None:
    """A plan without a note of how it was made cannot be out of date."""
    assert None is inputs_changed(msgspec.structs.replace(plan, made=None), library(unit(moving=10)))


def test_an_empty_slot_of_time(plan: Plan) -> None:
    """A lesson with one activity only lacks its parts and its minutes."""
    slot = Slot(part="warm-up", activity="line-hops", minutes=6)
    lessons = (msgspec.structs.replace(plan.lessons[0], activities=(slot,)), *plan.lessons[1:])

    says = [says for place, says in audit_plan(msgspec.structs.replace(plan, lessons=lessons), library())]
    assert "Lesson 1 has 1 activity in the skill part, not 0." in says
    assert "Lesson 1 lasts 30 minutes, but its activities and set-up take 6." in says
