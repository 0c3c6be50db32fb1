"""Squads larger than the side that plays: who changes in after a score or a time, and how much each child plays."""

from dataclasses import dataclass
from math import gcd

from lessonkit.logistics.words import counted, number, opened, percent


@dataclass(frozen=True, slots=True)
class Substitutes:
    """Who plays in each spell, children of a squad numbered from 1, those longest in play first.

    ``shares`` is each child's part of the spells; ``equal_after`` the spells after which all have played equally long;
    ``longest_wait`` the most spells in a row that a child sits out.
    """

    spells: tuple[tuple[int, ...], ...]
    shares: tuple[float, ...]
    equal_after: int
    longest_wait: int
    says: str


def substitutes(squad: int, playing: int, spells: int, changing: int | None = None) -> Substitutes:
    """Return the spells of a ``squad`` of which ``playing`` play at a time; a spell ends with a score or a time.

    After each spell the ``changing`` who have played longest make room for those who have waited longest; by default
    all who wait come in, or as many as can. Raises ValueError where nobody could change in.
    """
    waiting = squad - playing
    changing = min(playing, waiting) if changing is None else changing
    if playing < 1 or waiting < 0 or spells < 1 or not (0 if waiting == 0 else 1) <= changing <= min(playing, waiting):
        raise ValueError("of a squad some play and the others change in, no more at once than wait or play")
    line = list(range(1, squad + 1))
    shown = []
    for _ in range(spells):
        shown.append(tuple(line[:playing]))
        line = (
            line[changing:playing] + line[playing : playing + changing] + line[playing + changing :] + line[:changing]
        )
    shares = tuple(sum(child in spell for spell in shown) / spells for child in range(1, squad + 1))
    equal_after = squad // gcd(squad, changing) if changing else 1
    longest = -(-waiting // changing) if changing else 0
    return Substitutes(
        tuple(shown), shares, equal_after, longest, _says(squad, playing, changing, equal_after, longest)
    )


def playing_share(squad: int, playing: int) -> float:
    """Return the share of the time that each child of a squad plays in the long run, whatever the changes."""
    return min(1.0, playing / squad)


def spells_in(seconds: int, spell: int) -> int:
    """Return the whole spells in a time; a spell that ends with a score lasts as long as scores take on average."""
    return seconds // spell


def _says(squad: int, playing: int, changing: int, equal_after: int, longest: int) -> str:
    if not changing:
        return f"All {number(squad)} play all the time."
    come = counted(changing, "child changes", "children change")
    return (
        f"{opened(number(playing))} of {number(squad)} play, {come} in after each spell: each child plays "
        f"{percent(playing_share(squad, playing))} of the time and sits out {counted(longest, 'spell')} at the most; "
        f"after {counted(equal_after, 'spell')} all have played equally long."
    )
