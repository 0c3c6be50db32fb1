"""The games of a round robin shared over courts: no court idle for long, and nobody ever far behind the others."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations

from lessonkit.logistics.berger import Meeting, berger_table, without_bye

Slot = tuple[Meeting, ...]
"""Games played at the same time."""


def court_slots(sides: int, courts: int) -> tuple[Slot, ...]:
    """Return the games of every slot: a whole Berger round where the courts suffice, else games chosen fairly.

    ``courts`` is at least 1. Two ways of choosing are tried, and the one with fewer slots is kept, or else the one in
    which the numbers of games that sides have played lie closer together all along.
    """
    rounds = without_bye(berger_table(sides), sides)
    if courts >= sides // 2:
        return rounds
    ways = (tuple(_round_by_round(rounds, courts)), tuple(_turn_by_turn(rounds, courts, sides)))
    return min(ways, key=lambda slots: (len(slots), unevenness(slots, sides)))


def unevenness(slots: Sequence[Slot], sides: int) -> int:
    """Return by how many games two sides differ at the most, if play may stop after any slot."""
    played: Counter[int] = Counter()
    worst = 0
    for games in slots:
        played.update(side for meeting in games for side in meeting)
        counts = [played[side] for side in range(1, sides + 1)]
        worst = max(worst, max(counts) - min(counts))
    return worst


def _round_by_round(rounds: Sequence[Slot], courts: int) -> Iterator[Slot]:
    """Play rounds in order; a slot filled from two rounds keeps back games of the first that leave the second free."""
    left: list[Meeting] = []
    for number, games in enumerate(rounds):
        following = rounds[number + 1] if number + 1 < len(rounds) else ()
        if left:
            free = _free(games, left)[: courts - len(left)]
            yield (*left, *free)
            left = [meeting for meeting in games if meeting not in free]
        else:
            left = list(games)
        while len(left) >= courts:
            kept = _kept_back(left, len(left) - courts, courts, following)
            yield tuple(meeting for meeting in left if meeting not in kept)
            left = list(kept)
    if left:
        yield tuple(left)


def _kept_back(left: Sequence[Meeting], over: int, courts: int, following: Slot) -> Slot:
    """Return the games that wait: where they share a slot with the following round, those that block it least."""
    if over >= courts or not following:
        return tuple(left[len(left) - over :])
    return max(combinations(left, over), key=lambda each: len(_free(following, each)))


def _free(games: Sequence[Meeting], others: Sequence[Meeting]) -> list[Meeting]:
    busy = {side for meeting in others for side in meeting}
    return [meeting for meeting in games if not busy & {*meeting}]


def _turn_by_turn(rounds: Sequence[Slot], courts: int, sides: int) -> Iterator[Slot]:
    """Play whatever lets those play who have played least and waited longest."""
    left = [meeting for games in rounds for meeting in games]
    played: Counter[int] = Counter()
    waited: Counter[int] = Counter()
    while left:
        games = _fairest(left, courts, played, waited)
        busy = {side for meeting in games for side in meeting}
        played.update(busy)
        for side in range(1, sides + 1):
            waited[side] = 0 if side in busy else waited[side] + 1
        left = [meeting for meeting in left if meeting not in games]
        yield games


def _fairest(left: Sequence[Meeting], courts: int, played: Counter[int], waited: Counter[int]) -> Slot:
    """Choose games without a common side, as many as there are courts if there are."""
    remaining = Counter(side for meeting in left for side in meeting)

    def turn(meeting: Meeting) -> tuple[int, int, int, int]:
        counts = [played[side] for side in meeting]
        return max(counts), sum(counts), -sum(waited[s] for s in meeting), -sum(remaining[s] for s in meeting)

    order = sorted(left, key=turn)
    best: Slot = ()
    for start in range(len(order)):
        games: list[Meeting] = []
        for meeting in order[start:]:
            if len(games) < courts and _free([meeting], games):
                games.append(meeting)
        best = max(best, tuple(games), key=len)
        if len(best) == courts:
            break
    return best
