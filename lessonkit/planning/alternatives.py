"""What else a plan could be: the price of an activity left out, swaps for a place, plans that are really different."""

from collections import Counter
from dataclasses import dataclass

from msgspec import structs

from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.case import Case
from lessonkit.planning.edits import kept_out
from lessonkit.planning.happened import inputs_of
from lessonkit.planning.linear import Instance
from lessonkit.planning.order import schedule as to_schedule
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.registry import BY_CODE
from lessonkit.planning.search import Search
from lessonkit.planning.solve import Limits, Program, solver_name
from lessonkit.planning.variables import Place, Variables
from lessonkit.planning.write_plan import keeping_out, plan_record
from lessonkit.records.library import Library
from lessonkit.records.plan import Made, Plan

_PRICE_EFFORT = 6.0
_OTHER_EFFORT = 6.0
_MORE_EFFORT = 3.0
"""Effort for a different plan, and for making it better with more activities of the others."""
_SWAP_EFFORT = 0.5
_SHARES = ((3, 4), (5, 6))
"""How much of what a different plan teaches another may teach too: three quarters, or more where that costs much."""
_NEARLY_EQUAL = 1.15
"""A different plan is nearly as good up to this share of the cost."""


@dataclass(frozen=True, slots=True)
class Price:
    """What a plan with an activity costs more than the one at hand: ``cost`` as found, ``least`` as proven.

    None where it cannot be had; ``why`` then says what stands in the way. ``lessons`` (from 0) are where it would be.
    """

    activity: int
    cost: int | None
    least: int
    lessons: tuple[int, ...] = ()
    why: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Swap:
    """Another activity for a place, what the plan then costs more (less, if below 0), and that wish by wish."""

    activity: int
    cost: int
    wishes: tuple[tuple[str, int], ...]
    schedule: Schedule


@dataclass(frozen=True, slots=True)
class Other:
    """A different plan and its cost; no plan as different from those before it costs less than ``least``, as proven.

    It has ``teaching`` places in skill, practice and game parts; ``new`` says for each of the plans before it in how
    many of them stands an activity that that one does not have.
    """

    schedule: Schedule
    cost: int
    least: int
    teaching: int
    new: tuple[int, ...]


def price_of(case: Case, plan: Schedule, activity: int) -> Price:
    """Return the price of having an activity that a plan does not have; proven as far as a short search goes."""
    problem = case.problem
    variables = build(problem)
    model = variables.model
    taken = [pair for lesson in problem.open_lessons for pair in variables.of_activity(activity, lesson)]
    model.at_least(taken, 1, Instance("wanted", (activity,)))
    now = audit(plan, problem).cost
    answer = Search(variables, effort=_PRICE_EFFORT).run()
    if not answer.values:
        why = ("No plan with it meets every requirement.",) if answer.status == "impossible" else ()
        return Price(activity, None, 0, why=why)
    found = to_schedule(problem, variables, answer.values)
    lessons = tuple(sorted(set(found.times(activity))))
    return Price(activity, answer.cost - now, max(0, answer.bound - now), lessons)


def swaps(case: Case, plan: Schedule, lesson: int, position: int, *, whole_lesson: bool = False) -> tuple[Swap, ...]:
    """Return every activity that could take a place while all others stay, the cheapest first.

    Only the minutes of the lesson are shared out anew, unless the ``whole_lesson`` may change around the new activity.
    """
    problem = case.problem
    item = plan.lessons[lesson][position]
    now = audit(plan, problem)
    variables = build(problem)
    program = Program(variables.model)
    here = {other.activity for other in plan.lessons[lesson]}
    found = []
    for activity, part, number in problem.places:
        if (part, number) != (item.part, lesson) or activity in here:
            continue
        wanted = _places(plan) - {(item.activity, part, lesson)} | {(activity, part, lesson)}
        free = {place for place in variables.in_lesson(lesson) if place[0] not in (activity, item.activity)}
        fixed = {
            variable: int(place in wanted)
            for place, variable in variables.place.items()
            if not whole_lesson or place not in free
        }
        answer = program.solve(Limits(None, _SWAP_EFFORT), fixed=fixed, brief=True)
        if answer.values:
            changed = to_schedule(problem, variables, answer.values)
            found.append(Swap(activity, answer.cost - now.cost, _wishes(problem, plan, changed), changed))
    return tuple(sorted(found, key=lambda swap: (swap.cost, problem.choices[swap.activity].id)))


def why_not(case: Case, plan: Schedule, lesson: int, position: int, activity: int) -> tuple[str, ...]:
    """Return what an activity would break in a place of a plan, in sentences."""
    placed = list(plan.lessons[lesson])
    placed[position] = type(placed[position])(
        activity, placed[position].part, placed[position].minutes, case.problem.choices[activity].bounds.setup
    )
    changed = Schedule((*plan.lessons[:lesson], tuple(placed), *plan.lessons[lesson + 1 :]))
    broken = [each for each in audit(changed, case.problem).broken if each.term != "minutes"]
    return tuple(dict.fromkeys(BY_CODE[each.term].say(each, case).says for each in broken))


def _places(plan: Schedule) -> set[Place]:
    return {(item.activity, item.part, lesson) for lesson, placed in enumerate(plan.lessons) for item in placed}


def _wishes(problem: Problem, before: Schedule, after: Schedule) -> tuple[tuple[str, int], ...]:
    """Return by how much each wish costs more or less, the greatest changes first."""
    costs: Counter[str] = Counter()
    for sign, plan in ((1, after), (-1, before)):
        for instance in audit(plan, problem).given_up:
            costs[instance.term] += sign * instance.amount * problem.weights[instance.term]
    return tuple(sorted(((wish, cost) for wish, cost in costs.items() if cost), key=lambda each: (-abs(each[1]), each)))


def others(case: Case, plan: Schedule, number: int) -> tuple[Other, ...]:
    """Return at most ``number`` plans really different from a plan and from each other, each as good as can be.

    A quarter of the activities that teach (skill, practice and game parts) are not in another plan, or a sixth where
    that would cost much more: new warm-ups and closings do not make another unit.
    """
    plans = [plan]
    found: list[Other] = []
    for _ in range(number):
        other = _another(case.problem, plans)
        if other is None:
            break
        plans.append(other.schedule)
        found.append(other)
    return tuple(found)


def as_plan(case: Case, old: Plan, other: Other, library: Library, version: str) -> Plan:
    """Return the plan record of a different plan, in place of an old one; its proof is the old one's bound."""
    bound = old.made.bound if old.made else 0
    made = Made(
        lessonkit=version,
        solver=solver_name(),
        inputs=inputs_of(library, old),
        status="proven" if other.cost <= bound else "best-found",
        cost=other.cost,
        bound=min(bound, other.cost),
    )
    plan = structs.replace(plan_record(case, other.schedule, made), id=old.id, title=old.title, happened=old.happened)
    return keeping_out(plan, kept_out(old))


def _another(problem: Problem, plans: list[Schedule]) -> Other | None:
    cost = audit(plans[0], problem).cost
    found: Other | None = None
    start: tuple[int, ...] = ()
    for top, bottom in _SHARES:
        variables = build(problem)
        for plan in plans:
            _differ(variables, problem, plan, top, bottom)
        answer = Search(variables, effort=_MORE_EFFORT if start else _OTHER_EFFORT, start=start).run()
        if answer.values:
            start = answer.values
            plan = to_schedule(problem, variables, answer.values)
            own = _teaching(problem, plan)
            new = tuple(sum(each not in _taught(problem, other) for each in own) for other in plans)
            found = Other(plan, answer.cost, min(answer.bound, answer.cost), len(own), new)
            if answer.cost <= _NEARLY_EQUAL * cost:
                break
    return found


def _teaches(problem: Problem, place: Place) -> bool:
    _, part, lesson = place
    return part >= 0 and problem.lessons[lesson].parts[part].is_core


def _teaching(problem: Problem, plan: Schedule) -> list[int]:
    """Return what stands in the places of the open lessons' skill, practice and game parts, lesson by lesson."""
    return [
        item.activity
        for lesson in problem.open_lessons
        for item in plan.lessons[lesson]
        if _teaches(problem, (item.activity, item.part, lesson))
    ]


def _taught(problem: Problem, plan: Schedule) -> set[int]:
    """Return the activities of the open lessons' skill, practice and game parts."""
    return set(_teaching(problem, plan))


def _differ(variables: Variables, problem: Problem, plan: Schedule, top: int, bottom: int) -> None:
    """Let at most a share of what the open lessons teach be activities that a plan teaches."""
    known = _taught(problem, plan)
    places = [
        place for lesson in problem.open_lessons for place in variables.in_lesson(lesson) if _teaches(problem, place)
    ]
    old = [place for place in places if place[0] in known]
    shared = [(bottom * factor, number) for factor, number in variables.sum_of(old)]
    every = [(-top * factor, number) for factor, number in variables.sum_of(places)]
    variables.model.at_most([*shared, *every], 0)
