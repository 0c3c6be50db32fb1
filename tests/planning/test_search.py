"""The search in pieces: what it begins with, and what it ends with."""

import signal
from dataclasses import replace
from threading import Event

import pytest

from lessonkit.planning import search, solve
from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.order import schedule
from lessonkit.planning.problem import Problem
from lessonkit.planning.search import Search, core_of
from lessonkit.planning.solve import Limits, Progress, minimise

from .synthetic import unit_problem


@pytest.fixture(scope="module")
def problem() -> Problem:
    """Return a unit of five lessons with enough activities to be searched in pieces."""
    return unit_problem(1, lessons=4, eligible=70, levels=4)


def test_pieces_lead_to_the_same_cost(problem: Problem) -> None:
    """The search in pieces proves the same least cost as one solve of the whole, and its plan has that cost."""
    variables = build(problem)
    answer = Search(variables, effort=60.0).run()
    found = audit(schedule(problem, variables, answer.values), problem)

    assert ("proven", minimise(build(problem).model).cost) == (answer.status, answer.cost)
    assert (True, answer.cost) == (found.holds, found.cost)


def test_rounds_rule_out_no_best_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    """What many short rounds have ruled out leaves the least cost that one long solve of the whole finds."""
    monkeypatch.setattr(search, "_ROUND_EFFORT", 0.02)
    for seed in range(3):
        problem = unit_problem(seed, lessons=3, eligible=30, levels=3, aims=3)
        answer = Search(build(problem), effort=60.0).run()

        assert ("proven", minimise(build(problem).model).cost) == (answer.status, answer.cost)


def test_the_first_plan_heard_of_is_kept(problem: Problem) -> None:
    """Who stops the search when it first tells of a plan has that plan, at the cost that an audit measures."""
    heard: list[Progress] = []

    def stop(progress: Progress) -> None:
        heard.append(progress)
        raise KeyboardInterrupt

    variables = build(problem)
    answer = Search(variables, watch=stop).run()
    found = audit(schedule(problem, variables, answer.values), problem)

    assert ("best-found", True, 1) == (answer.status, answer.stopped, len(heard))
    assert (True, heard[0].cost, heard[0].cost) == (found.holds, found.cost, answer.cost)


def test_a_core_without_a_plan_does_not_matter(problem: Problem, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where no plan can be made of the core alone, one is found among all activities."""
    monkeypatch.setattr(search, "core_of", lambda _: frozenset())
    answer = Search(build(problem), effort=3.0).run()

    assert answer.values


def test_news_is_of_better_plans_only(problem: Problem) -> None:
    """Whoever watches hears of costs that fall, and of a bound that never lies above them."""
    heard: list[Progress] = []
    answer = Search(build(problem), watch=heard.append, effort=5.0).run()

    costs = [progress.cost for progress in heard]
    assert sorted(set(costs), reverse=True) == list(dict.fromkeys(costs))
    assert all(0 <= progress.bound <= progress.cost for progress in heard)
    assert answer.cost == costs[-1]


def test_the_core_holds_what_it_builds_on(problem: Problem) -> None:
    """The core is a part of the activities, with every base of its members."""
    core = core_of(problem)

    assert 0 < len(core) < len(problem.choices)
    assert all(base in core for activity in core for base in problem.choices[activity].builds_on)


def test_an_impossible_unit_is_known_as_such(problem: Problem) -> None:
    """A unit that asks for more movement than there is has no plan, in pieces or not."""
    choices = tuple(replace(choice, moving=min(choice.moving, 60)) for choice in problem.choices)
    answer = Search(build(replace(problem, choices=choices, moving=90)), effort=20.0).run()

    assert "impossible" == answer.status


def test_a_search_goes_on_from_a_plan(problem: Problem) -> None:
    """A search that starts from a plan hears of none that costs more, and ends with one as good or better."""
    first = Search(build(problem), effort=1.0).run()
    heard: list[Progress] = []
    again = Search(build(problem), watch=heard.append, effort=1.0, start=first.values).run()

    assert build(problem).model.cost_of(first.values) == first.cost >= again.cost
    assert all(progress.cost <= first.cost for progress in heard)


class _HardOfHearing:
    """A solver that hears a stop only when it is told a second time."""

    def __init__(self, done: Event) -> None:
        self.told = 0
        self._done = done

    def stop_search(self) -> None:
        """Count what is heard, and end at the second time."""
        self.told += 1
        if self.told == 2:
            self._done.set()


def test_a_stop_before_the_solver_hears_is_told_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ctrl-C at the very start, while the thread is being started, ends the search although it came too early."""
    monkeypatch.setattr(solve, "_PATIENCE", 0.01)
    done, signals = Event(), [signal.SIGINT]
    solver = _HardOfHearing(done)

    def work() -> None:
        if signals:
            signal.raise_signal(signals.pop())

    usual = signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background process ignores it
    try:
        assert solve._wait(work, done, solver)
    finally:
        signal.signal(signal.SIGINT, usual)

    assert 2 == solver.told


def test_what_is_only_near_is_not_called_proven(problem: Problem) -> None:
    """A search that may end near the best says that a better plan is possible, and by how much."""
    answer = minimise(build(problem).model, Limits(None, 20.0, near=0.5))

    assert "best-found" == answer.status
    assert 0 < answer.cost - answer.bound <= 0.5 * answer.cost
