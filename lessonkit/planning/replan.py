"""Planning again after something has happened: lessons taught stay as they were, the rest changes as little as can be.

Changes are counted activity by activity: one for each that a lesson loses and one for each that it gains. Among the
plans with the fewest changes the one that serves the wishes best is taken. Pins survive.
"""

from dataclasses import dataclass, replace
from datetime import date

import msgspec

from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.case import Case, LessonPlace
from lessonkit.planning.dates import timetable
from lessonkit.planning.linear import Linear, Weighted
from lessonkit.planning.order import schedule, with_assessments
from lessonkit.planning.precheck import precheck
from lessonkit.planning.problem import Placed, Problem, Schedule
from lessonkit.planning.read_plan import lesson_place, read_plan
from lessonkit.planning.sequence import EFFORT, Impossible, Options, Outcome, Stopped, explain, plan_case, planned
from lessonkit.planning.setup import place_of, set_up, shape_of
from lessonkit.planning.solve import Answer, Limits, minimise
from lessonkit.planning.variables import Variables
from lessonkit.records.library import Library
from lessonkit.records.plan import Plan
from lessonkit.records.unit import Pin, Unit

_BOUND_EFFORT = 10.0


@dataclass(frozen=True, slots=True)
class Change:
    """A lesson (number from 1) before and after: its date and its activities by title, empty where there was none."""

    lesson: int
    date_before: str
    date_after: str
    before: tuple[str, ...]
    after: tuple[str, ...]

    @property
    def swapped(self) -> int:
        """How many activities the lesson lost or gained."""
        return len(set(self.before) ^ set(self.after))


@dataclass(frozen=True, slots=True)
class Replanned:
    """The new plan or why there is none, and every lesson that differs from the old plan."""

    outcome: Outcome
    changes: tuple[Change, ...] = ()


def replan(library: Library, old: Plan, options: Options, *, best: bool = False) -> Replanned:
    """Plan the rest of a unit again with the records as they are now.

    Lessons of the old plan marked ``taught`` are facts. ``best`` asks for the best plan instead of the least changed.
    Raises KeyError for a unit, school or class that the library does not have.
    """
    case = _case(library, old)
    outcome = plan_case(case, options) if best else _least_changed(case, old, library, options)
    if isinstance(outcome, Impossible | Stopped):
        return Replanned(outcome)
    return Replanned(outcome, changes(old, outcome.plan, library))


def _case(library: Library, old: Plan) -> Case:
    unit = library.units[old.unit]
    school_class = library.schools[old.school].school_class(old.school_class)
    taught = tuple(lesson_place(unit, lesson, taught=True) for lesson in old.lessons if lesson.taught)
    places = (*taught, *_ahead(library, unit, old, taught))
    keep = {slot.activity for lesson in old.lessons for slot in lesson.activities}
    return set_up(library, _pinned(unit, old, len(places)), school_class, places=places, keep=keep)


def _ahead(library: Library, unit: Unit, old: Plan, taught: tuple[LessonPlace, ...]) -> tuple[LessonPlace, ...]:
    """Return the lessons still to come: the dates after the last lesson taught."""
    school = library.schools[old.school]
    wanted = None if unit.lessons is None else unit.lessons + len(taught)
    longer = msgspec.structs.replace(unit, lessons=wanted)
    days = timetable(longer, school, school.school_class(old.school_class)).lessons
    last = max((date.fromisoformat(place.date) for place in taught), default=date.min)
    ahead = [day for day in days if day.date > last]
    if unit.lessons is not None:
        ahead = ahead[: max(0, unit.lessons - len(taught))]
    return tuple(place_of(day, shape_of(unit, number)) for number, day in enumerate(ahead, len(taught) + 1))


def _pinned(unit: Unit, old: Plan, lessons: int) -> Unit:
    """Return the request with the old plan's pins of lessons still to come added to its own."""
    own = {(pin.lesson, pin.activity) for pin in unit.pins}
    pins = tuple(
        Pin(lesson=lesson.lesson, activity=slot.activity, part=slot.part)
        for lesson in old.lessons
        for slot in lesson.activities
        if slot.pinned and not lesson.taught and lesson.lesson <= lessons and (lesson.lesson, slot.activity) not in own
    )
    return msgspec.structs.replace(unit, pins=unit.pins + pins)


def _least_changed(case: Case, old: Plan, library: Library, options: Options) -> Outcome:
    found = case.faults or precheck(case)
    if found:
        return plan_case(case, options)
    before = _before(case, old, library)
    variables = build(case.problem)
    model = variables.model
    counted, constant = _count_changes(variables, case.problem, before)
    fewest = minimise(Linear(model.variables, model.rows, dict(_factors(counted)), constant), _limits(options))
    if fewest.status == "impossible":
        return explain(case)
    if not fewest.values:
        return Stopped("The search was stopped before it found a plan; give it more time.")
    model.at_most(counted, fewest.cost - constant)
    answer = minimise(model, _limits(options), hint=fewest.values, watch=options.progress)
    values = answer.values or fewest.values
    plan = _as_before(case.problem, schedule(case.problem, variables, values), before)
    return planned(case, plan, _honest(case, plan), options.version)


def _limits(options: Options) -> Limits:
    return Limits(options.seconds, EFFORT)


def _factors(terms: list[Weighted]) -> list[tuple[int, int]]:
    return [(number, factor) for factor, number in terms]


def _before(case: Case, old: Plan, library: Library) -> tuple[tuple[Placed, ...], ...]:
    """Return what the old plan has in each lesson, in the numbers of the new problem."""
    read = read_plan(old, library)
    index = {choice.id: number for number, choice in enumerate(case.problem.choices)}
    names = [choice.id for choice in read.case.problem.choices]
    lessons = [
        tuple(
            replace(item, activity=index[names[item.activity]], assess=())
            for item in placed
            if names[item.activity] in index
        )
        for placed in read.schedule.lessons
    ]
    return tuple(lessons[number] if number < len(lessons) else () for number in range(len(case.places)))


def _count_changes(
    variables: Variables, problem: Problem, before: tuple[tuple[Placed, ...], ...]
) -> tuple[list[Weighted], int]:
    """Return the sum that counts changes, and its constant: what the old plan had counts until it is kept."""
    terms: list[Weighted] = []
    constant = 0
    for lesson in problem.open_lessons:
        kept = {(item.activity, item.part) for item in before[lesson]}
        constant += len(kept)
        for place in variables.in_lesson(lesson):
            terms.append((-1 if place[:2] in kept else 1, variables.place[place]))
    return terms, constant


def _as_before(problem: Problem, plan: Schedule, before: tuple[tuple[Placed, ...], ...]) -> Schedule:
    """Give a lesson whose activities are as before its old order and minutes back, where the requirements allow it."""
    for lesson in problem.open_lessons:
        same = {(item.activity, item.part) for item in plan.lessons[lesson]}
        if same != {(item.activity, item.part) for item in before[lesson]}:
            continue
        lessons = (*plan.lessons[:lesson], before[lesson], *plan.lessons[lesson + 1 :])
        candidate = with_assessments(problem, Schedule(lessons))
        if audit(candidate, problem).holds:
            plan = candidate
    return plan


def _honest(case: Case, plan: Schedule) -> Answer:
    """Say how the least changed plan stands against the best one: a bound is sought with little effort."""
    cost = audit(plan, case.problem).cost
    free = minimise(build(case.problem).model, Limits(None, _BOUND_EFFORT))
    bound = min(free.bound, cost)
    return Answer("proven" if bound == cost else "best-found", (), cost, bound, free.effort, free.seconds)


def changes(old: Plan, new: Plan, library: Library) -> tuple[Change, ...]:
    """Return the lessons in which two plans differ, by number."""
    found = []
    for number in range(max(len(old.lessons), len(new.lessons))):
        before_date, before = _lesson(old, number, library)
        after_date, after = _lesson(new, number, library)
        if (before_date, before) != (after_date, after):
            found.append(Change(number + 1, before_date, after_date, before, after))
    return tuple(found)


def _lesson(plan: Plan, number: int, library: Library) -> tuple[str, tuple[str, ...]]:
    if number >= len(plan.lessons):
        return "", ()
    lesson = plan.lessons[number]
    titles = []
    for slot in lesson.activities:
        record = library.activities.get(slot.activity)
        titles.append(record.title if record else slot.activity)
    return lesson.date, tuple(titles)
