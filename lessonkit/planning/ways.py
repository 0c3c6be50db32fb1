"""Ways out of a request that has no plan: changes that give one, the smallest first, each tried by solving.

Single changes are tried first. Where none is enough, all small changes are made together and then taken back one by
one, as long as there is a plan, until none is left that could be spared.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lessonkit.planning.asked import Change, changed
from lessonkit.planning.build import build
from lessonkit.planning.case import Case
from lessonkit.planning.precheck import precheck
from lessonkit.planning.request_changes import other_dates, request_changes
from lessonkit.planning.room_changes import room_changes
from lessonkit.planning.said import Said
from lessonkit.planning.solve import feasible_at


@dataclass(frozen=True, slots=True)
class Way:
    """A change of the request that gives a plan, and its price: what a teacher would give up for it, in points.

    ``also`` are further changes that are needed together with it.
    """

    said: Said
    price: int
    also: tuple[Said, ...] = ()


_MOST = 5
_SETS = 2
_CHEAP = 8
"""Below this price a single change is small enough: nobody then needs several."""
_MOST_TOGETHER = 5
_DEAREST = 12
"""Changes that cost more are not made together with others."""
_EFFORT = 2.0
"""Deterministic effort for a try: what takes longer is no way that anyone sees at once."""
_BUDGET = 20.0
"""Deterministic effort for all tries together; building a try counts for a little as well."""
_BUDGET_TOGETHER = 10.0
_BUILDING = 0.5
_COUNTING = 0.1


def ways_out(case: Case) -> tuple[Way, ...]:
    """Return at most five changes that give a plan, cheapest first. Of several for one value the smallest is named.

    Where none does, or only dear ones, sets of other changes that do together are added, of five at most. The search
    ends when its effort is spent, so that an answer for a long unit does not keep anyone waiting.
    """
    tried = _Tries(case, _BUDGET)
    changes = sorted((*request_changes(case), *room_changes(case)), key=lambda each: (each.price, each.said.says))
    found: list[Way] = []
    solved: set[tuple[object, ...]] = set()
    for each in changes:
        if len(found) == _MOST or tried.left <= 0:
            break
        if each.value not in solved and tried.works((each,)):
            found.append(Way(each.said, each.price))
            solved.add(each.value)
    if any(way.price < _CHEAP for way in found):
        return tuple(found)
    for _ in range(_SETS):
        together = _together(case, [each for each in changes if each.value not in solved])
        if not together:
            break
        found.append(_joined(together))
        solved.add(together[0].value)
    return tuple(sorted(found, key=lambda way: (way.price, way.said.says)))


class _Tries:
    """Tries changes until the effort for them is spent."""

    def __init__(self, case: Case, budget: float) -> None:
        self._case = case
        self.left = budget

    def works(self, changes: Iterable[Change]) -> bool:
        """Tell whether the request has a plan with changes made; no where the effort does not suffice."""
        case = changed(self._case, changes)
        self.left -= _COUNTING
        if case.faults or precheck(case) or self.left <= 0:
            return False
        works, spent = feasible_at(build(case.problem, kinds=("required",)).model, None, min(_EFFORT, self.left))
        self.left -= spent + _BUILDING
        return bool(works)


def _together(case: Case, changes: Sequence[Change]) -> list[Change]:
    """Return the cheaper of two sets of changes: one spares the dearest changes first, the other the cheapest.

    In the class's own room first: another one, which may not suit what is there now, only where that is not enough.
    """
    strongest: dict[tuple[object, ...], Change] = {}
    for each in changes:
        if not each.alone and each.price <= _DEAREST:
            strongest[each.value] = each
    everything = list(strongest.values())
    here = [each for each in everything if each.said.field[-1:] != ("space",)]
    return _cheaper(case, here, changes) or (_cheaper(case, everything, changes) if here != everything else [])


def _cheaper(case: Case, everything: list[Change], changes: Sequence[Change]) -> list[Change]:
    found = []
    for order in (everything, everything[::-1]):
        kept = _spared(_Tries(case, _BUDGET_TOGETHER), order, changes)
        if 0 < len(kept) <= _MOST_TOGETHER:
            found.append(sorted(kept, key=lambda each: (each.price, each.said.says)))
    return min(found, key=lambda kept: (sum(each.price for each in kept), len(kept)), default=[])


def _joined(changes: Sequence[Change]) -> Way:
    first, *rest = changes
    return Way(first.said, sum(each.price for each in changes), tuple(each.said for each in rest))


def _spared(tried: _Tries, everything: list[Change], changes: Sequence[Change]) -> list[Change]:
    """Take changes back from the end as long as a plan is left, half of them at once at first; then make them smaller.

    Nothing where there is no plan with everything changed.
    """
    if not tried.works(everything):
        return []
    kept = list(everything)
    size = max(1, len(kept) // 2)
    while True:
        start = len(kept)
        while start > 0:
            first = max(0, start - size)
            rest = kept[:first] + kept[start:]
            if tried.works(rest):
                kept = rest
            start = first
        if size == 1:
            break
        size = max(1, size // 2)
    return [_smallest(tried, each, kept, changes) for each in kept]


def _smallest(tried: _Tries, strong: Change, kept: list[Change], changes: Sequence[Change]) -> Change:
    """Return the smallest change of a value that is enough together with the others."""
    others = [each for each in kept if each is not strong]
    for weaker in changes:
        if weaker.value == strong.value and weaker.price < strong.price and tried.works([*others, weaker]):
            return weaker
    return strong


def ways_into_the_year(case: Case) -> tuple[Way, ...]:
    """Return the ways out of a unit that is longer than the school year: an earlier start, or fewer lessons."""
    wanted, found = case.unit.lessons, len(case.places)
    if wanted is None or not 0 <= found < wanted:
        return ()
    tried = _Tries(case, _BUDGET)
    changes = other_dates(case, wanted, found)
    return tuple(Way(each.said, each.price) for each in changes if tried.works((each,)))
