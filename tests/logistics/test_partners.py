"""Everybody gets new partners, and what is said about repeats is true."""

from itertools import combinations

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.circle import circle_table
from lessonkit.logistics.doubles import doubles, opposed, partnered
from lessonkit.logistics.meetings import fault_of, meetings
from lessonkit.logistics.partners import OddRule, partners


@settings(deadline=None)
@given(children=st.integers(2, 40), rounds=st.integers(1, 45))
def test_nobody_has_the_same_partner_twice_while_that_is_possible(children: int, rounds: int) -> None:
    """Of n children each has n - 1 partners, n with one child left out: more rounds repeat, fewer never do.

    Source: the circle method gives a factor of the complete graph a round (Kirkman 1847).
    """
    found = partners(children, rounds, "rotate-in")
    most = children - 1 if children % 2 == 0 else children
    pairs = meetings(found.rounds)

    assert rounds == len(found.rounds)
    assert (rounds <= most) == (max(pairs.values()) == 1 and found.repeats == 0)
    assert max(pairs.values()) - min([*pairs.values(), rounds // most]) <= 1


@settings(deadline=None)
@given(half=st.integers(1, 20))
def test_an_odd_child_is_alone_once_in_a_whole_table(half: int) -> None:
    """In as many rounds as there are children everybody is left over once (by counting)."""
    children = 2 * half + 1
    found = partners(children, children, "teacher-joins")

    assert list(range(1, children + 1)) == sorted(found.alone)
    assert children * half == len(meetings(found.rounds))


@pytest.mark.parametrize("children", [4, 8, 14, 26])
def test_every_round_is_a_perfect_matching(children: int) -> None:
    """Each round pairs everybody and that together they are all pairs there are, as networkx agrees."""
    whole = networkx.complete_graph(range(1, children + 1))
    rounds = circle_table((2,) * (children // 2))

    assert all(networkx.is_perfect_matching(whole, set(pairs)) for pairs in rounds)
    assert {frozenset(edge) for edge in whole.edges} == {frozenset(pair) for pairs in rounds for pair in pairs}


@pytest.mark.parametrize(("children", "rounds"), [(7, 3), (9, 6), (25, 12), (31, 8)])
def test_an_odd_child_makes_a_three_without_repeats(children: int, rounds: int) -> None:
    """25 children are 11 pairs and a three every round (common practice), and nobody meets twice (counted)."""
    found = partners(children, rounds)

    assert fault_of(found.rounds, list(range(1, children + 1))) is None
    assert {(3, *(2,) * ((children - 3) // 2))} == {tuple(sorted(map(len, g), reverse=True)) for g in found.rounds}


@pytest.mark.parametrize(("children", "rounds", "odd"), [(1, 3, "rotate-in"), (5, 0, "larger-group")])
def test_one_child_or_no_round_is_refused(children: int, rounds: int, odd: OddRule) -> None:
    """One child has no partner."""
    with pytest.raises(ValueError, match="two children and one round"):
        partners(children, rounds, odd)


def test_what_is_said_fits() -> None:
    """Two have only each other; eight have seven rounds, after which they begin again (by counting)."""
    assert "Two children have only each other." == partners(2, 5).says
    assert "Nobody has the same partner twice; that is possible for seven rounds." == partners(8, 7).says
    assert partners(8, 8).says.endswith("with 8 children there are no more partners, so the rounds begin again.")


@pytest.mark.parametrize("children", [4, 5, 8, 9, 12, 13, 16, 17, 20, 21, 25, 28, 29])
def test_pure_doubles_partner_once_and_oppose_twice(children: int) -> None:
    """n(n-1)/2 partnerships once each, opponents twice each; it needs n = 0 or 1 modulo 4.

    Source: existence rule and counts of J. D. A. Wiseman's tournament designs, 2003; counted here.
    """
    found = doubles(children, children - (children % 2 == 0))
    pairs = set(combinations(range(1, children + 1), 2))

    assert children % 4 in (0, 1)
    assert (pairs, {1}) == (set(partnered(found.rounds)), set(partnered(found.rounds).values()))
    assert (pairs, {2}) == (set(opposed(found.rounds)), set(opposed(found.rounds).values()))
    assert found.pure


@settings(max_examples=40, deadline=None)
@given(children=st.integers(4, 40), rounds=st.integers(1, 12))
def test_doubles_keep_everybody_playing_or_resting(children: int, rounds: int) -> None:
    """As many play as fours allow, nobody is in two games, and nobody partners twice in a table's length."""
    found = doubles(children, rounds)
    for games, resting in zip(found.rounds, found.resting, strict=True):
        playing = [child for game in games for pair in game for child in pair]

        assert sorted([*playing, *resting]) == list(range(1, children + 1))
        assert children % 4 == len(resting)
    if rounds <= children - 1:
        assert {1} == set(partnered(found.rounds).values())
    assert found.most_opposed == max(opposed(found.rounds).values())
