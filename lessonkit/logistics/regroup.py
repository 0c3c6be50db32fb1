"""New groups every round, with as few meetings of the same children as can be had, and how sure that is."""

from collections.abc import Sequence
from dataclasses import dataclass

from lessonkit.logistics.circle import circle_table
from lessonkit.logistics.cyclic_tables import cyclic_table
from lessonkit.logistics.group_tables import group_table
from lessonkit.logistics.meetings import Round, repeats
from lessonkit.logistics.regroup_search import fewest_repeats, shuffled
from lessonkit.logistics.words import counted, number


@dataclass(frozen=True, slots=True)
class Regrouping:
    """Rounds of groups, children numbered from 1.

    ``repeats`` counts meetings that are not the first of their pair; ``bound`` is a number that no table can go below;
    where both agree the table is ``proven`` to be as good as any. ``says`` tells it in sentences.
    """

    rounds: tuple[Round, ...]
    repeats: int
    bound: int
    says: str

    @property
    def proven(self) -> bool:
        """Whether no other table has fewer repeats."""
        return self.repeats == self.bound


def regroup(sizes: Sequence[int], rounds: int) -> Regrouping:
    """Form groups of the given sizes (each 1 or more) anew for some rounds (1 or more).

    Raises ValueError for no groups or no rounds.
    """
    if not sizes or min(sizes) < 1 or rounds < 1:
        raise ValueError("groups need a child each, and there must be one round at least")
    sizes = tuple(sorted(sizes, reverse=True))
    bound = repeats_bound(sizes, rounds)
    found = _longest_table(sizes)
    if len(found) < min(rounds, most_rounds(sizes)):
        found = _searched(found, sizes, min(rounds, most_rounds(sizes)))
    if len(found) < rounds:
        begun_again = tuple(found[turn % len(found)] for turn in range(rounds))
        found = begun_again if repeats(begun_again) == bound else _searched(found, sizes, rounds)
    again = repeats(found[:rounds])
    return Regrouping(found[:rounds], again, bound, _says(sizes, rounds, again, bound))


def _longest_table(sizes: tuple[int, ...]) -> tuple[Round, ...]:
    """Return the longest table without repeats that is known without searching; perhaps no rounds."""
    tables = (circle_table(sizes), group_table(sizes), cyclic_table(sizes))
    return max(tables, key=len)


def _searched(table: tuple[Round, ...], sizes: tuple[int, ...], rounds: int) -> tuple[Round, ...]:
    """Search for more rounds, from the table and from rounds in mixed order; return the better."""
    bound = repeats_bound(sizes, rounds)
    mixed = tuple(shuffled(sizes, turn) for turn in range(rounds))
    found = fewest_repeats((*table[:rounds], *mixed[len(table) :]), bound)
    if not table or repeats(found) == bound:
        return found
    return min(found, fewest_repeats(mixed, bound), key=repeats)


def most_rounds(sizes: Sequence[int]) -> int:
    """Return a number of rounds that cannot be passed without a repeat, by counting.

    A child of the largest groups meets size - 1 others a round; all groups together use up so many of all pairs; and
    with fewer groups than children in one, the second round cannot keep a group's children apart.
    """
    children, size = sum(sizes), max(sizes)
    a_round = sum(each * (each - 1) // 2 for each in sizes)
    if not a_round:
        return 10**6
    if size > len(sizes):
        return 1
    limit = children * (children - 1) // 2 // a_round
    if min(sizes) == size:
        limit = min(limit, (children - 1) // (size - 1))
    return limit


def repeats_bound(sizes: Sequence[int], rounds: int) -> int:
    """Return a number of repeats that no table of so many rounds can go below.

    Of all meetings, at most every pair's first is new. A group spread over the groups of the first round brings some of
    its children together again when there are fewer of these. With equal groups no child meets more than all others.
    """
    children = sum(sizes)
    a_round = sum(size * (size - 1) // 2 for size in sizes)
    by_pairs = rounds * a_round - children * (children - 1) // 2
    by_spreading = (rounds - 1) * sum(_together_again(size, len(sizes)) for size in sizes)
    return max(0, by_pairs, by_spreading)


def _together_again(size: int, groups: int) -> int:
    """Return the pairs of a group that were together in the first round, when it is spread over that round's groups."""
    each, over = divmod(size, groups)
    return over * (each + 1) * each // 2 + (groups - over) * each * (each - 1) // 2


def _says(sizes: tuple[int, ...], rounds: int, again: int, bound: int) -> str:
    most = most_rounds(sizes)
    if not again:
        limit = f"; more than {counted(most, 'such round')} cannot be had" if most < 10**6 else ""
        return f"Nobody meets the same child twice in {counted(rounds, 'round')}{limit}."
    times = "once" if again == 1 else f"{number(again)} times"
    opening = f"In {counted(rounds, 'round')} two children who have met before meet again {times}"
    if again == bound:
        return f"{opening}; by counting, it cannot be fewer."
    if rounds > most:
        return f"{opening}; by counting, {bound} cannot be avoided."
    return f"{opening}; whether it can be fewer has not been proven."
