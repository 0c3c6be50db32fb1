"""The order of a round robin's games when there are fewer courts than games in a round.

Whoever plays then rests as long as can be arranged, and at no moment has a team played two games more than another.
Any ``teams // 2`` games in a row (one fewer for an even number) have no team twice, so the list may be cut into pieces
for any number of courts up to that.
"""

from collections.abc import Iterator, Sequence

Pair = tuple[int, int]
"""Two teams by number; the first named begins with the ball, or is at home."""


def fair_order(teams: int) -> tuple[Pair, ...]:
    """Return every game of a single round robin of ``teams`` (2 or more), numbered from 1, in a fair order.

    Even numbers follow the circle method. For odd numbers the circle is not fair while a round is under way; theirs is
    an order of its own, in which the team that rested plays first and the next to rest plays last.
    """
    if teams < 2:
        raise ValueError("a round robin needs two teams at least")
    rounds = circle(teams) if teams % 2 == 0 else _odd_rounds(teams)
    return balance_sides([pair for games in rounds for pair in games])


def circle(teams: int) -> tuple[tuple[Pair, ...], ...]:
    """Return the rounds of the circle method for an even number of teams.

    The last team stays; the others sit in a circle, and those at equal distances from the first of the round meet.
    """
    turning = teams - 1
    return tuple(
        (
            (teams, first),
            *(((first - 1 - far) % turning + 1, (first - 1 + far) % turning + 1) for far in range(1, teams // 2)),
        )
        for first in range(1, teams)
    )


def _odd_rounds(teams: int) -> Iterator[list[Pair]]:
    """Yield rounds in which one team rests: 1, 2 and so on in turn, the last team last of all.

    Teams in a row meet those at the other end of it. The row is cut where the resting team and the last team's opponent
    stand; of its two pieces one has a middle, which meets team 1. Found by search for small numbers and proven for
    each number by the tests.
    """
    last = teams
    for rests in range(1, teams - 1):
        yield [*_inwards(2, rests - 1), *reversed(_inwards(rests + 2, teams - 1)), (rests + 1, last)]
    yield [*_inwards(2, teams - 2), (1, last)]
    yield _inwards(2, teams - 1)


def _inwards(first: int, last: int) -> list[Pair]:
    """Pair the ends of a row of teams, then the next two, down to its middle team, if it has one, with team 1."""
    pairs = [(last - step, first + step) for step in range((last - first + 1) // 2)]
    has_middle = last >= first and (last - first) % 2 == 0
    return [*pairs, ((first + last) // 2, 1)] if has_middle else pairs


def balance_sides(pairs: Sequence[Pair]) -> tuple[Pair, ...]:
    """Name one team of each pair first so that every team is first as often as second, or once more or less.

    Walks along the games from team to team until each is walked once (an Euler tour); teams with an odd number of games
    are joined by a pretended team 0.
    """
    ways: dict[int, list[tuple[int, int]]] = {}
    for number, (one, other) in enumerate(pairs):
        ways.setdefault(one, []).append((other, number))
        ways.setdefault(other, []).append((one, number))
    pretended = len(pairs)
    for team in [team for team in sorted(ways) if len(ways[team]) % 2]:
        ways[team].append((0, pretended))
        ways.setdefault(0, []).append((team, pretended))
        pretended += 1
    first: dict[int, int] = {}
    for start in sorted(ways):
        _walk(start, ways, first)
    return tuple((one, other) if first[number] == one else (other, one) for number, (one, other) in enumerate(pairs))


def _walk(start: int, ways: dict[int, list[tuple[int, int]]], first: dict[int, int]) -> None:
    """Walk unwalked games from a team until none leads on; every one is left by the team named first."""
    here = start
    while True:
        onward = [way for way in ways[here] if way[1] not in first]
        if not onward:
            return
        there, number = onward[0]
        first[number] = here
        here = there
