"""Rounds of groups in which nobody meets twice, from one round that is turned: the tables that arithmetic misses.

The children stand in rings of ``turn`` children each, and a few in the middle. From one round to the next everybody on
the rings moves one place; those in the middle stay. The first rounds were found by a constraint solver, and whether
nobody meets twice can be counted; tables of these sizes are known to exist (Kirkman 1850 for 15 in threes).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from lessonkit.logistics.meetings import Round


@dataclass(frozen=True, slots=True)
class _Starter:
    """The groups of the first round, children from 0, ring after ring and the ``middle`` last.

    Each group of ``whole`` gives, turned all the way, the groups of one more round. ``removable`` children, counted
    from the last, never meet each other, so that they may be absent.
    """

    size: int
    turn: int
    rings: int
    middle: int
    first: tuple[tuple[int, ...], ...]
    whole: tuple[tuple[int, ...], ...] = ()
    removable: int = 1

    @property
    def children(self) -> int:
        return self.turn * self.rings + self.middle


_STARTERS: Final = (
    _Starter(3, 7, 2, 1, ((0, 10, 14), (1, 2, 4), (3, 8, 11), (5, 7, 9), (6, 12, 13))),
    _Starter(
        3,
        7,
        3,
        0,
        ((0, 8, 18), (1, 13, 20), (2, 4, 5), (3, 9, 17), (6, 10, 16), (7, 11, 12), (14, 15, 19)),
        ((0, 7, 16), (0, 9, 20), (0, 10, 15)),
    ),
    _Starter(
        3,
        11,
        2,
        2,
        ((0, 1, 16), (2, 14, 20), (3, 5, 10), (4, 13, 22), (6, 9, 12), (7, 15, 17), (8, 21, 23), (11, 18, 19)),
        removable=2,
    ),
    _Starter(
        4,
        7,
        3,
        3,
        ((0, 11, 19, 21), (1, 2, 6, 17), (3, 12, 16, 22), (4, 7, 9, 10), (5, 13, 15, 23), (8, 14, 18, 20)),
        removable=3,
    ),
    _Starter(
        4,
        9,
        3,
        1,
        (
            (0, 1, 9, 12),
            (2, 8, 20, 24),
            (3, 7, 18, 26),
            (4, 6, 10, 11),
            (5, 15, 22, 27),
            (13, 17, 21, 23),
            (14, 16, 19, 25),
        ),
    ),
)


def cyclic_table(sizes: Sequence[int]) -> tuple[Round, ...]:
    """Return rounds in which nobody meets twice, for groups of the given sizes (largest first); none if none is known.

    Groups of one size, or some of them a child short. Children are numbered from 1 in the order of the first round.
    """
    if not sizes or max(sizes) - min(sizes) > 1:
        return ()
    missing = sum(size < max(sizes) for size in sizes)
    for starter in _STARTERS:
        if starter.size == max(sizes) and starter.children == sum(sizes) + missing and missing <= starter.removable:
            return _numbered(tuple(_rounds(starter)), starter.children - missing)
    return ()


def _rounds(starter: _Starter) -> Iterator[Round]:
    for step in range(starter.turn):
        yield tuple(_turned(group, step, starter) for group in starter.first)
    for group in starter.whole:
        yield tuple(_turned(group, step, starter) for step in range(starter.turn))


def _turned(group: tuple[int, ...], step: int, starter: _Starter) -> tuple[int, ...]:
    ringed = starter.turn * starter.rings
    return tuple(
        child if child >= ringed else child - child % starter.turn + (child + step) % starter.turn for child in group
    )


def _numbered(rounds: tuple[Round, ...], children: int) -> tuple[Round, ...]:
    """Leave out the children beyond ``children`` and number the others from 1 in the order of the first round."""
    kept = [[[child for child in group if child < children] for group in groups] for groups in rounds]
    first = sorted(kept[0], key=len, reverse=True)
    names = {child: number for number, child in enumerate((child for group in first for child in group), 1)}
    return tuple(tuple(sorted(tuple(sorted(names[child] for child in group)) for group in groups)) for groups in kept)
