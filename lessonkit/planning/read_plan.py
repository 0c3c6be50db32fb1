"""From a plan record, which a teacher may have edited, back to a schedule that can be audited."""

from dataclasses import dataclass

from lessonkit.logistics.asked_for import shape_of
from lessonkit.planning.asked import without
from lessonkit.planning.case import Case, LessonPlace, TaughtSlot
from lessonkit.planning.edits import kept_out
from lessonkit.planning.happened import after
from lessonkit.planning.held import taken_out
from lessonkit.planning.problem import Placed, Schedule
from lessonkit.planning.setup import set_up
from lessonkit.records.library import Library
from lessonkit.records.plan import Lesson, Plan, Slot
from lessonkit.records.unit import Unit


@dataclass(frozen=True, slots=True)
class ReadPlan:
    """A plan as the sequencer sees it. ``positions`` give each placed activity its position in the plan's lesson."""

    case: Case
    schedule: Schedule
    positions: tuple[tuple[int, ...], ...]


def read_plan(plan: Plan, library: Library, *, judge_taught: bool = False) -> ReadPlan:
    """Read a plan with its own dates, minutes, spaces and shapes.

    Lessons already taught are facts, unless ``judge_taught``. An activity that the library lacks is passed over.
    Raises KeyError for a unit, school, class or space that the library does not have.
    """
    library = after(library, plan)
    unit = library.units[plan.unit]
    school_class = library.schools[plan.school].school_class(plan.school_class)
    places = tuple(lesson_place(unit, lesson, taught=lesson.taught and not judge_taught) for lesson in plan.lessons)
    keep = {slot.activity for lesson in plan.lessons for slot in lesson.activities}
    case = set_up(library, unit, school_class, places=places, keep=keep)
    case = without(case, taken_out(case, plan, [(number, number, activity) for number, activity in kept_out(plan)]))
    lessons, positions = [], []
    for number, lesson in enumerate(plan.lessons):
        placed, where = placed_in(case, number, lesson)
        lessons.append(placed)
        positions.append(where)
    return ReadPlan(case, Schedule(tuple(lessons)), tuple(positions))


def lesson_place(unit: Unit, lesson: Lesson, *, taught: bool) -> LessonPlace:
    """Return a plan's lesson as a place to fill, or as a fact where it is taught."""
    titles = [shape.title for shape in unit.shapes]
    shape = titles.index(lesson.shape) if lesson.shape in titles else shape_of(unit, lesson.lesson)
    facts = tuple(
        TaughtSlot(slot.activity, slot.part, slot.minutes, slot.setup, slot.assess, slot.station)
        for slot in lesson.activities
    )
    return LessonPlace(lesson.date, lesson.at, lesson.minutes, lesson.space, shape, facts if taught else None)


def placed_in(case: Case, number: int, lesson: Lesson) -> tuple[tuple[Placed, ...], tuple[int, ...]]:
    """Return a plan's lesson in the numbers of a case's lesson, and the position of each activity in the plan's."""
    index = {choice.id: activity for activity, choice in enumerate(case.problem.choices)}
    known = [(position, slot) for position, slot in enumerate(lesson.activities) if slot.activity in index]
    parts = _parts(case, number, [slot for _, slot in known])
    outcomes = {code: outcome for outcome, code in enumerate(case.problem.outcomes)}
    placed = tuple(
        Placed(
            index[slot.activity],
            part,
            slot.minutes,
            slot.setup,
            tuple(outcomes[code] for code in slot.assess if code in outcomes),
            slot.pinned,
        )
        for (_, slot), part in zip(known, parts, strict=True)
    )
    return placed, tuple(position for position, _ in known)


def _parts(case: Case, number: int, slots: list[Slot]) -> list[int]:
    """Find the part of the lesson's shape that each slot is in; a shape may have a part of the same name twice."""
    frames = case.problem.lessons[number].parts
    found: list[int] = []
    for slot in slots:
        named = [position for position, frame in enumerate(frames) if frame.part == slot.part]
        alike = [position for position in named if (frames[position].circuit is None) == (slot.station is None)]
        same = alike or named
        last = max(found, default=0)
        after = [position for position in same if position >= last]
        open_to = [position for position in after if found.count(position) < frames[position].most]
        found.append((open_to or after or same or [-1])[0])
    return found
