"""What the year map works on: numbers only. Weeks, rows (classes) and blocks (units) are known by position, from 0.

A row may have ``together`` blocks in a week, and at least ``least_together``. A block's ``load`` counts in each of its
weeks; ``week_load`` limits the sum of a row in a week. A balanced curriculum is the same problem: every course a block
of one week, every period a week, one row.
"""

from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Span:
    """Weeks from the first to the last, both included."""

    first: int
    last: int

    def __contains__(self, week: int) -> bool:
        """Tell whether a week lies in the span."""
        return self.first <= week <= self.last

    def shared(self, other: "Span") -> range:
        """Return the weeks that lie in both spans."""
        return range(max(self.first, other.first), min(self.last, other.last) + 1)


@dataclass(frozen=True, slots=True)
class Block:
    """A unit to be placed.

    ``spans`` are the weeks that it can take by the calendar, in the order of their first weeks. ``follows`` are blocks
    that must be over before it begins. ``load`` is its effort in a week (10 times rest 0, light 1, moderate 2, vigorous
    3); ``families`` and ``setups`` are numbers of skill families and of skills whose equipment it puts out; ``covers``
    numbers of outcomes. ``held`` are weeks that it has already begun in, ``was`` the first week of an earlier map.
    """

    id: str
    rows: tuple[int, ...]
    spans: tuple[Span, ...]
    load: int = 1
    families: frozenset[int] = frozenset()
    setups: frozenset[int] = frozenset()
    covers: frozenset[int] = frozenset()
    follows: tuple[int, ...] = ()
    optional: bool = False
    not_before: int | None = None
    over_by: int | None = None
    week_of: int | None = None
    was: int | None = None
    held: bool = False


@dataclass(frozen=True)
class YearProblem:
    """A year to be mapped. ``open_weeks`` are the weeks with lessons, by row; ``stretches`` lie between report days."""

    weeks: int
    rows: int
    blocks: tuple[Block, ...]
    open_weeks: tuple[frozenset[int], ...]
    stretches: tuple[Span, ...] = ()
    quiet: frozenset[int] = frozenset()
    together: int = 1
    least_together: int = 0
    week_load: tuple[int, int] | None = None
    setups: int = 0
    weights: dict[str, int] = field(default_factory=dict)

    @cached_property
    def by_row(self) -> tuple[tuple[int, ...], ...]:
        """The blocks of every row."""
        return tuple(tuple(n for n, b in enumerate(self.blocks) if row in b.rows) for row in range(self.rows))


@dataclass(frozen=True, slots=True)
class YearSchedule:
    """The weeks of every block, None for one that is left out."""

    spans: tuple[Span | None, ...]

    def placed(self, blocks: tuple[int, ...]) -> list[tuple[Span, int]]:
        """Return the placed ones of some blocks with their weeks, first ones first."""
        return sorted(
            ((span, block) for block in blocks if (span := self.spans[block]) is not None),
            key=lambda pair: (pair[0].first, pair[0].last, pair[1]),
        )
