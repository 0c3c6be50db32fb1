"""Substitutes, challengers and lines: what part of the time a child plays or waits."""

from collections import deque

import msgspec
import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessonkit.logistics.activity_time import at_once_in_area
from lessonkit.logistics.challenge_courts import challenge_court
from lessonkit.logistics.line_advice import line_advice, longest_line
from lessonkit.logistics.longest_line import LONGEST_LINE
from lessonkit.logistics.substitutes import playing_share, spells_in, substitutes
from lessonkit.records.activity import Activity, Need, Organisation, SquadSize
from lessonkit.records.equipment import Item

from .floors import activity

BALLS = {"ball": Item(id="ball", title="ball", plural="balls")}


@settings(deadline=None)
@given(squad=st.integers(1, 12), playing=st.integers(1, 12), laps=st.integers(1, 2))
def test_everybody_plays_equally_long(squad: int, playing: int, laps: int) -> None:
    """After the spells that are said all shares are playing / squad, and nobody waits longer than is said.

    Source: a line that moves on by the same number each time returns after squad / gcd spells.
    """
    playing = min(playing, squad)
    spells = substitutes(squad, playing, 1).equal_after * laps
    found = substitutes(squad, playing, spells)

    assert pytest.approx([playing_share(squad, playing)] * squad) == list(found.shares)
    assert all(playing == len(set(spell)) for spell in found.spells)
    for child in range(1, squad + 1):
        runs = "".join("x" if child in spell else "." for spell in found.spells * 2).split("x")
        assert max(map(len, runs)) <= found.longest_wait


@pytest.mark.parametrize(("squad", "share"), [(6, 1 / 2), (7, 3 / 7), (8, 3 / 8)])
def test_squads_of_six_to_eight_play_three_a_side(squad: int, share: float) -> None:
    """Three play and those who wait change in after a score (common practice, no source); shares by hand."""
    assert pytest.approx(share) == playing_share(squad, 3)
    assert f"{round(100 * share)}%" in substitutes(squad, 3, 4).says.replace("\u00a0", " ")


def test_substitutes_change_in_turn() -> None:
    """Of five three play, one changes in each time: the longest in play makes room (by hand)."""
    found = substitutes(5, 3, 3, 1)

    assert ((1, 2, 3), (2, 3, 4), (3, 4, 5)) == found.spells
    assert 2 == found.longest_wait and 5 == found.equal_after
    assert "All five play all the time." == substitutes(5, 5, 3).says
    assert 6 == spells_in(13 * 60, 120)


@pytest.mark.parametrize(("squad", "playing", "changing"), [(5, 6, None), (5, 0, None), (5, 3, 3), (5, 3, 0)])
def test_changes_that_cannot_be_are_refused(squad: int, playing: int, changing: int | None) -> None:
    """No more change in than wait, and somebody does."""
    with pytest.raises(ValueError, match="change in"):
        substitutes(squad, playing, 3, changing)


@pytest.mark.parametrize("sides", range(2, 9))
def test_two_in_two_out_is_equal_for_all(sides: int) -> None:
    """A line that moves on by two gives every side 2 / n of the games, whatever the score (played through here)."""
    line, played = deque(range(sides)), [0] * sides
    for _ in range(sides):
        played[line[0]] += 1
        played[line[1]] += 1
        line.rotate(-2)
    found = challenge_court(sides, "two-in-two-out")

    assert pytest.approx([2 / sides] * sides) == [games / sides for games in played]
    assert (2 / sides, 2 / sides, 2 / sides) == (found.weakest, found.mean, found.strongest)
    assert pytest.approx(1 - 2 / sides) == found.waiting_share


@pytest.mark.parametrize("sides", range(2, 9))
def test_stay_on_favours_those_who_win(sides: int) -> None:
    """Without a limit the one who always wins plays all games, the one who always loses one in n - 1 (by hand)."""
    found = challenge_court(sides, "stay-on")

    assert 1 == found.strongest
    assert pytest.approx(1 / (sides - 1)) == found.weakest
    assert sides - 2 == found.longest_wait


@pytest.mark.parametrize(("sides", "most"), [(3, 2), (4, 2), (4, 3), (5, 3), (6, 2)])
@pytest.mark.parametrize("wins", [True, False])
def test_a_limit_on_wins_is_reckoned_as_numpy_does(sides: int, most: int, wins: bool) -> None:
    """The share equals the stationary distribution of the same chain, solved as linear equations by numpy."""
    found = challenge_court(sides, "stay-on", most)

    assert pytest.approx(_share_by_equations(sides, most, wins), abs=1e-6) == (
        found.strongest if wins else found.weakest
    )


def _share_by_equations(sides: int, most: int, star_wins: bool) -> float:
    """Play every line of one star and equal others, and solve for how often each line stands."""
    states = [(place, won) for place in range(sides) for won in range(most)]
    chain = numpy.zeros((len(states), len(states)))
    for row, (place, won) in enumerate(states):
        line = ["star" if here == place else "other" for here in range(sides)]
        for chance, first_wins in _outcomes(line, star_wins):
            chain[row, states.index(_played(line, won, first_wins, most))] += chance
    equations = numpy.vstack([chain.T - numpy.eye(len(states)), numpy.ones(len(states))])
    balance = numpy.linalg.lstsq(equations, numpy.array([0.0] * len(states) + [1.0]), rcond=None)[0]
    return float(sum(share for share, (place, _) in zip(balance, states, strict=True) if place < 2))


def _outcomes(line: list[str], star_wins: bool) -> list[tuple[float, bool]]:
    if "star" in line[:2]:
        return [(1.0, (line[0] == "star") == star_wins)]
    return [(0.5, True), (0.5, False)]


def _played(line: list[str], won: int, first_wins: bool, most: int) -> tuple[int, int]:
    winner, loser = (line[0], line[1]) if first_wins else (line[1], line[0])
    won = won + 1 if first_wins else 1
    if won == most:
        return [*line[2:], loser, winner].index("star"), 0
    return [winner, *line[2:], loser].index("star"), won


def test_challenge_courts_are_said_plainly() -> None:
    """Two sides need no challengers; four wait their turn (by hand)."""
    assert "Two sides on a court play all the games." == challenge_court(2, "stay-on").says
    assert (
        "Four sides on a court: a side plays 50% of the games on average, whatever the score, and waits one game "
        in (challenge_court(4, "two-in-two-out").says.replace("\u00a0", " "))
    )
    with pytest.raises(ValueError, match="two sides"):
        challenge_court(1, "stay-on")


def queue(children: int, at_once: int | None) -> Activity:
    """Return an activity in squads of up to seven with two balls a group."""
    organisation = Organisation(
        form="squads", squad=SquadSize(least=min(5, children), most=7), at_once=at_once, turn_seconds=20
    )
    return msgspec.structs.replace(
        activity(2, 2, 0), organisation=organisation, equipment=(Need(item="ball", count=2, per="group"),)
    )


def test_a_long_line_is_cured_and_the_price_named() -> None:
    """25 children in four squads of up to seven, one moving: six wait for one (by hand).

    Seven groups of up to four need three areas and six balls more; two at once need two balls a group more.
    """
    cures = {cure.kind: cure for cure in line_advice(queue(25, 1), 25, BALLS)}

    assert 6 == longest_line(queue(25, 1), 25)
    assert (3, {"ball": 6}, 3.0) == (
        cures["more-groups"].areas,
        cures["more-groups"].equipment,
        cures["more-groups"].longest_line,
    )
    assert (0, {"ball": 8}, 2.5) == (
        cures["more-at-once"].areas,
        cures["more-at-once"].equipment,
        cures["more-at-once"].longest_line,
    )
    assert {} == cures["task-while-waiting"].equipment
    assert "it takes 6 balls and three areas more." in cures["more-groups"].says


@settings(deadline=None)
@given(children=st.integers(1, 64), at_once=st.integers(1, 4))
def test_every_cure_but_the_task_shortens_the_line_to_three(children: int, at_once: int) -> None:
    """Three waiting for one who moves is the most that common practice accepts (common practice, no source)."""
    for cure in line_advice(queue(children, at_once), children, BALLS):
        assert cure.kind == "task-while-waiting" or cure.longest_line <= LONGEST_LINE
        assert cure.says.endswith(".")


def test_a_short_line_needs_no_advice() -> None:
    """Nobody waits where all move, and three for one is short enough (by hand)."""
    assert () == line_advice(queue(25, None), 25, BALLS)
    assert () == line_advice(queue(25, 2), 25, BALLS)


@pytest.mark.parametrize(("children", "at_once"), [(1, 1), (6, 6), (7, 2), (25, 2)])
def test_a_small_marked_area_takes_six(children: int, at_once: int) -> None:
    """Everybody at once up to six, beyond that two at a time (common practice, no source)."""
    assert at_once == at_once_in_area(children)
