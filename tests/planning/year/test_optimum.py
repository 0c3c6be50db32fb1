"""The year map is the best there is, its audit agrees, and what cannot be is explained by a smallest set."""

import pytest

from lessonkit.planning.solve import Limits, minimise
from lessonkit.planning.year.audit import audit_year
from lessonkit.planning.year.map_year import build_year, search_year

from ..second_solver import least_cost
from .years import all_schedules, year_problem


@pytest.mark.parametrize("seed", range(12))
def test_no_schedule_is_better(seed: int) -> None:
    """Trying every schedule of a small year finds none at less cost, and none where the solver finds none."""
    problem = year_problem(seed, rows=2, units=2, weeks=6)
    costs = [found.cost for each in all_schedules(problem) if (found := audit_year(each, problem)).holds]

    schedule, answer = search_year(problem, Limits())

    if not costs:
        assert ("impossible", None) == (answer.status, schedule)
        return
    assert ("proven", min(costs)) == (answer.status, answer.cost)
    assert schedule is not None
    found = audit_year(schedule, problem)
    assert (True, answer.cost) == (found.holds, found.cost)


@pytest.mark.parametrize("seed", range(20, 28))
def test_a_second_solver_finds_the_same_cost(seed: int) -> None:
    """HiGHS, given the same linear terms, proves the same least cost, or that there is none."""
    problem = year_problem(seed, rows=3, units=4, weeks=14)
    model = build_year(problem).model

    answer = minimise(model)

    assert least_cost(model) == (answer.cost if answer.values else None)
