"""Changing places until as few children as possible meet again: a search that takes the same steps everywhere.

A step changes two children of one round between their groups; of all such changes that touch a repeated meeting the
best is made, even where it makes things worse for a while, and it may not be undone at once (tabu search, Glover 1986).
Ties are broken by a fixed mixing of numbers.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from lessonkit.logistics.meetings import Round

_WORK: Final = 500_000
"""Changes looked at before the search gives up: a second or two."""
_STEPS: Final = 4000
_Change = tuple[int, int, int, int, int]
"""What a change costs in repeats, its place among equals, its round, and the two children."""


def fewest_repeats(start: Sequence[Round], bound: int = 0, work: int = _WORK) -> tuple[Round, ...]:
    """Return rounds like those of ``start``, of the same group sizes, with as few repeats as the search finds.

    The search ends when it reaches ``bound``, below which no table can go.
    """
    state = _State(start)
    best, best_rounds = state.cost, state.rounds()
    resting: dict[tuple[int, int, int], int] = {}
    for step in range(_STEPS):
        if best <= bound or state.looked_at > work:
            break
        change = min(_allowed(state, resting, step, best), default=None)
        if change is None:
            continue
        cost, _, number, one, other = change
        state.swap(number, one, other)
        state.cost += cost
        resting[number, min(one, other), max(one, other)] = step + 4 + mix(step, one, other, number) % 12
        if state.cost < best:
            best, best_rounds = state.cost, state.rounds()
    return best_rounds


def _allowed(state: "_State", resting: dict[tuple[int, int, int], int], step: int, best: int) -> Iterator[_Change]:
    """Yield the changes that may be made: none lately made, unless it leads to the best so far."""
    for number in range(len(state.groups)):
        for one in state.meeting_again(number):
            for other, cost in state.changes(number, one):
                if resting.get((number, min(one, other), max(one, other)), -1) < step or state.cost + cost < best:
                    yield cost, mix(step, number, one, other), number, one, other


def shuffled(sizes: Sequence[int], number: int) -> Round:
    """Return the round of a number (from 0) in a fixed mixed order, to begin a search with; round 0 is in order."""
    children = range(1, sum(sizes) + 1)
    order = sorted(children, key=lambda child: (mix(number, child, 7, 11), child)) if number else list(children)
    starts = [sum(sizes[:place]) for place in range(len(sizes))]
    return tuple(tuple(order[start : start + size]) for start, size in zip(starts, sizes, strict=True))


def mix(first: int, second: int, third: int, fourth: int) -> int:
    """Return a number of 32 bits that looks thrown by dice but is the same for the same four numbers."""
    mixed = (first * 2654435761 ^ second * 40503 ^ third * 2246822519 ^ fourth * 3266489917) & 0xFFFFFFFF
    mixed ^= mixed >> 15
    mixed = mixed * 2246822519 & 0xFFFFFFFF
    return mixed ^ (mixed >> 13)


class _State:
    """The groups of every round, where each child is, and how often each two have met."""

    def __init__(self, start: Sequence[Round]) -> None:
        self.groups = [[list(group) for group in groups] for groups in start]
        self.children = sum(len(group) for group in start[0])
        self.met = [[0] * (self.children + 1) for _ in range(self.children + 1)]
        self.place = [[0] * (self.children + 1) for _ in start]
        self.looked_at = 0
        for number, groups in enumerate(self.groups):
            for place, group in enumerate(groups):
                for child in group:
                    self.place[number][child] = place
                for one, other in combinations(group, 2):
                    self._meet(one, other, 1)
        self.cost = sum(max(0, count - 1) for row in self.met for count in row) // 2

    def _meet(self, one: int, other: int, times: int) -> None:
        self.met[one][other] += times
        self.met[other][one] += times

    def rounds(self) -> tuple[Round, ...]:
        """Return the rounds as they stand."""
        return tuple(tuple(sorted(tuple(sorted(group)) for group in groups)) for groups in self.groups)

    def meeting_again(self, number: int) -> list[int]:
        """Return the children of a round who meet somebody there whom they meet elsewhere too."""
        again = {
            child
            for group in self.groups[number]
            for pair in combinations(group, 2)
            if self.met[pair[0]][pair[1]] > 1
            for child in pair
        }
        return sorted(again)

    def changes(self, number: int, one: int) -> Iterator[tuple[int, int]]:
        """Yield every child of another group with what changing places with ``one`` costs in repeats."""
        place = self.place[number]
        own = [child for child in self.groups[number][place[one]] if child != one]
        met_one = self.met[one]
        spared = sum(met_one[child] > 1 for child in own)
        for group in self.groups[number]:
            if one in group:
                continue
            new_to_one = sum(met_one[child] > 0 for child in group)
            for other in group:
                self.looked_at += 1
                met_other = self.met[other]
                cost = new_to_one - (met_one[other] > 0) - spared
                cost -= sum(met_other[child] > 1 for child in group if child != other)
                yield other, cost + sum(met_other[child] > 0 for child in own)

    def swap(self, number: int, one: int, other: int) -> None:
        """Let two children of a round change places."""
        place = self.place[number]
        for child, new in ((one, other), (other, one)):
            group = self.groups[number][place[child]]
            for friend in group:
                if friend != child:
                    self._meet(child, friend, -1)
                    self._meet(new, friend, 1)
        mine, theirs = self.groups[number][place[one]], self.groups[number][place[other]]
        mine[mine.index(one)], theirs[theirs.index(other)] = other, one
        place[one], place[other] = place[other], place[one]
