"""Courts with challengers waiting: who stays on, and what part of the time a side plays.

"Stay on" lets the winner of a game play the next challenger; "two in, two out" changes both sides after every game,
so that everybody plays equally often whatever the score.
"""

from dataclasses import dataclass
from typing import Final, Literal

from lessonkit.logistics.words import counted, opened, percent

ChallengeRule = Literal["stay-on", "two-in-two-out"]
_State = tuple[int, int]
_STEPS: Final = 1000


@dataclass(frozen=True, slots=True)
class ChallengeCourt:
    """What part of the games a side plays on one court.

    ``mean`` over all sides; ``weakest`` for a side that loses every game, ``strongest`` for one that wins every game;
    ``longest_wait`` in games, for the side that loses.
    """

    mean: float
    weakest: float
    strongest: float
    longest_wait: int
    says: str

    @property
    def waiting_share(self) -> float:
        """The part of the games that an average side waits."""
        return 1 - self.mean


def challenge_court(sides: int, rule: ChallengeRule, most_wins: int | None = None) -> ChallengeCourt:
    """Return the shares on a court that ``sides`` (2 or more) share, two of them playing at a time.

    With ``stay-on`` a winner stays, but goes after ``most_wins`` games in a row (2 or more) where that is given; then
    both leave, and two come in. The other sides are taken to win every second game between them. Raises ValueError for
    fewer sides or wins.
    """
    if sides < 2 or (most_wins is not None and most_wins < 2):
        raise ValueError("a court needs two sides, and a winner who stays plays two games at least")
    mean = 2 / sides
    longest = _longest_wait(sides, rule)
    weakest = strongest = mean
    if rule == "stay-on":
        weakest, strongest = (_share(sides, most_wins, always_wins=wins) for wins in (False, True))
    return ChallengeCourt(mean, weakest, strongest, longest, _says(sides, rule, (weakest, strongest), longest))


def _share(sides: int, most_wins: int | None, *, always_wins: bool) -> float:
    """Return the share of games of a side that wins, or loses, every game: the balance of a Markov chain.

    A state is the side's place in the line, the two on court first, and the games in a row that the first has won.
    Half of the chance stays where it is at every step, which leaves the balance alone and lets it settle.
    """
    chances: dict[_State, float] = {(0, 0): 1.0}
    for _ in range(_STEPS):
        following: dict[_State, float] = {}
        for state, chance in chances.items():
            following[state] = following.get(state, 0.0) + chance / 2
            outcomes = _outcomes(state, always_wins)
            for first_wins in outcomes:
                after = _after(state, sides, most_wins, first_wins)
                following[after] = following.get(after, 0.0) + chance / 2 / len(outcomes)
        chances = following
    return round(sum(chance for (place, _), chance in chances.items() if place < 2), 9)


def _outcomes(state: _State, always_wins: bool) -> tuple[bool, ...]:
    """Return whether the first on court wins: for sure where the side plays, one way or the other where it waits."""
    place = state[0]
    return (always_wins == (place == 0),) if place < 2 else (True, False)


def _after(state: _State, sides: int, most_wins: int | None, first_wins: bool) -> _State:
    place, wins = state
    wins = wins + 1 if first_wins else 1
    won = place < 2 and first_wins == (place == 0)
    if most_wins is not None and wins >= most_wins:
        if place < 2:
            return (sides - 1 if won else sides - 2), 0
        return place - 2, 0
    wins = wins if most_wins is not None else 0
    if place < 2:
        return (0 if won else sides - 1), wins
    return place - 1, wins


def _longest_wait(sides: int, rule: ChallengeRule) -> int:
    """Return the games that a losing side sits out at the most."""
    waiting = sides - 2
    return waiting if rule == "stay-on" else -(-waiting // 2)


def _says(sides: int, rule: ChallengeRule, shares: tuple[float, float], longest: int) -> str:
    if sides == 2:
        return "Two sides on a court play all the games."
    share = f"{opened(counted(sides, 'side'))} on a court: a side plays {percent(2 / sides)} of the games on average"
    wait = f"and waits {counted(longest, 'game')} at the most"
    if rule == "two-in-two-out":
        return f"{share}, whatever the score, {wait}."
    return (
        f"{share}; one that always wins plays {percent(shares[1])}, one that always loses {percent(shares[0])} {wait}."
    )
