"""The second opinion on every plan: no solver, only the terms' own measures of what a schedule does."""

from dataclasses import dataclass

from lessonkit.planning.linear import Instance
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.registry import TERMS


@dataclass(frozen=True, slots=True)
class Audit:
    """What a schedule breaks, what it gives up, and the weighted cost of that."""

    broken: tuple[Instance, ...]
    given_up: tuple[Instance, ...]
    cost: int

    @property
    def holds(self) -> bool:
        """Whether every requirement is kept."""
        return not self.broken


def audit(schedule: Schedule, problem: Problem) -> Audit:
    """Measure a schedule against every term that applies."""
    broken: list[Instance] = []
    given_up: list[Instance] = []
    for term in TERMS:
        if term.applies(problem):
            found = term.measure(schedule, problem)
            (broken if term.kind == "required" else given_up).extend(found)
    cost = sum(problem.weights[instance.term] * instance.amount for instance in given_up)
    return Audit(tuple(broken), tuple(given_up), cost)
