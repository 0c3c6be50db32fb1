"""A linear model that no solver owns: variables, rows and costs, built by the terms and read by solve and conflict."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

Weighted = tuple[int, int]
"""A whole factor and the variable (by number) that it multiplies."""


@dataclass(frozen=True, slots=True)
class Instance:
    """One case of a term: its code and what it is about (positions in the problem).

    A required term's instance is a demand. Out of ``measure`` it is a demand that a schedule breaks: ``found`` is what
    was found instead, and ``lesson`` and ``position`` say where, as far as the fault has one place. A preferred term's
    instance is something given up, ``amount`` units of it.
    """

    term: str
    key: tuple[int | str, ...]
    amount: int = 1
    found: int | None = None
    lesson: int | None = None
    position: int | None = None


@dataclass(frozen=True, slots=True)
class Variable:
    """A whole number to be found, between two limits."""

    name: str
    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Row:
    """A weighted sum kept between two limits (None for no limit); ``why`` is the demand it states, if it states one."""

    terms: tuple[Weighted, ...]
    least: int | None
    most: int | None
    why: Instance | None = None


@dataclass(slots=True)
class Linear:
    """A model under construction: minimise the cost subject to the rows."""

    variables: list[Variable] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    cost: dict[int, int] = field(default_factory=dict)
    constant: int = 0

    def whole(self, name: str, least: int, most: int) -> int:
        """Add a whole number and return its number in the model."""
        self.variables.append(Variable(name, least, most))
        return len(self.variables) - 1

    def choice(self, name: str) -> int:
        """Add a yes-or-no variable."""
        return self.whole(name, 0, 1)

    def at_most(self, terms: Iterable[Weighted], limit: int, why: Instance | None = None) -> None:
        """Keep a sum at a limit or below."""
        self._row(terms, None, limit, why)

    def at_least(self, terms: Iterable[Weighted], limit: int, why: Instance | None = None) -> None:
        """Keep a sum at a limit or above."""
        self._row(terms, limit, None, why)

    def exactly(self, terms: Iterable[Weighted], value: int, why: Instance | None = None) -> None:
        """Keep a sum at a value."""
        self._row(terms, value, value, why)

    def _row(self, terms: Iterable[Weighted], least: int | None, most: int | None, why: Instance | None) -> None:
        gathered: dict[int, int] = {}
        for factor, variable in terms:
            gathered[variable] = gathered.get(variable, 0) + factor
        kept = tuple((factor, variable) for variable, factor in gathered.items() if factor)
        self.rows.append(Row(kept, least, most, why))

    def pay(self, terms: Iterable[Weighted], constant: int = 0) -> None:
        """Add a weighted sum to the cost."""
        self.constant += constant
        for factor, variable in terms:
            self.cost[variable] = self.cost.get(variable, 0) + factor

    def cost_of(self, values: Sequence[int]) -> int:
        """Return what values of all the variables cost."""
        return self.constant + sum(factor * values[number] for number, factor in self.cost.items())
