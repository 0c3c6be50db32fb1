"""New partners every round: nobody has the same partner twice while that is possible."""

from dataclasses import dataclass
from typing import Literal

from lessonkit.logistics.circle import circle_round
from lessonkit.logistics.meetings import Round, repeats
from lessonkit.logistics.regroup import regroup
from lessonkit.logistics.words import counted

OddRule = Literal["larger-group", "rotate-in", "teacher-joins"]
"""What an odd child does: makes a pair a three, changes in from the side, or has the teacher for a partner."""


@dataclass(frozen=True, slots=True)
class Partners:
    """Rounds of pairs, children numbered from 1.

    ``alone`` has the odd child of every round (none for an even class, or where that child makes a three);
    ``repeats`` counts meetings that are not the first of their pair; ``says`` tells whether fewer could be had.
    """

    rounds: tuple[Round, ...]
    alone: tuple[int, ...]
    repeats: int
    says: str


def partners(children: int, rounds: int, odd: OddRule = "larger-group") -> Partners:
    """Pair ``children`` (2 or more) anew for some rounds (1 or more), by the circle method.

    Past the last round in which everybody can meet somebody new the rounds begin again from the first. With an odd
    class and a three, a meeting in the three counts like any other. Raises ValueError for fewer than two children or no
    round.
    """
    if children < 2 or rounds < 1:
        raise ValueError("partners need two children and one round at least")
    if children % 2 and odd == "larger-group":
        found = regroup((3, *(2,) * ((children - 3) // 2)), rounds)
        return Partners(found.rounds, (), found.repeats, found.says)
    even = children + children % 2
    table = [circle_round(even, number % (even - 1)) for number in range(rounds)]
    pairs = tuple(tuple(pair for pair in groups if pair[1] <= children) for groups in table)
    alone = tuple(pair[0] for groups in table for pair in groups if pair[1] > children)
    return Partners(pairs, alone, repeats(pairs), _says(children, rounds, even - 1))


def _says(children: int, rounds: int, most: int) -> str:
    if children == 2:
        return "Two children have only each other."
    if rounds <= most:
        return f"Nobody has the same partner twice; that is possible for {counted(most, 'round')}."
    return (
        f"Nobody has the same partner twice in the first {counted(most, 'round')}; "
        f"with {children} children there are no more partners, so the rounds begin again."
    )
