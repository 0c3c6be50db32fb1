"""The sequencer finds the best plan there is, and its audit agrees."""

from hypothesis import HealthCheck, assume, given, settings

from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.order import schedule
from lessonkit.planning.problem import Problem
from lessonkit.planning.solve import minimise

from .tiny import all_schedules, plans_of, tiny_problems

_MOST_PLANS = 4000


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(problem=tiny_problems())
def test_no_plan_is_better_than_the_one_found(problem: Problem) -> None:
    """Trying every plan finds none that keeps all requirements at less cost, and none at all where the solver says so."""
    assume(1 < plans_of(problem) <= _MOST_PLANS)
    costs = [found.cost for plan in all_schedules(problem) if (found := audit(plan, problem)).holds]
    variables = build(problem)

    answer = minimise(variables.model)

    assert ("proven" if costs else "impossible") == answer.status
    if costs:
        assert min(costs) == answer.cost == answer.bound
        found = audit(schedule(problem, variables, answer.values), problem)
        assert (True, answer.cost) == (found.holds, found.cost)
