"""Rounds of groups in which nobody meets twice, by arithmetic: as many rounds as there are groups, where it works.

Children stand in columns, one column for every place in a group, one row for every group. In round r the group b takes
from column i the child of row b + i * r; two children of different columns meet once and only once, because their
columns' difference divides (transversal design over a field). Where the columns themselves divide into groups, rounds
inside them follow, and with numbers that are powers of the group's size everybody meets everybody.
"""

from collections.abc import Sequence

from lessonkit.logistics.finite_field import field_of
from lessonkit.logistics.meetings import Round

_Cell = tuple[int, int]


def group_table(sizes: Sequence[int]) -> tuple[Round, ...]:
    """Return rounds in which nobody meets twice, for groups whose ``sizes`` (largest first) differ by one at most.

    Children are numbered from 1 in the order of the first round. Returns no rounds where the arithmetic does not work:
    fewer groups than children in a group, or a number of groups that is no power of a prime.
    """
    if not sizes or max(sizes) - min(sizes) > 1 or max(sizes) > len(sizes):
        return ()
    rounds = _cells(len(sizes), max(sizes))
    last = max(sizes) - 1
    absent = {(last, row) for row in range(sum(size == max(sizes) for size in sizes), len(sizes))}
    kept = [[[cell for cell in group if cell not in absent] for group in groups] for groups in rounds]
    if absent:
        kept = kept[: len(sizes)]
    return _numbered(kept)


def _cells(groups: int, size: int) -> list[list[list[_Cell]]]:
    """Return the rounds of full groups, each child by its (column, row)."""
    field = field_of(groups)
    if size == 1:
        return [[[(0, row)] for row in range(groups)]]
    if field is None:
        return []
    rounds = [
        [[(column, field.sums[row][field.products[column][turn]]) for column in range(size)] for row in range(groups)]
        for turn in range(groups)
    ]
    return rounds + _inside_columns(groups, size)


def _inside_columns(rows: int, size: int) -> list[list[list[_Cell]]]:
    """Return the rounds in which each column divides into groups of its own; none where it does not."""
    if rows % size:
        return []
    groups = rows // size
    inner = _cells(groups, size) if groups >= size else []
    if groups == 1:
        inner = [[[(column, 0) for column in range(size)]]]
    return [
        [[(column, place * groups + row) for place, row in group] for column in range(size) for group in round_]
        for round_ in inner
    ]


def _numbered(rounds: list[list[list[_Cell]]]) -> tuple[Round, ...]:
    if not rounds:
        return ()
    order = {cell: number for number, cell in enumerate((cell for group in rounds[0] for cell in group), 1)}
    return tuple(tuple(sorted(tuple(sorted(order[cell] for cell in group)) for group in groups)) for groups in rounds)
