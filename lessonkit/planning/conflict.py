"""Why there is no plan: a smallest set of demands that cannot hold together, found and verified by solving.

The model has no objective: with one, a solver may blame every demand at once. Demands are gathered by the value that
states them (one aim, one part of a shape), reduced to a smallest set by halving, and each is then tried without: the
set alone has no plan, and leaving out any one of its members gives one.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from lessonkit.planning.build import build
from lessonkit.planning.case import Case
from lessonkit.planning.linear import Instance, Linear, Row
from lessonkit.planning.registry import BY_CODE, TERMS
from lessonkit.planning.said import Said
from lessonkit.planning.solve import feasible
from lessonkit.source.location import FieldPath

_FIRM = ("minutes", "shape", "skill-order", "no-way-back", "builds-on", "part-minutes", "allowed")
"""Demands taken for granted first: a conflict names them only where it must."""


@dataclass(frozen=True, slots=True)
class Demand:
    """A value of a record and the demands it makes."""

    said: Said
    instances: tuple[Instance, ...]


@dataclass(frozen=True, slots=True)
class Conflict:
    """Demands that cannot hold together; ``verified`` when leaving out any one of them was seen to give a plan."""

    demands: tuple[Demand, ...]
    verified: bool


def find_conflict(case: Case) -> Conflict | None:
    """Return a smallest set of demands without a plan; None where there is a plan, or the effort did not suffice."""
    model = build(case.problem, fine=True, kinds=("required",)).model
    by_instance = _rows_by_instance(model)
    always = [row for row in model.rows if row.why is None]
    demands = _demands(case, by_instance)
    search = _Search(model, always, by_instance)
    if search.possible(demands) is not False:
        return None
    smallest = search.reduce((), tuple(demands), added=False)
    for demand in smallest:
        smallest = _narrowed(case, search, smallest, demand)
    return Conflict(tuple(sorted(smallest, key=_reading_order)), search.is_smallest(smallest))


def _narrowed(case: Case, search: "_Search", demands: tuple[Demand, ...], wide: Demand) -> tuple[Demand, ...]:
    """Cut a demand down to those of its cases that matter (lesson 3 rather than every lesson)."""
    others = tuple(demand for demand in demands if demand != wide)
    single = tuple(Demand(_joint(case, (instance,)), (instance,)) for instance in wide.instances)
    needed = search.reduce(others, single, added=bool(others))
    instances = tuple(instance for demand in needed for instance in demand.instances)
    return (*others, Demand(_joint(case, instances), instances)) if instances else demands


def _rows_by_instance(model: Linear) -> dict[Instance, list[Row]]:
    found: dict[Instance, list[Row]] = defaultdict(list)
    for row in model.rows:
        if row.why is not None:
            found[row.why].append(row)
    return found


def _demands(case: Case, instances: dict[Instance, list[Row]]) -> list[Demand]:
    """Gather demands by the value that states them, firm ones first."""
    gathered: dict[tuple[str, str, str, FieldPath], list[Instance]] = defaultdict(list)
    for instance in instances:
        said = BY_CODE[instance.term].say(instance, case)
        gathered[instance.term, said.kind, said.record, said.field].append(instance)
    demands = [Demand(_joint(case, group), tuple(group)) for group in gathered.values()]
    firm = {code: number for number, code in enumerate(_FIRM)}
    return sorted(demands, key=lambda demand: firm.get(demand.instances[0].term, len(firm)))


def _joint(case: Case, instances: Sequence[Instance]) -> Said:
    said = [BY_CODE[instance.term].say(instance, case) for instance in instances]
    first, more = said[0], len({each.says for each in said}) - 1
    if more == 0:
        return first
    return Said(first.kind, first.record, first.field, f"{first.says.rstrip('.')} (and {more} more like it).")


def _reading_order(demand: Demand) -> tuple[int, str]:
    codes = [term.code for term in TERMS]
    return -codes.index(demand.instances[0].term), demand.said.says


class _Search:
    """Reduction by halving: half of the demands are tried before single ones."""

    def __init__(self, model: Linear, always: list[Row], rows: dict[Instance, list[Row]]) -> None:
        self._model = model
        self._always = always
        self._rows = rows

    def possible(self, demands: Sequence[Demand]) -> bool | None:
        """Tell whether the demands can hold together; None where the effort did not suffice."""
        rows = [row for demand in demands for instance in demand.instances for row in self._rows[instance]]
        return feasible(self._model, [*self._always, *rows])

    def is_smallest(self, demands: Sequence[Demand]) -> bool:
        """Tell whether the demands have no plan together, and have one without any one of them."""
        if self.possible(demands) is not False:
            return False
        return all(self.possible([other for other in demands if other != demand]) for demand in demands)

    def reduce(self, kept: tuple[Demand, ...], rest: tuple[Demand, ...], *, added: bool) -> tuple[Demand, ...]:
        """Return a smallest part of ``rest`` that, together with ``kept``, has no plan."""
        if added and self.possible(kept) is False:
            return ()
        if len(rest) == 1:
            return rest
        middle = len(rest) // 2
        first, second = rest[:middle], rest[middle:]
        from_second = self.reduce((*kept, *first), second, added=True)
        from_first = self.reduce((*kept, *from_second), first, added=bool(from_second))
        return (*from_first, *from_second)
