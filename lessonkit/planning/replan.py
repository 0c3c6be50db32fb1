"""Planning again after something has happened: lessons taught stay as they were, the rest changes as little as can be.

Changes are counted activity by activity: one for each that a lesson loses and one for each that it gains. Among the
plans with the fewest changes the one that serves the wishes best is taken. Pins survive, and what the teacher changed
by hand is held: an activity put in stays where it is, one taken out stays out of its lesson.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date

from msgspec import structs

from lessonkit.logistics.asked_for import shape_of
from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.case import Case, LessonPlace
from lessonkit.planning.changes import Change, changes
from lessonkit.planning.dates import timetable
from lessonkit.planning.edits import NO_EDITS, Edits, edits
from lessonkit.planning.happened import NOTHING, after, days_after, inputs_of, together
from lessonkit.planning.held import hold
from lessonkit.planning.keep import as_before
from lessonkit.planning.linear import Linear, Weighted
from lessonkit.planning.order import schedule
from lessonkit.planning.precheck import precheck
from lessonkit.planning.problem import Placed, Problem, Schedule
from lessonkit.planning.read_plan import lesson_place, placed_in
from lessonkit.planning.said import Said
from lessonkit.planning.search import EFFORT
from lessonkit.planning.sequence import Impossible, Options, Outcome, Stopped, explain, plan_case, planned
from lessonkit.planning.setup import place_of, set_up
from lessonkit.planning.solve import Answer, Limits, feasible, limits_of, minimise
from lessonkit.planning.variables import Variables
from lessonkit.planning.ways import Way
from lessonkit.planning.write_plan import keeping_out
from lessonkit.records.library import Library
from lessonkit.records.plan import Happened, Plan
from lessonkit.records.unit import Unit

_BOUND_EFFORT = 2.0
_POLISH_EFFORT = 20.0
_FALLS_OUT = 8
"""The price of a lesson that falls out, in points of ways out."""

Before = tuple[tuple[Placed, ...], ...]
"""What the old plan has in each lesson, in the numbers of the new problem."""


@dataclass(frozen=True, slots=True)
class Replanned:
    """The new plan or why there is none, every lesson that differs from the old plan, and what was changed by hand.

    ``fewest`` tells that no plan changes less, which is only sought where the best plan is not asked for.
    """

    outcome: Outcome
    changes: tuple[Change, ...] = ()
    edits: Edits = NO_EDITS
    fewest: bool = False


@dataclass(frozen=True, slots=True)
class _Question:
    """A case, the lessons of the old plan that its lessons have grown out of, and what those have."""

    case: Case
    moved: Mapping[int, int]
    before: Before


def replan(library: Library, old: Plan, options: Options, *, best: bool = False) -> Replanned:
    """Plan the rest of a unit again with the records as they are now, and with what ``old.happened`` says.

    Lessons of the old plan marked ``taught`` are facts. ``best`` asks for the best plan instead of the least changed.
    Raises KeyError for a unit, school, class or space that the library does not have.
    """
    changed = edits(old, library)
    plan = structs.replace(old, happened=_happened(old, changed)) if changed.any else old
    now = after(library, plan)
    questions = [_question(now, plan, moved, changed) for moved in _mappings(now, plan)]
    if best:
        question, outcome, fewest = questions[-1], plan_case(questions[-1].case, options), False
    else:
        question, outcome, fewest = _least_changed(questions, options)
    if isinstance(outcome, Impossible):
        ways = (*outcome.ways_out, *_days_that_may_fall_out(library, plan, changed))
        ways = tuple(sorted(ways, key=lambda way: way.price))
        return Replanned(replace(outcome, ways_out=ways), (), changed)
    if isinstance(outcome, Stopped):
        return Replanned(outcome, (), changed)
    made = outcome.plan.made
    made = None if made is None else structs.replace(made, inputs=inputs_of(library, plan))
    new = structs.replace(outcome.plan, id=old.id, title=old.title, path=old.path, happened=plan.happened, made=made)
    moved = question.moved
    new = keeping_out(new, [(moved[number], each) for number, each in changed.taken_out if number in moved])
    return Replanned(replace(outcome, plan=new), changes(old, new, library, question.moved), changed, fewest)


def _days_that_may_fall_out(library: Library, plan: Plan, changed: Edits) -> Iterator[Way]:
    """Yield the days of another room or length without whose lesson there is a way on."""
    happened = plan.happened or NOTHING
    ahead = {lesson.date for lesson in plan.lessons if not lesson.taught}
    days = (*(room.date for room in happened.rooms), *(each.date for each in happened.shortened))
    for day in dict.fromkeys(day for day in days if day is not None and day in ahead):
        lost = structs.replace(
            happened,
            lost_days=(*happened.lost_days, day),
            rooms=tuple(room for room in happened.rooms if room.date != day),
            shortened=tuple(each for each in happened.shortened if each.date != day),
        )
        other = structs.replace(plan, happened=lost)
        now = after(library, other)
        cases = [_question(now, other, moved, changed).case for moved in _mappings(now, other)]
        if any(not case.faults and not precheck(case) and _is_possible(case) for case in cases):
            says = f"Let the lesson on {day} fall out: --lost {day}."
            yield Way(Said("plan", plan.id, ("happened",), says), _FALLS_OUT)


def _is_possible(case: Case) -> bool:
    return bool(feasible(build(case.problem, kinds=("required",)).model))


def _happened(old: Plan, changed: Edits) -> Happened | None:
    """Return what has happened to a plan, with what was changed by hand of its lessons' lengths and spaces."""
    happened = together(old.happened, changed.happened)
    return None if happened == NOTHING else happened


def plan_like(library: Library, unit_id: str, class_id: str, first: Plan, options: Options) -> Replanned:
    """Plan a unit for a class so that it does what another class does, as far as its own size, days and rooms allow.

    ``changes`` says where it cannot. Raises KeyError for a unit, school or class that the library does not have.
    """
    unit = library.units[unit_id]
    case = set_up(library, unit, library.schools[unit.school].school_class(class_id))
    moved = {number: number for number in range(min(len(first.lessons), len(case.places)))}
    before = tuple(
        placed_in(case, number, first.lessons[number])[0] if number in moved else ()
        for number in range(len(case.places))
    )
    _, outcome, fewest = _least_changed([_Question(case, moved, before)], options)
    if isinstance(outcome, Impossible | Stopped):
        return Replanned(outcome)
    return Replanned(outcome, changes(first, outcome.plan, library, moved), fewest=fewest)


def _places(library: Library, plan: Plan) -> tuple[LessonPlace, ...]:
    unit = library.units[plan.unit]
    taught = tuple(lesson_place(unit, lesson, taught=True) for lesson in plan.lessons if lesson.taught)
    return (*taught, *_ahead(library, unit, plan, taught))


def _ahead(library: Library, unit: Unit, plan: Plan, taught: tuple[LessonPlace, ...]) -> tuple[LessonPlace, ...]:
    """Return the lessons still to come: the dates after the last lesson taught."""
    school = library.schools[plan.school]
    wanted = None if unit.lessons is None else unit.lessons + len(taught)
    longer = structs.replace(unit, lessons=wanted)
    days = days_after(timetable(longer, school, school.school_class(plan.school_class)).lessons, plan.happened)
    last = max((date.fromisoformat(place.date) for place in taught), default=date.min)
    ahead = [day for day in days if day.date > last]
    if unit.lessons is not None:
        ahead = ahead[: max(0, unit.lessons - len(taught))]
    return tuple(place_of(day, shape_of(unit, number)) for number, day in enumerate(ahead, len(taught) + 1))


def _mappings(library: Library, plan: Plan) -> list[dict[int, int]]:
    """Return what the lessons of the old plan may become: the next in turn, or, where there are fewer, those of a day.

    A lesson that finds no place is left out.
    """
    places = _places(library, plan)
    numbers = range(len(plan.lessons))
    taught = [number for number in numbers if plan.lessons[number].taught]
    open_ones = [number for number in numbers if not plan.lessons[number].taught]
    in_turn = {number: new for new, number in enumerate([*taught, *open_ones][: len(places)])}
    if len(places) >= len(plan.lessons):
        return [in_turn]
    days = {(place.date, place.at): new for new, place in enumerate(places)}
    by_day = {
        number: days[key] for number in numbers if (key := (plan.lessons[number].date, plan.lessons[number].at)) in days
    }
    return [in_turn, by_day]


def _question(library: Library, plan: Plan, moved: Mapping[int, int], changed: Edits) -> _Question:
    case = hold(library, plan, _places(library, plan), moved, changed)
    back = {new: old for old, new in moved.items()}
    before = tuple(
        placed_in(case, number, plan.lessons[back[number]])[0] if number in back else ()
        for number in range(len(case.places))
    )
    return _Question(case, moved, before)


def _least_changed(questions: list[_Question], options: Options) -> tuple[_Question, Outcome, bool]:
    found: list[tuple[_Question, Variables, list[Weighted], Answer, int]] = []
    for question in questions:
        case = question.case
        if case.faults or precheck(case):
            return question, plan_case(case, options), False
        variables = build(case.problem)
        counted, constant = _count_changes(variables, case.problem, question.before)
        model = variables.model
        costs = {number: factor for factor, number in counted}
        answer = minimise(Linear(model.variables, model.rows, costs, constant), limits_of(options.seconds, EFFORT))
        found.append((question, variables, counted, answer, constant))
    solved = [each for each in found if each[3].values]
    if not solved:
        if all(each[3].status == "impossible" for each in found):
            return questions[0], explain(questions[0].case), False
        return questions[0], Stopped("The search ended before it found a plan; give it more time."), False
    question, variables, counted, fewest, constant = min(solved, key=lambda each: each[3].cost)
    variables.model.at_most(counted, fewest.cost - constant)
    limits = Limits(options.seconds, _POLISH_EFFORT)
    answer = minimise(variables.model, limits, hint=fewest.values, watch=options.progress)
    case = question.case
    plan = schedule(case.problem, variables, answer.values or fewest.values)
    plan = as_before(case.problem, plan, question.before)
    proven = all(each[3].status != "best-found" and each[3].status != "nothing-found" for each in found)
    stopped = answer.stopped or any(each[3].stopped for each in found)
    return question, replace(planned(case, plan, _honest(case, plan), options.version), stopped=stopped), proven


def _count_changes(variables: Variables, problem: Problem, before: Before) -> tuple[list[Weighted], int]:
    """Return the sum that counts changes, and its constant: what the old plan had counts until it is kept."""
    terms: list[Weighted] = []
    constant = 0
    for lesson in problem.open_lessons:
        kept = {(item.activity, item.part) for item in before[lesson]}
        constant += len(kept)
        for place in variables.in_lesson(lesson):
            terms.append((-1 if place[:2] in kept else 1, variables.place[place]))
    return terms, constant


def _honest(case: Case, plan: Schedule) -> Answer:
    """Say how the least changed plan stands against the best one: a bound is sought with little effort."""
    cost = audit(plan, case.problem).cost
    free = minimise(build(case.problem).model, Limits(None, _BOUND_EFFORT))
    bound = min(free.bound, cost)
    return Answer("proven" if bound == cost else "best-found", (), cost, bound, free.effort, free.seconds)
