"""Everybody plays everybody: which teams meet when and on which court, in the minutes there are.

Nobody is put out: a plan that the minutes cut short still gives every team as many games as any other, or one fewer.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from lessonkit.logistics.berger import berger_table, without_bye
from lessonkit.logistics.durations import say_duration
from lessonkit.logistics.fair_order import Pair, balance_sides, fair_order
from lessonkit.logistics.words import counted, joined, number, opened


@dataclass(frozen=True, slots=True)
class Game:
    """A game on a court; the team named ``first`` begins with the ball, or is at home."""

    first: int
    second: int
    court: int


@dataclass(frozen=True, slots=True)
class GameRound:
    """The games that run at the same time from ``starts`` (seconds) on, in the order of courts, and who rests."""

    starts: int
    games: tuple[Game, ...]
    resting: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class GamePlan:
    """Rounds of games, teams numbered from 1.

    ``seconds`` is the time from the first start to the last end; ``played`` the games of each team in order; ``says``
    the sentences for the teacher.
    """

    rounds: tuple[GameRound, ...]
    seconds: int
    played: tuple[int, ...]
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GameTimes:
    """How long a game and a change of courts last and how much time there is, in seconds; None for no limit."""

    game: int
    change: int = 0
    available: int | None = None

    def rounds_that_fit(self) -> int | None:
        """Return the rounds for which there is time, None without a limit; the last needs no change after it."""
        if self.available is None:
            return None
        return (self.available + self.change) // (self.game + self.change)

    def lasting(self, rounds: int) -> int:
        """Return the seconds that a number of rounds take with the changes between them."""
        return max(0, rounds * (self.game + self.change) - self.change)

    def longest_game(self, rounds: int) -> int:
        """Return the longest game, in whole 5 seconds, with which so many rounds fit; 0 or less where none does."""
        return 0 if self.available is None else ((self.available + self.change) // rounds - self.change) // 5 * 5


def games_needed(teams: int) -> int:
    """Return the games of a single round robin: every team once against every other."""
    return teams * (teams - 1) // 2


def plan_games(teams: int, courts: int, times: GameTimes) -> GamePlan:
    """Plan games of ``teams`` (2 or more) on ``courts`` (1 or more) for the time there is, or for one round robin.

    Courts beyond half the teams stay empty. With time left over when everybody has met everybody, the games begin again
    with the other team first. Raises ValueError where there is no game, or not time for one.
    """
    if teams < 2 or courts < 1:
        raise ValueError("games need two teams and one court at least")
    whole = -(-games_needed(teams) // min(courts, teams // 2))
    fitting = times.rounds_that_fit()
    if fitting == 0:
        raise ValueError("there is not time for one game")
    wanted = whole if fitting is None else fitting
    slots = _slots(teams, min(courts, teams // 2), wanted)
    rounds = tuple(_on_courts(slots, teams, times))
    count = Counter(team for games in slots for pair in games for team in pair)
    played = tuple(count[team] for team in range(1, teams + 1))
    plan = GamePlan(rounds, times.lasting(wanted), played, ())
    return replace(plan, says=tuple(_say(plan, courts, times, whole)))


def _slots(teams: int, at_once: int, wanted: int) -> list[list[Pair]]:
    """Return the games of each round: the Berger table where all can play at once, else pieces of the fair order."""
    full = at_once == teams // 2
    leg = list(without_bye(berger_table(teams), teams)) if full else _pieces(fair_order(teams), at_once)
    slots: list[list[Pair]] = []
    while len(slots) < wanted:
        turned = (len(slots) // len(leg)) % 2
        slots += [[(two, one) for one, two in games] if turned else list(games) for games in leg]
    return slots[:wanted] if full else _sides_of(slots[:wanted])


def _pieces(games: Sequence[Pair], at_once: int) -> list[tuple[Pair, ...]]:
    return [tuple(games[start : start + at_once]) for start in range(0, len(games), at_once)]


def _sides_of(slots: list[list[Pair]]) -> list[list[Pair]]:
    """Choose afresh who is named first, since a part of a fair order need not be fair in this."""
    turned = iter(balance_sides([pair for games in slots for pair in games]))
    return [[next(turned) for _ in games] for games in slots]


def _on_courts(slots: Iterable[Sequence[Pair]], teams: int, times: GameTimes) -> Iterator[GameRound]:
    """Give every game a court; each in turn takes the one that its teams have been on least."""
    been: Counter[tuple[int, int]] = Counter()
    for place, pairs in enumerate(slots):
        free = list(range(1, len(pairs) + 1))
        games = []
        for one, two in pairs:
            court = min(free, key=lambda court: (been[one, court] + been[two, court], court))
            free.remove(court)
            been.update(((one, court), (two, court)))
            games.append(Game(one, two, court))
        busy = {team for pair in pairs for team in pair}
        resting = tuple(team for team in range(1, teams + 1) if team not in busy)
        yield GameRound(
            times.lasting(place) + (times.change if place else 0), tuple(sorted(games, key=_court)), resting
        )


def _court(game: Game) -> int:
    return game.court


def _say(plan: GamePlan, courts: int, times: GameTimes, whole: int) -> Iterator[str]:
    """Say what the plan comes to: rounds and time, games a team, rests, empty courts, and what a whole one needs."""
    teams, rounds = len(plan.played), len(plan.rounds)
    change = f" and {say_duration(times.change)} to change" if times.change and rounds > 1 else ""
    opening = f"{opened(counted(rounds, 'round'))} of {say_duration(times.game)}{change}"
    yield f"{opening}: {say_duration(plan.seconds)} in all."
    yield _played_says(plan.played)
    most = max((len(each.resting) for each in plan.rounds), default=0)
    if most:
        yield _rests_say(plan, most)
    if courts > teams // 2:
        empty, full = courts - teams // 2, number(teams // 2)
        needless = f"{counted(empty, 'court')} {'is' if empty == 1 else 'are'} not needed"
        yield f"{opened(needless)}: {counted(teams, 'team')} fill {full}."
    yield from _whole_says(plan, times, whole)


def _played_says(played: Sequence[int]) -> str:
    least, most = min(played), max(played)
    if least == most:
        return f"Every team plays {counted(most, 'game')}."
    some, others = sorted((least, most), key=played.count)
    named = [team for team, games in enumerate(played, 1) if games == some]
    who = f"Team {named[0]} plays" if len(named) == 1 else f"Teams {joined(named)} play"
    return f"{who} {counted(some, 'game')}, every other team {number(others)}."


def _rests_say(plan: GamePlan, most: int) -> str:
    longest = max(_longest_rest(plan, team) for team in range(1, len(plan.played) + 1))
    row = f", nobody longer than {counted(longest, 'round')} in a row" if len(plan.rounds) > 1 else ""
    verb = "rests" if most == 1 else "rest"
    return f"{opened(counted(most, 'team'))} {verb} at a time{row}: have something ready for them to do."


def _longest_rest(plan: GamePlan, team: int) -> int:
    longest = run = 0
    for each in plan.rounds:
        run = run + 1 if team in each.resting else 0
        longest = max(longest, run)
    return longest


def _whole_says(plan: GamePlan, times: GameTimes, whole: int) -> Iterator[str]:
    """Say how the plan stands to everybody meeting everybody once."""
    rounds = len(plan.rounds)
    if rounds == whole:
        yield "Everybody meets everybody once."
    elif rounds > whole:
        yield f"Everybody has met everybody after {counted(whole, 'round')}; then the games begin again, sides changed."
    else:
        longest = times.longest_game(whole)
        shorter = f"; with games of {say_duration(longest)} all {number(whole)} fit" if longest > 0 else ""
        yield f"For everybody to meet everybody it takes {counted(whole, 'round')}{shorter}."
