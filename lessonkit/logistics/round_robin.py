"""A round robin on the courts and in the minutes there are: who plays whom, where and when, and who rests."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lessonkit.logistics.berger import Meeting
from lessonkit.logistics.court_slots import court_slots
from lessonkit.logistics.words import counted, number, opened


class CannotPlayError(Exception):
    """There is no such round robin; the message is a sentence for the teacher."""


@dataclass(frozen=True, slots=True)
class Game:
    """A game on a court (from 1): the side named first begins."""

    court: int
    sides: Meeting


@dataclass(frozen=True, slots=True)
class Fixtures:
    """The games slot by slot.

    ``resting`` are the sides without a game in each slot, ``starts`` the seconds at which slots begin. ``played`` is
    how many games each side (from 1) has; ``complete`` whether everybody meets everybody.
    """

    slots: tuple[tuple[Game, ...], ...]
    resting: tuple[tuple[int, ...], ...]
    starts: tuple[int, ...]
    played: tuple[int, ...]
    complete: bool
    says: str

    @property
    def equal_after(self) -> int:
        """The last slot, from 1, after which every side has played equally often; 0 where there is none."""
        played: Counter[int] = Counter(dict.fromkeys(range(1, len(self.played) + 1), 0))
        last = 0
        for slot, games in enumerate(self.slots, 1):
            played.update(side for game in games for side in game.sides)
            if len(set(played.values())) == 1:
                last = slot
        return last


def fixtures(sides: int, courts: int, game: int, change: int, seconds: int | None = None) -> Fixtures:
    """Return a round robin of ``sides`` on ``courts``, games of ``game`` seconds with ``change`` between.

    ``seconds`` is the time there is; None for as long as everybody needs to meet everybody. Where not all games fit,
    those are kept that let all sides play equally often, or as nearly as can be. Raises CannotPlayError where nothing
    can be played.
    """
    if sides < 2:
        raise CannotPlayError("A round robin needs two sides at least.")
    if courts < 1:
        raise CannotPlayError("A round robin needs a court at least.")
    if game < 1 or change < 0:
        raise CannotPlayError("A game takes a second at least, and a change takes no less than no time.")
    slots = court_slots(sides, min(courts, sides // 2))
    if seconds is not None:
        fitting = max(0, (seconds + change) // (game + change))
        if not fitting:
            raise CannotPlayError("Not even one game fits in the time there is.")
        slots = slots[:fitting]
    games = tuple(_courts(slots))
    return _fixtures(sides, games, tuple(place * (game + change) for place in range(len(games))))


def _fixtures(sides: int, slots: tuple[tuple[Game, ...], ...], starts: tuple[int, ...]) -> Fixtures:
    counts = Counter(side for games in slots for game in games for side in game.sides)
    played = tuple(counts[side] for side in range(1, sides + 1))
    busy = [{side for game in games for side in game.sides} for games in slots]
    resting = tuple(tuple(side for side in range(1, sides + 1) if side not in each) for each in busy)
    complete = sum(played) == sides * (sides - 1)
    return Fixtures(slots, resting, starts, played, complete, _says(sides, slots, played, complete))


def _courts(slots: Sequence[Sequence[Meeting]]) -> Iterator[tuple[Game, ...]]:
    """Give each slot's games courts, so that sides come to different ones."""
    been: Counter[tuple[int, int]] = Counter()
    for meetings in slots:
        free = list(range(1, len(meetings) + 1))
        games = []
        for meeting in meetings:
            court = min(free, key=lambda each: (been[meeting[0], each] + been[meeting[1], each], each))
            free.remove(court)
            been.update((side, court) for side in meeting)
            games.append(Game(court, meeting))
        yield tuple(sorted(games, key=lambda game: game.court))


def _says(sides: int, slots: Sequence[Sequence[Game]], played: Sequence[int], complete: bool) -> str:
    count = sum(len(games) for games in slots)
    opening = f"{opened(counted(count, 'game'))} in {counted(len(slots), 'round')}"
    least, most = min(played), max(played)
    if complete:
        return f"{opening}: everybody meets everybody once."
    share = (
        f"every side plays {number(least)}" if least == most else f"each side plays {number(least)} or {number(most)}"
    )
    if most - least > 1:
        share = f"a side plays {number(least)} at the least and {number(most)} at the most"
    return f"{opening} of the {sides * (sides - 1) // 2} in which everybody would meet everybody; {share}."
