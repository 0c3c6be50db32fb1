"""The search for the best plan: a quick first plan, better ones piece by piece, then the proof.

A first plan is sought among a core of the activities only. Then a few neighbouring lessons, or all warm-ups and
closings, are freed at a time, the rest kept, and each piece is solved exactly. Last the whole problem is solved from
the plan so found, which proves how good it is. Limits are counted in the solver's own steps, so that the same problem
gives the same plan.
"""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, replace
from time import monotonic

from lessonkit.planning.linear import Linear
from lessonkit.planning.problem import Problem
from lessonkit.planning.solve import Answer, Limits, Program, Progress, Status
from lessonkit.planning.terms.few_changeovers import further_kinds
from lessonkit.planning.variables import Place, Variables

EFFORT = 30.0
"""Deterministic effort after which a search stops by itself, in units of about a second."""
_SMALL = 250
"""So few places for activities need no pieces."""
_CORE_EFFORT = 2.0
_CORE_NEAR = 0.06
"""The core's plan is near enough to its best one where no better one could save a greater share of the cost."""
_ROUND_EFFORT = 6.0
"""Effort for the first round of the proof, where the search may take longer than usual."""
_WHOLE_EFFORT = 8.0
"""Effort for any plan at all, where the core has none."""
_WINDOWS = ((3, 2, 1.0), (3, 1, 1.0), (4, 2, 2.0), (5, 2, 3.0))
"""Lessons freed at a time, lessons between two pieces, and the effort for one."""
_PIECES_EFFORT = 1.0
"""Effort for all pieces together, for every lesson."""
_WORTHWHILE = 0.995
"""A round of pieces is repeated while it leaves less than this share of the cost."""

Watch = Callable[[Progress], None]


@dataclass(frozen=True, slots=True)
class _Best:
    """The best values so far and their cost; no values where none have been found."""

    values: tuple[int, ...] = ()
    cost: int = 0


@dataclass(frozen=True, slots=True)
class _Piece:
    """Lessons or parts to be freed."""

    lessons: frozenset[int] = frozenset()
    parts: frozenset[int] = frozenset()

    def frees(self, place: Place) -> bool:
        """Tell whether a place may change."""
        return place[2] in self.lessons or place[1] in self.parts


class Search:
    """A search for the values of least cost of a problem's variables.

    ``effort`` limits it in the solver's own steps; ``seconds`` limits the time on the clock instead. A stop by a person
    ends it with the best values so far. ``start`` are values that meet every requirement, to begin from.
    """

    def __init__(
        self,
        variables: Variables,
        seconds: float | None = None,
        watch: Watch | None = None,
        *,
        effort: float = EFFORT,
        start: tuple[int, ...] = (),
    ) -> None:
        self._variables = variables
        self._program = Program(variables.model)
        self._watch = watch
        self._began = monotonic()
        self._seconds = seconds
        self._most_effort = effort
        self._effort = 0.0
        self._best = _Best(start, variables.model.cost_of(start)) if start else _Best()
        self._first = _Best()
        self._settled: dict[_Piece, dict[int, int]] = {}
        self._bound = 0
        self._stopped = False

    def run(self) -> Answer:
        """Search and return the best values, with the cost that nothing can beat as far as it is known."""
        status: Status = "nothing-found"
        try:
            if len(self._variables.place) > _SMALL:
                if not self._best.values:
                    self._begin()
                self._improve()
            if not self._over():
                status = self._prove()
        except KeyboardInterrupt:
            self._stopped = True
        return self._found(status)

    def _found(self, status: Status) -> Answer:
        """Return the best values so far, and what is known of them."""
        best = self._best if self._best.values else self._first
        if best.values and status != "proven":
            status = "best-found"
        bound = best.cost if status == "proven" else self._bound
        seconds = monotonic() - self._began
        return Answer(status, best.values, best.cost, bound, self._effort, seconds, self._stopped)

    # Steps

    def _begin(self) -> None:
        """Look for a first plan among a core of the activities, and for any plan if the core has none."""
        core = core_of(self._variables.problem)
        outside = {number: 0 for place, number in self._variables.place.items() if not self._is_core(place, core)}
        self._begin_at_once(outside)
        if not self._over():
            self._try(outside, replace(self._limits(_CORE_EFFORT), near=_CORE_NEAR))
        if not self._best.values and not self._over():
            self._begin_anyhow()

    def _begin_at_once(self, outside: dict[int, int]) -> None:
        """Show a plan, whatever it costs. It only counts where the search is stopped before it has another."""
        answer = self._cheapest(self._program.any_values(self._limits(_CORE_EFFORT), outside))
        self._stopped = self._stopped or answer.stopped
        self._first = _Best(answer.values, answer.cost)
        if answer.values and self._watch is not None:
            self._watch(Progress(answer.cost, 0, monotonic() - self._began))

    def _begin_anyhow(self) -> None:
        """Look for any plan at all, whatever it costs."""
        model = self._variables.model
        answer = Program(Linear(model.variables, model.rows)).solve(self._limits(_WHOLE_EFFORT), brief=True)
        self._effort += answer.effort
        self._take(self._cheapest(answer))

    def _cheapest(self, answer: Answer) -> Answer:
        """Return an answer's activities with their best minutes: values found whatever they cost tell no true cost."""
        if not answer.values:
            return answer
        fixed = {number: answer.values[number] for number in self._variables.place.values()}
        cheapest = self._program.solve(self._limits(_CORE_EFFORT), fixed=fixed, brief=True)
        return replace(cheapest, stopped=answer.stopped or cheapest.stopped)

    def _is_core(self, place: Place, core: frozenset[int]) -> bool:
        activity, _, lesson = place
        problem = self._variables.problem
        return activity in core or (lesson, activity) in problem.pinned_at or problem.lessons[lesson].taught is not None

    def _improve(self) -> None:
        for size, step, effort in _WINDOWS:
            while self._best.values and not self._over():
                before = self._best.cost
                self._round(size, step, effort)
                if self._best.cost >= _WORTHWHILE * before:
                    break

    def _round(self, size: int, step: int, effort: float) -> None:
        lessons = len(self._variables.problem.open_lessons)
        most = min(_CORE_EFFORT + _WHOLE_EFFORT + _PIECES_EFFORT * lessons, self._most_effort / 2)
        for piece in self._pieces(size, step):
            if self._over() or self._effort > most:
                return
            places = self._variables.place.items()
            kept = {number: self._best.values[number] for place, number in places if not piece.frees(place)}
            if self._settled.get(piece) != kept and self._try(kept, self._limits(effort)) == "proven":
                self._settled[piece] = kept

    def _pieces(self, size: int, step: int) -> Iterator["_Piece"]:
        """Yield what each piece frees: lessons in a row, then the first and last parts, then each part between."""
        lessons = self._variables.problem.open_lessons
        for first in range(0, max(1, len(lessons) - size + 1), step):
            yield _Piece(lessons=frozenset(lessons[first : first + size]))
        parts = max(len(frame.parts) for frame in self._variables.problem.lessons)
        for chosen in ({0, parts - 1}, *({part} for part in range(1, parts - 1))):
            yield _Piece(parts=frozenset(chosen))

    def _prove(self) -> Status:
        """Solve the whole problem from the best plan so far, which proves how good it is."""
        if self._seconds is not None or self._most_effort > EFFORT:
            return self._prove_in_rounds()
        left = max(1.0, self._most_effort - self._effort)
        answer = self._program.solve(self._limits(left), hint=self._best.values, watch=self._tell(None))
        self._know(answer)
        return answer.status

    def _prove_in_rounds(self) -> Status:
        """Solve the whole problem again and again, each time for twice as long and without what was ruled out before.

        Every round studies anew what is left, which brings a proof sooner than one long search does. Once there is a
        plan, later rounds look for better ones only, so that a round without any proves the best.
        """
        effort = _ROUND_EFFORT
        left = max(1.0, self._most_effort - self._effort)
        while True:
            limit = effort if self._seconds is not None or left >= 2 * effort else left
            found = self._best.values
            answer = self._program.solve(self._limits(limit), hint=found, learn=True, watch=self._tell(None))
            self._know(answer)
            if answer.status in ("proven", "impossible"):
                return "proven" if self._best.values else "impossible"
            left = self._most_effort - self._effort
            if self._over() or (self._seconds is None and left < 1):
                return "nothing-found"
            effort *= 2

    def _know(self, answer: Answer) -> None:
        """Take what a solve of the whole found, and its bound."""
        self._take(answer)
        bound = max(0, min(answer.bound, self._best.cost)) if self._best.values else answer.bound
        self._bound = max(self._bound, bound)

    def _try(self, fixed: dict[int, int], limits: Limits) -> Status:
        """Solve with some variables fixed, and keep what is better than before."""
        answer = self._program.solve(limits, hint=self._best.values, fixed=fixed, brief=True, watch=self._tell(0))
        self._take(answer)
        return answer.status

    def _take(self, answer: Answer) -> None:
        """Keep what is better than before."""
        self._effort += answer.effort
        self._stopped = self._stopped or answer.stopped
        if answer.values and (not self._best.values or answer.cost < self._best.cost):
            self._best = _Best(answer.values, answer.cost)

    # Limits and news

    def _over(self) -> bool:
        late = self._seconds is not None and monotonic() - self._began >= self._seconds
        return self._stopped or late

    def _limits(self, effort: float | None) -> Limits:
        if self._seconds is None:
            return Limits(None, effort)
        return Limits(max(0.01, self._seconds - (monotonic() - self._began)), effort)

    def _tell(self, bound: int | None) -> Watch | None:
        """Return a watcher that hears of better plans only; ``bound`` is what is known of the whole problem."""
        watch = self._watch
        if watch is None:
            return None

        def tell(progress: Progress) -> None:
            if not self._best.values or progress.cost < self._best.cost or bound is None:
                best = min(progress.cost, self._best.cost) if self._best.values else progress.cost
                known = min(best, max(self._bound, progress.bound if bound is None else bound))
                watch(Progress(best, known, monotonic() - self._began))

        return tell


def core_of(problem: Problem) -> frozenset[int]:
    """Return activities that are likely to be enough for a plan: for every part, step and aim the cheapest few.

    What an activity of the core builds on belongs to it.
    """
    lessons = len(problem.lessons)
    enough = {"part": -(-lessons // problem.most) + 3, "step": 4, "aim": 4, "check": 2}
    found: set[int] = set()
    used: dict[tuple[str, Hashable], int] = defaultdict(int)
    prices = _prices(problem)
    for activity in sorted(range(len(problem.choices)), key=lambda each: (prices[each], problem.ranks[each])):
        keys = _uses(problem, activity)
        if any(used[key] < enough[key[0]] for key in keys):
            found.add(activity)
            for key in keys:
                used[key] += 1
    waiting = sorted(found)
    while waiting:
        for base in problem.choices[waiting.pop()].builds_on:
            if base not in found:
                found.add(base)
                waiting.append(base)
    return frozenset(found)


def _uses(problem: Problem, activity: int) -> list[tuple[str, Hashable]]:
    choice = problem.choices[activity]
    aims = {goal.outcome for goal in problem.goals}
    checked = {goal.outcome for goal in problem.goals if goal.assess}
    return [
        *(("part", part) for part in choice.parts),
        *([("part", "station")] if choice.station else ()),
        *(("step", level) for level in choice.levels),
        *(("aim", outcome) for outcome in choice.practises if outcome in aims),
        *(("check", outcome) for outcome in choice.assesses if outcome in checked),
    ]


def _prices(problem: Problem) -> list[int]:
    """Return what each activity is likely to cost, whatever else is in the plan."""
    weights, further = problem.weights, further_kinds(problem)
    return [
        weights.get("few-changeovers", 0) * len(further[activity])
        + weights.get("moving", 0) * (100 - choice.moving) * choice.bounds.usual // 5
        - (weights.get("favourites", 0) if choice.favourite else 0)
        for activity, choice in enumerate(problem.choices)
    ]
