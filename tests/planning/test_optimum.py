"""The sequencer finds the best plan there is, and its audit agrees."""

import pytest
from hypothesis import HealthCheck, assume, given, settings

from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.order import schedule
from lessonkit.planning.problem import Problem
from lessonkit.planning.solve import minimise

from .second_solver import least_cost
from .synthetic import unit_problem
from .tiny import all_schedules, plans_of, tiny_problems

_MOST_PLANS = 4000


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(problem=tiny_problems())
def test_no_plan_is_better_than_the_one_found(problem: Problem) -> None:
    """Trying every plan finds none that keeps all requirements at less cost, and none where the solver says so."""
    assume(1 < plans_of(problem) <= _MOST_PLANS)
    costs = [found.cost for plan in all_schedules(problem) if (found := audit(plan, problem)).holds]
    variables = build(problem)

    answer = minimise(variables.model)

    assert ("proven" if costs else "impossible") == answer.status
    if costs:
        assert min(costs) == answer.cost == answer.bound
        found = audit(schedule(problem, variables, answer.values), problem)
        assert (True, answer.cost) == (found.holds, found.cost)


@pytest.mark.parametrize("seed", (0, 1, 4))
def test_a_second_solver_finds_the_same_cost(seed: int) -> None:
    """HiGHS, given the same linear terms, proves the same least cost; the audit measures it on the plan found."""
    problem = unit_problem(seed, lessons=4, eligible=24, levels=3)
    variables = build(problem)

    answer = minimise(variables.model)

    assert "proven" == answer.status
    assert least_cost(variables.model) == answer.cost == answer.bound
    found = audit(schedule(problem, variables, answer.values), problem)
    assert (True, answer.cost) == (found.holds, found.cost)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(problem=tiny_problems())
def test_a_second_solver_agrees_on_tiny_problems(problem: Problem) -> None:
    """HiGHS and CP-SAT agree on whether there is a plan, and on its least cost."""
    variables = build(problem)

    answer = minimise(variables.model)

    assert least_cost(variables.model) == (answer.cost if answer.values else None)


def test_every_demand_in_its_own_rows_changes_nothing() -> None:
    """Stating demands one by one, as conflicts need them, leaves the least cost as it is."""
    problem = unit_problem(2, lessons=3, eligible=20, levels=3)

    fine = minimise(build(problem, fine=True).model)

    assert minimise(build(problem).model).cost == fine.cost
