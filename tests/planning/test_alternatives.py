"""Prices, swaps and different plans, each against the audit or a plan searched for directly."""

from dataclasses import replace

import msgspec
import pytest

from lessonkit.planning.alternatives import others, price_of, swaps, why_not
from lessonkit.planning.audit import audit
from lessonkit.planning.case import Case
from lessonkit.planning.digest import is_another_choice
from lessonkit.planning.problem import Pinned, Schedule
from lessonkit.planning.sequence import Options, search
from lessonkit.planning.setup import set_up
from lessonkit.planning.write_plan import plan_record
from lessonkit.records.activity import How
from lessonkit.records.plan import Made

from .school_records import activity, library


@pytest.fixture(scope="module")
def planned() -> tuple[Case, Schedule]:
    """Return the small school's case and its best plan."""
    tried: dict[str, tuple[How, ...]] = {"T1.3": ("practised",)}
    calm = (3, 4, 6, 0)
    extra = (
        activity("side-gallops", "warm-up", minutes=calm, effort="vigorous"),
        activity("mirror-walk", "warm-up", minutes=calm, effort="light"),
        activity("hop-and-tap", "skill", "practice", step="up", serves=tried, effort="light"),
        activity("tap-and-turn", "skill", "practice", step="down", serves=tried),
        activity("wall-rhythm", "practice", step="wall", serves=tried),
        activity("tap-and-walk", "skill", "practice", step="up", serves=tried),
        activity("tap-and-sit", "skill", "practice", step="down", serves=tried),
        activity("quiet-count", "closing", minutes=calm, effort="rest"),
    )
    found = library(extra=extra)
    case = set_up(found, found.units["taps"], found.schools["quillfeather"].school_class("heron"))
    best, _ = search(case.problem, Options())
    assert best is not None
    return case, best


def test_the_price_of_an_activity_left_out(planned: tuple[Case, Schedule]) -> None:
    """The price is the cost of the cheapest plan that has the activity pinned to some lesson, less the best cost."""
    case, best = planned
    cost = audit(best, case.problem).cost
    unused = [number for number in range(len(case.problem.choices)) if not best.times(number)]
    activity = unused[0]
    costs = []
    for lesson in range(4):
        plan, answer = search(replace(case.problem, pins=(Pinned(lesson, activity),)), Options())
        costs += [answer.cost] if plan is not None else []

    price = price_of(case, best, activity)

    assert min(costs) - cost == price.cost == price.least


def test_every_swap_holds_and_costs_what_it_says(planned: tuple[Case, Schedule]) -> None:
    """A swap's plan keeps all requirements, changes that one activity only, and its cost is what the audit measures."""
    case, best = planned
    cost = audit(best, case.problem).cost
    for position in range(len(best.lessons[2])):
        found = swaps(case, best, 2, position)

        assert [swap.cost for swap in found] == sorted(swap.cost for swap in found)
        for swap in found:
            after = audit(swap.schedule, case.problem)
            assert after.holds
            assert (swap.cost, swap.cost) == (after.cost - cost, sum(change for _, change in swap.wishes))
            before, now = ({item.activity for item in plan.lessons[2]} for plan in (best, swap.schedule))
            assert ({best.lessons[2][position].activity}, {swap.activity}) == (before - now, now - before)


def test_no_swap_is_better_than_the_best_plan(planned: tuple[Case, Schedule]) -> None:
    """In a proven plan every swap costs as much or more."""
    case, best = planned

    assert all(swap.cost >= 0 for lesson in range(4) for swap in swaps(case, best, lesson, 0))


def test_why_an_activity_cannot_be_swapped_in(planned: tuple[Case, Schedule]) -> None:
    """What the last step would break in the first lesson is said in sentences."""
    case, best = planned
    names = [choice.id for choice in case.problem.choices]

    says = why_not(case, best, 0, 2, names.index("over-and-back"))

    assert "Over And Back builds on Wall Taps, which has to come first." in says


def test_different_plans_are_different_and_hold(planned: tuple[Case, Schedule]) -> None:
    """Each plan differs from those before it, keeps all requirements, and costs what the audit measures."""
    case, best = planned

    found = others(case, best, 2)

    assert found
    for number, other in enumerate(found):
        after = audit(other.schedule, case.problem)
        assert (True, after.cost) == (after.holds, other.cost)
        assert other.schedule.lessons not in [best.lessons, *(each.schedule.lessons for each in found[:number])]
        assert other.least <= other.cost
        assert number + 1 == len(other.new)


def test_what_is_different_is_taught(planned: tuple[Case, Schedule]) -> None:
    """At least a sixth of what is taught in a different plan's lessons is not taught in the plan at hand."""
    case, best = planned
    (other,) = others(case, best, 1)

    def taught(plan: Schedule) -> list[int]:
        return [item.activity for placed in plan.lessons for item in placed if item.part in (1, 2)]

    now, before = taught(other.schedule), set(taught(best))

    assert 6 * sum(activity not in before for activity in now) >= len(now)
    assert (len(now), (sum(activity not in before for activity in now),)) == (other.teaching, other.new)


def test_a_different_plan_that_was_taken_is_told_from_the_best(planned: tuple[Case, Schedule]) -> None:
    """Made from the same records, a plan taken from the others is known as a choice; the best plan anew is not."""
    case, best = planned
    made = Made(lessonkit="0", solver="none", inputs="same", status="proven", cost=1, bound=1)
    plan = plan_record(case, best, made)
    (other,) = others(case, best, 1)
    taken = plan_record(case, other.schedule, made)

    assert is_another_choice(taken, plan)
    assert not is_another_choice(plan, plan)
    assert not is_another_choice(
        plan_record(case, other.schedule, msgspec.structs.replace(made, inputs="changed")), plan
    )
