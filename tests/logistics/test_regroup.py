"""New groups every round: tables are right, bounds hold, and what is called proven is."""

from collections.abc import Iterator
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.cyclic_tables import cyclic_table
from lessonkit.logistics.finite_field import field_of
from lessonkit.logistics.group_tables import group_table
from lessonkit.logistics.groups import share_out
from lessonkit.logistics.meetings import Round, fault_of, repeats
from lessonkit.logistics.regroup import most_rounds, regroup, repeats_bound


@pytest.mark.parametrize("order", [2, 3, 4, 5, 7, 8, 9, 11, 13, 16, 23, 25, 27])
def test_fields_obey_their_laws(order: int) -> None:
    """Sums and products commute, distribute, and every number but 0 divides (axioms of a field)."""
    field = field_of(order)
    assert field is not None
    numbers = range(order)

    assert all(set(numbers) == set(field.products[a]) for a in numbers if a)
    assert all(set(numbers) == set(field.sums[a]) for a in numbers)
    for a, b in combinations(numbers, 2):
        assert field.sums[a][b] == field.sums[b][a] and field.products[a][b] == field.products[b][a]
        for c in (1, order - 1, order // 2):
            assert field.products[a][field.sums[b][c]] == field.sums[field.products[a][b]][field.products[a][c]]


@pytest.mark.parametrize("order", [0, 1, 6, 10, 12, 15, 18])
def test_there_is_no_field_of_other_orders(order: int) -> None:
    """A finite field has a power of a prime as its order (Galois)."""
    assert field_of(order) is None


@pytest.mark.parametrize(
    ("sizes", "rounds"),
    [
        # A whole table lets everybody meet everybody: (n - 1) / (size - 1) rounds (by counting).
        ((3,) * 3, 4),
        ((4,) * 4, 5),
        ((5,) * 5, 6),
        ((3,) * 9, 13),
        # As many rounds as groups, some groups one child short.
        ((4, 4, 4, 4, 3, 3, 3), 7),
        ((4, *(3,) * 7), 8),
        ((5, *(4,) * 6), 7),
    ],
)
def test_arithmetic_gives_as_many_rounds_as_expected(sizes: tuple[int, ...], rounds: int) -> None:
    """Transversal designs over a field: one round for each of its numbers, and more inside the columns."""
    table = group_table(sizes)

    assert rounds == len(table)
    assert fault_of(table, list(range(1, sum(sizes) + 1))) is None
    assert {sizes} == {tuple(sorted(map(len, groups), reverse=True)) for groups in table}


@pytest.mark.parametrize(
    ("sizes", "rounds"),
    # 15 and 21 in threes and 28 in fours meet all others, 24 all but one or two (by counting).
    [
        ((3,) * 5, 7),
        ((3, 3, 3, 3, 2), 7),
        ((3,) * 7, 10),
        ((3,) * 8, 11),
        ((3, 3, 3, 3, 3, 3, 2, 2), 11),
        ((4,) * 6, 7),
        ((4, 4, 4, 3, 3, 3), 7),
        ((4,) * 7, 9),
    ],
)
def test_turned_first_rounds_never_repeat(sizes: tuple[int, ...], rounds: int) -> None:
    """Tables from a first round that is turned: nobody meets twice, and no table has more rounds."""
    table = cyclic_table(sizes)

    assert rounds == len(table)
    assert fault_of(table, list(range(1, sum(sizes) + 1))) is None
    assert {sizes} == {tuple(sorted(map(len, groups), reverse=True)) for groups in table}


@settings(max_examples=20, deadline=None)
@given(children=st.integers(1, 31), size=st.integers(1, 6), rounds=st.integers(1, 5))
def test_every_round_is_a_division_of_the_class(children: int, size: int, rounds: int) -> None:
    """Whatever is asked for, everybody is in one group a round, and repeats are no fewer than the bound."""
    sizes = share_out(children, -(-children // size))
    found = regroup(sizes, rounds)

    assert rounds == len(found.rounds)
    for groups in found.rounds:
        assert list(range(1, children + 1)) == sorted(child for group in groups for child in group)
        assert sorted(sizes) == sorted(map(len, groups))
    assert repeats(found.rounds) == found.repeats >= found.bound
    assert found.repeats or rounds <= most_rounds(sizes)


@pytest.mark.parametrize(
    ("sizes", "rounds"),
    [((2, 2), 4), ((3, 2), 2), ((3, 2), 3), ((3, 3), 2), ((3, 3), 3), ((2, 2, 2), 5), ((2, 2, 1), 6), ((4, 2), 2)],
)
def test_no_table_at_all_has_fewer_repeats(sizes: tuple[int, ...], rounds: int) -> None:
    """Every table of a few children is tried: none is below the bound, and none is better than ours."""
    best = min(repeats(table) for table in _tables(sizes, rounds))

    assert repeats_bound(sizes, rounds) <= best == regroup(sizes, rounds).repeats


def _tables(sizes: tuple[int, ...], rounds: int) -> Iterator[tuple[Round, ...]]:
    """Yield tables up to their order: the first round as it comes, the others in any way."""
    every = sorted({tuple(sorted(groups)) for groups in _divisions(tuple(range(1, sum(sizes) + 1)), sizes)})
    chosen: list[Round] = [every[0]]

    def more(start: int) -> Iterator[tuple[Round, ...]]:
        if len(chosen) == rounds:
            yield tuple(chosen)
            return
        for place in range(start, len(every)):
            chosen.append(every[place])
            yield from more(place)
            chosen.pop()

    return more(0)


def _divisions(children: tuple[int, ...], sizes: tuple[int, ...]) -> Iterator[Round]:
    if not sizes:
        yield ()
        return
    for group in combinations(children, sizes[0]):
        left = tuple(child for child in children if child not in group)
        for others in _divisions(left, sizes[1:]):
            yield (group, *others)


@pytest.mark.parametrize(
    ("sizes", "rounds", "says"),
    [
        ((4,) * 4, 5, "Nobody meets the same child twice in five rounds; more than five such rounds cannot be had."),
        # 8 rounds of 15 meetings are 15 more than the 105 pairs of 15 children (by counting).
        (
            (3,) * 5,
            8,
            "In eight rounds two children who have met before meet again 15 times; by counting, it cannot be fewer.",
        ),
        # The upper bound for eight foursomes is 10 rounds (CSPLib problem 10).
        ((4,) * 8, 3, "Nobody meets the same child twice in three rounds; more than 10 such rounds cannot be had."),
        ((1,), 3, "Nobody meets the same child twice in three rounds."),
        (
            (2,),
            2,
            "In two rounds two children who have met before meet again once; by counting, it cannot be fewer.",
        ),
    ],
)
def test_the_bound_is_said(sizes: tuple[int, ...], rounds: int, says: str) -> None:
    """The sentence tells what is proven."""
    assert says == regroup(sizes, rounds).says


@pytest.mark.parametrize(("sizes", "rounds"), [((), 1), ((0, 2), 1), ((2, 2), 0)])
def test_no_groups_are_refused(sizes: tuple[int, ...], rounds: int) -> None:
    """A group needs a child, a table a round."""
    with pytest.raises(ValueError, match="a child each"):
        regroup(sizes, rounds)
