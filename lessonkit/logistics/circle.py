"""The circle method: one child stays, the others move one place round a circle, and everybody meets everybody once."""

from collections.abc import Sequence

from lessonkit.logistics.meetings import Round


def circle_round(even: int, number: int) -> Round:
    """Return the pairs of a round (from 0) for an even number of children, who are numbered from 1.

    The last child meets child 1 in the first round, child 2 in the next, and so on.
    """
    ring = even - 1
    pairs = [(number % ring + 1, even)]
    for step in range(1, even // 2):
        one, other = (number + step) % ring + 1, (number - step) % ring + 1
        pairs.append((min(one, other), max(one, other)))
    return tuple(sorted(pairs))


def circle_table(sizes: Sequence[int]) -> tuple[Round, ...]:
    """Return the rounds of pairs for groups of two, and at most one child alone; none for any other groups."""
    if not sizes or max(sizes) != 2 or sum(size < 2 for size in sizes) > 1 or min(sizes) < 1:
        return ()
    even = 2 * len(sizes)
    rounds = (circle_round(even, number) for number in range(even - 1))
    if sum(sizes) == even:
        return tuple(rounds)
    return tuple(tuple(tuple(child for child in pair if child < even) for pair in pairs) for pairs in rounds)
