"""Who has met whom over some rounds of groups: the check that every table of partners and groups has to pass."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations

Group = tuple[int, ...]
"""The children of a group, by number."""
Round = tuple[Group, ...]


def meetings(rounds: Iterable[Iterable[Sequence[int]]]) -> Counter[tuple[int, int]]:
    """Return how often each pair of children is in one group; pairs are written smaller number first."""
    return Counter(pair for groups in rounds for group in groups for pair in combinations(sorted(group), 2))


def repeats(rounds: Iterable[Iterable[Sequence[int]]]) -> int:
    """Return how many meetings are not the first of their pair."""
    return sum(count - 1 for count in meetings(rounds).values())


def repeated(rounds: Iterable[Iterable[Sequence[int]]]) -> tuple[tuple[int, int], ...]:
    """Return the pairs that meet more than once, in order."""
    return tuple(sorted(pair for pair, count in meetings(rounds).items() if count > 1))


def never_met(rounds: Iterable[Iterable[Sequence[int]]], children: Iterable[int]) -> tuple[tuple[int, int], ...]:
    """Return the pairs of children that never meet, in order."""
    met = meetings(rounds)
    return tuple(pair for pair in combinations(sorted(children), 2) if pair not in met)


def fault_of(rounds: Sequence[Sequence[Sequence[int]]], children: Sequence[int]) -> str | None:
    """Say what is wrong with a table that is to bring nobody together twice; None where nothing is.

    Every round must hold every child once.
    """
    for number, groups in enumerate(rounds, 1):
        seen = Counter(child for group in groups for child in group)
        if seen != Counter(children):
            odd = sorted(child for child in {*seen, *children} if seen[child] != 1)
            return f"In round {number}, child {odd[0]} is in {seen[odd[0]] or 'no'} groups."
    twice = repeated(rounds)
    if twice:
        pairs = ", ".join(f"{one} and {other}" for one, other in twice)
        return f"These meet more than once: {pairs}."
    return None


def renamed(rounds: Iterable[Round], names: Mapping[int, int]) -> tuple[Round, ...]:
    """Return rounds with other numbers, groups and rounds in the same order, the members of a group ascending."""
    return tuple(tuple(tuple(sorted(names[child] for child in group)) for group in groups) for groups in rounds)
