"""The one door to OR-Tools: find the best values for a linear model, and prove that there are none better.

The search is deterministic: one worker, a fixed seed, limits counted in the solver's own steps. Only a limit in
seconds, or a person who stops it, can make two runs differ, and then the answer says that it is not proven.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from importlib.metadata import version
from math import ceil
from threading import Event, Lock, Thread
from typing import Any, Literal

from lessonkit.planning.linear import Linear, Row

Status = Literal["proven", "best-found", "impossible", "nothing-found"]
Parameter = int | float | bool


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search is: the best cost so far, the cost that nothing can beat, and seconds since it began."""

    cost: int
    bound: int
    seconds: float

    @property
    def gap(self) -> float:
        """How much better a plan could still be, as a share of the best cost so far."""
        return 0.0 if self.cost <= self.bound else (self.cost - self.bound) / max(1, abs(self.cost))


@dataclass(frozen=True, slots=True)
class Limits:
    """When to stop: after so many seconds, or so much deterministic effort (about a second each); None for no limit.

    ``near`` ends a search where nothing can save a greater share of the cost.
    """

    seconds: float | None = None
    effort: float | None = None
    near: float = 0.0


def limits_of(seconds: float | None, effort: float) -> Limits:
    """Return when to stop: after the seconds that a person asked for, be they few or many, else after an effort."""
    return Limits(seconds) if seconds is not None else Limits(None, effort)


@dataclass(frozen=True, slots=True)
class Answer:
    """What a search found: values of the model's variables, their cost, and the cost that nothing can beat.

    ``effort`` is what it took, in deterministic units of about a second; ``seconds`` is the time on the clock;
    ``stopped`` tells that a person stopped it (Ctrl-C).
    """

    status: Status
    values: tuple[int, ...]
    cost: int
    bound: int
    effort: float
    seconds: float
    stopped: bool = False


NO_LIMITS = Limits()
Watch = Callable[[Progress], None]
_SEARCH: dict[str, Parameter] = {
    "num_workers": 1,
    "linearization_level": 2,
    "random_seed": 1,
    "catch_sigint_signal": False,
}
_PATIENCE = 0.2
"""Seconds after which the main thread looks whether somebody wants to stop (some systems do not wake it)."""
_BRIEF: dict[str, Parameter] = {
    "cp_model_probing_level": 0,
    "max_presolve_iterations": 1,
    "presolve_use_bva": False,
    "symmetry_level": 0,
}
"""For small pieces of a problem, on which studying it beforehand costs more than it saves."""
_QUICK: dict[str, Parameter] = {**_BRIEF, "linearization_level": 0}
"""For any values at all: without a cost the linear relaxation has nothing to say."""
_LEARN: dict[str, Parameter] = {"fill_tightened_domains_in_response": True, "cp_model_use_sat_presolve": False}
"""To hear what a search ruled out.

The second parameter is needed by the first: studying its clauses beforehand, version 9.15 removes some variables, and
where it is to say what it ruled out it may give them wrong values afterwards. It finds that out itself ("Infeasible
solution!") and ends the whole program. Where it removes nothing, there is nothing to give back: of 12 small problems in
many short rounds one or two ended so, of 235 long and short searches with this parameter none. Without these rounds
twelve lessons of 170 activities were still unproven after five minutes.
"""


def solver_name() -> str:
    """Return the name and version of the solver."""
    return f"OR-Tools CP-SAT {version('ortools')}"


def minimise(model: Linear, limits: Limits = NO_LIMITS, hint: Sequence[int] = (), watch: Watch | None = None) -> Answer:
    """Find the values of least cost.

    ``hint`` are values to begin from; ``watch`` is told whenever a better plan is found.
    """
    return Program(model).solve(limits, hint=hint, watch=watch)


class Program:
    """A linear model stated to the solver once, to be solved whole or piece by piece."""

    def __init__(self, model: Linear) -> None:
        self._model = model
        self._program, self._numbers = _program(model)
        self._domains = [[each.least, each.most] for each in model.variables]

    def solve(
        self,
        limits: Limits = NO_LIMITS,
        *,
        hint: Sequence[int] = (),
        fixed: Mapping[int, int] | None = None,
        brief: bool = False,
        learn: bool = False,
        watch: Watch | None = None,
    ) -> Answer:
        """Find the values of least cost with the variables ``fixed`` (number to value) kept as they are.

        ``brief`` is for small pieces. A bound then holds for the piece only. ``learn`` keeps what the search rules out:
        later answers, "impossible" too, are then about values that cost less than the best that had been found.
        """
        self._program.clear_hints()
        for number, value in zip(self._numbers, hint, strict=False):
            self._program.add_hint(number, value)
        solver = _solver().CpSolver()
        _set(solver.parameters, limits, _LEARN if learn else _BRIEF if brief else {})
        answer = self._run(solver, fixed or {}, watch)
        if learn:
            self._learn(solver.response_proto.tightened_variables)
        return answer

    def any_values(self, limits: Limits, fixed: Mapping[int, int]) -> Answer:
        """Find any values that satisfy the rows, whatever they cost, as quickly as can be."""
        self._program.clear_hints()
        self._program.clear_objective()
        solver = _solver().CpSolver()
        _set(solver.parameters, limits, _QUICK)
        try:
            answer = self._run(solver, fixed, None)
        finally:
            _state_cost(self._program, self._numbers, self._model)
        return replace(answer, cost=self._model.cost_of(answer.values)) if answer.values else answer

    def _run(self, solver: Any, fixed: Mapping[int, int], watch: Watch | None) -> Answer:
        cp_model = _solver()
        self._narrow(fixed)
        try:
            status, stopped = _run(solver, self._program, watch)
        finally:
            self._widen(fixed)
        found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        cost = round(solver.objective_value) if found else 0
        bound = ceil(solver.best_objective_bound - 1e-6)
        return Answer(
            "best-found" if found and cost > bound else _status(status),
            tuple(solver.value(number) for number in self._numbers) if found else (),
            cost,
            bound,
            solver.response_proto.deterministic_time,
            solver.wall_time,
            stopped,
        )

    def _narrow(self, fixed: Mapping[int, int]) -> None:
        for number, value in fixed.items():
            self._limit(number, [value, value])

    def _widen(self, fixed: Mapping[int, int]) -> None:
        for number in fixed:
            self._limit(number, self._domains[number])

    def _learn(self, narrower: Sequence[Any]) -> None:
        """Keep to what is left of every variable's values; a search that ended early may not say."""
        for number, variable in enumerate(self._numbers if narrower else ()):
            self._domains[number] = list(narrower[variable.index].domain)
            self._limit(number, self._domains[number])

    def _limit(self, number: int, values: Sequence[int]) -> None:
        """Keep a variable to values, given as pairs of a least and a greatest one."""
        domain = self._program.proto.variables[self._numbers[number].index].domain
        domain.clear()
        domain.extend(values)


def _run(solver: Any, program: Any, watch: Watch | None) -> tuple[Any, bool]:
    """Solve beside the main thread, so that Ctrl-C reaches it at once; return the status and whether that happened."""
    answers: list[Any] = []
    faults: list[BaseException] = []
    first, done = Lock(), Event()
    watcher = _watcher(watch) if watch else None

    def work() -> None:
        if not first.acquire(blocking=False):
            return
        try:
            answers.append(solver.solve(program, watcher))
        except BaseException as fault:  # whatever it is, the main thread raises it
            faults.append(fault)
        finally:
            done.set()

    stopped = _wait(work, done, solver)
    if faults:
        raise faults[0]
    return answers[0], stopped


def _wait(work: Callable[[], None], done: Event, solver: Any) -> bool:
    """Begin some work and wait until it is done; return whether a person stopped it meanwhile.

    Ctrl-C may come while the thread is being started: then it is started again, and only the first one works. It may
    also come before the solver can hear of it, so it is told until it ends.
    """
    begun = stopped = False
    while True:
        try:
            while not done.is_set():  # a loop of its own: Ctrl-C may come between one turn and the next, too
                if not begun:
                    Thread(target=work, daemon=True).start()
                    begun = True
                if stopped:
                    solver.stop_search()
                done.wait(_PATIENCE)
            return stopped
        except KeyboardInterrupt:
            stopped = True


def feasible(model: Linear, rows: Iterable[Row] | None = None, effort: float = 20.0) -> bool | None:
    """Tell whether any values satisfy the model's rows, or only those given, costs aside; None where effort ran out.

    Without an objective the answer says whether the demands can hold together, not which of them would be cheap.
    """
    return feasible_at(model, rows, effort)[0]


def feasible_at(model: Linear, rows: Iterable[Row] | None, effort: float) -> tuple[bool | None, float]:
    """Return what ``feasible`` does, and the deterministic effort that it took."""
    cp_model = _solver()
    wanted = model.rows if rows is None else rows
    program, _ = _program(Linear(model.variables, list(wanted)))
    solver = cp_model.CpSolver()
    _set(solver.parameters, Limits(None, effort), {})
    answer, stopped = _run(solver, program, None)
    if stopped:
        raise KeyboardInterrupt
    status = _status(answer)
    spent = float(solver.response_proto.deterministic_time)
    return None if status == "nothing-found" else status != "impossible", spent


def _solver() -> Any:
    from ortools.sat.python import cp_model

    return cp_model


def _set(parameters: Any, limits: Limits, special: Mapping[str, Parameter]) -> None:
    for name, value in {**_SEARCH, **special}.items():
        setattr(parameters, name, value)
    if limits.seconds is not None:
        parameters.max_time_in_seconds = limits.seconds
    if limits.effort is not None:
        parameters.max_deterministic_time = limits.effort
    if limits.near:
        parameters.relative_gap_limit = limits.near


def _status(status: Any) -> Status:
    cp_model = _solver()
    if status == cp_model.OPTIMAL:
        return "proven"
    if status == cp_model.FEASIBLE:
        return "best-found"
    return "impossible" if status == cp_model.INFEASIBLE else "nothing-found"


def _program(model: Linear) -> tuple[Any, list[Any]]:
    cp_model = _solver()
    program = cp_model.CpModel()
    numbers = [program.new_int_var(each.least, each.most, each.name) for each in model.variables]
    for row in model.rows:
        total = cp_model.LinearExpr.weighted_sum([numbers[n] for _, n in row.terms], [f for f, _ in row.terms])
        least = cp_model.INT_MIN if row.least is None else row.least
        most = cp_model.INT_MAX if row.most is None else row.most
        program.add_linear_constraint(total, least, most)
    _state_cost(program, numbers, model)
    return program, numbers


def _state_cost(program: Any, numbers: Sequence[Any], model: Linear) -> None:
    costs = sorted(model.cost.items())
    if costs:
        cost = _solver().LinearExpr.weighted_sum([numbers[n] for n, _ in costs], [f for _, f in costs])
        program.minimize(cost + model.constant)


def _watcher(watch: Watch) -> Any:
    class Watcher(_solver().CpSolverSolutionCallback):  # type: ignore[misc]  # the solver's class is not typed
        def on_solution_callback(self) -> None:
            bound = ceil(self.best_objective_bound - 1e-6)
            watch(Progress(round(self.objective_value), bound, self.wall_time))

    return Watcher()
