"""A skill and the ordered steps by which children learn it."""

from typing import Literal

from lessonkit.records.measures import GradeBand
from lessonkit.records.record import Part, Record

Family = Literal["locomotor", "balance", "rhythm", "manipulative", "games", "fitness", "conduct"]


class Step(Part, frozen=True, kw_only=True):
    """One step of a progression: what a child does who has reached it, and the grades it is usual in."""

    id: str
    title: str
    means: str
    grades: GradeBand | None = None


class Skill(Record, frozen=True, kw_only=True):
    """A skill with its steps, first to last."""

    family: Family
    summary: str
    steps: tuple[Step, ...]

    def position(self, step: str) -> int:
        """Return how far along a step is, the first being 1. Raises KeyError for a step the skill does not have."""
        for number, candidate in enumerate(self.steps, 1):
            if candidate.id == step:
                return number
        raise KeyError(step)
