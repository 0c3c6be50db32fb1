"""Two against two with new partners every round: each child partners every other once and opposes each about twice.

A pure schedule, partner once and opponent twice, exists where the number of partnerships is even: for 4, 8, 12 ...
children, and for 5, 9, 13 ... with one child resting each round (whist tournaments, Moore 1896). For other classes the
partners come from the circle method, and the pairs that play each other are chosen to meet as evenly as may be.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from lessonkit.logistics.circle import circle_table
from lessonkit.logistics.words import counted, number, opened

Pair = tuple[int, int]
Game = tuple[Pair, Pair]
"""Two partners against two partners."""


@dataclass(frozen=True, slots=True)
class Doubles:
    """Rounds of games two against two, children numbered from 1, and who rests in each round.

    ``most_opposed`` is how often two children play against each other at the most; ``pure`` whether nobody partners
    anybody twice and, in a whole schedule, opposes everybody twice.
    """

    rounds: tuple[tuple[Game, ...], ...]
    resting: tuple[tuple[int, ...], ...]
    most_opposed: int
    pure: bool
    says: str


_STARTERS: Final[dict[int, tuple[tuple[int, int, int, int], ...]]] = {
    4: ((0, 3, 1, 2),),
    5: ((1, 4, 2, 3),),
    8: ((0, 1, 3, 7), (2, 5, 4, 6)),
    12: ((0, 11, 1, 3), (2, 9, 6, 7), (4, 10, 5, 8)),
    13: ((1, 12, 5, 8), (2, 11, 3, 10), (4, 9, 6, 7)),
    16: ((0, 15, 1, 4), (2, 11, 5, 12), (3, 8, 6, 10), (7, 9, 13, 14)),
    17: ((1, 16, 5, 12), (2, 15, 7, 10), (3, 14, 4, 13), (6, 11, 8, 9)),
    20: ((0, 19, 5, 6), (1, 9, 7, 17), (2, 14, 4, 10), (3, 8, 15, 18), (11, 13, 12, 16)),
    21: ((1, 15, 3, 18), (2, 4, 12, 17), (5, 9, 10, 19), (6, 16, 7, 20), (8, 11, 13, 14)),
    25: ((1, 8, 10, 24), (2, 22, 7, 17), (3, 12, 6, 9), (4, 5, 16, 18), (11, 23, 15, 19), (13, 21, 14, 20)),
    28: (
        (0, 27, 4, 17),
        (1, 10, 6, 8),
        (2, 25, 14, 26),
        (3, 9, 11, 18),
        (5, 22, 12, 23),
        (7, 15, 20, 21),
        (13, 16, 19, 24),
    ),
    29: tuple(tuple(20**step * place % 29 for place in (1, 2, 5, 15)) for step in range(7)),
}
"""The games of the first round by number of children, from 0: two partners, then their opponents.

Everybody but the last child of an even class moves one place a round. Found by a constraint solver; that each child
partners and opposes the others as often as it should can be counted.
"""


def doubles(children: int, rounds: int) -> Doubles:
    """Return games two against two for some rounds (1 or more) of ``children`` (4 or more).

    Where more rounds are asked for than a schedule has, it begins again. Raises ValueError for fewer.
    """
    if children < 4 or rounds < 1:
        raise ValueError("two against two needs four children and one round at least")
    pure = children in _STARTERS or children == 9
    table = _pure(children) if pure else tuple(_even(children))
    chosen = tuple(table[turn % len(table)] for turn in range(rounds))
    playing = [{child for game in games for pair in game for child in pair} for games in chosen]
    resting = tuple(tuple(child for child in range(1, children + 1) if child not in each) for each in playing)
    most = max(opposed(chosen).values())
    return Doubles(chosen, resting, most, pure and rounds <= len(table), _says(children, rounds, len(table), most))


def partnered(rounds: Sequence[Sequence[Game]]) -> Counter[Pair]:
    """Return how often each two children are partners."""
    return Counter(_ordered(*pair) for games in rounds for game in games for pair in game)


def opposed(rounds: Sequence[Sequence[Game]]) -> Counter[Pair]:
    """Return how often each two children are opponents."""
    return Counter(
        _ordered(one, other) for games in rounds for first, second in games for one in first for other in second
    )


def _ordered(one: int, other: int) -> Pair:
    return (min(one, other), max(one, other))


def _pure(children: int) -> tuple[tuple[Game, ...], ...]:
    if children == 9:
        return tuple(_nine(turn) for turn in range(9))
    ring = children if children % 2 else children - 1

    def name(child: int, turn: int) -> int:
        return children if child == ring and ring < children else (child + turn) % ring + 1

    return tuple(
        tuple(
            sorted(
                _game((name(a, turn), name(b, turn)), (name(c, turn), name(d, turn)))
                for a, b, c, d in _STARTERS[children]
            )
        )
        for turn in range(ring)
    )


def _nine(turn: int) -> tuple[Game, ...]:
    """Return a round for nine: children stand in a square of three by three that is moved along both its sides."""
    across, down = divmod(turn, 3)

    def name(place: Pair) -> int:
        return (place[0] + across) % 3 * 3 + (place[1] + down) % 3 + 1

    first = (((0, 1), (0, 2), (1, 0), (2, 0)), ((1, 1), (2, 2), (1, 2), (2, 1)))
    return tuple(_game((name(a), name(b)), (name(c), name(d))) for a, b, c, d in first)


def _game(first: Pair, second: Pair) -> Game:
    one, other = sorted((_ordered(*first), _ordered(*second)))
    return one, other


def _even(children: int) -> Iterator[tuple[Game, ...]]:
    """Yield rounds from the circle's pairs: those who met least play, those rest who rested least."""
    sizes = [2] * (children // 2) + [1] * (children % 2)
    met: Counter[Pair] = Counter()
    rested: Counter[int] = Counter()
    for groups in circle_table(sizes):
        pairs = [(pair[0], pair[1]) for pair in groups if len(pair) == 2]
        rested.update(group[0] for group in groups if len(group) == 1)
        if len(pairs) % 2:
            out = min(pairs, key=lambda pair: (rested[pair[0]] + rested[pair[1]], pair))
            rested.update(out)
            pairs.remove(out)
        games = _matched(pairs, met)
        for first, second in games:
            met.update(_ordered(one, other) for one in first for other in second)
        yield tuple(sorted(games))


def _matched(pairs: list[Pair], met: Counter[Pair]) -> list[Game]:
    """Let pairs play each other so that few oppose each other again; then change opponents as long as it helps."""
    games = [(pairs[place], pairs[place + 1]) for place in range(0, len(pairs), 2)]
    improved = True
    while improved:
        improved = False
        for here, there in combinations(range(len(games)), 2):
            (a, b), (c, d) = games[here], games[there]
            ways = (((a, b), (c, d)), ((a, c), (b, d)), ((a, d), (b, c)))
            best = min(ways, key=lambda way: _worth(way, met))
            if _worth(best, met) < _worth(ways[0], met):
                games[here], games[there] = best
                improved = True
    return [_game(*game) for game in games]


def _worth(games: Sequence[Game], met: Counter[Pair]) -> int:
    return sum((2 * met[_ordered(a, b)] + 1) for first, second in games for a in first for b in second)


def _says(children: int, rounds: int, whole: int, most: int) -> str:
    rest = children % 4
    resting = f" {opened(counted(rest, 'child rests', 'children rest'))} each round." if rest else ""
    if rounds > whole:
        return (
            f"After {counted(whole, 'round')} everybody has partnered everybody, and the rounds begin again.{resting}"
        )
    times = "once" if most == 1 else "twice" if most == 2 else f"{number(most)} times"
    least = "; no whole schedule has less than twice" if most > 2 and rounds == whole else ""
    return f"Nobody partners anybody twice, and nobody plays against anybody more than {times}{least}.{resting}"
