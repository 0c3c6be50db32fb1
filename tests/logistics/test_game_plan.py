"""Everybody plays everybody, as printed tables have it, and fairly where the minutes or the courts do not reach."""

from collections import Counter
from itertools import combinations
from pathlib import Path

import networkx
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from lessonkit.logistics.berger import berger_table
from lessonkit.logistics.fair_order import balance_sides, circle, fair_order
from lessonkit.logistics.game_plan import GamePlan, GameTimes, games_needed, plan_games

OUTSIDE = Path(__file__).parents[1] / "outside/combinatorial-designs"
TABLES = yaml.safe_load((OUTSIDE / "published-tables.yaml").read_text("utf-8"))
FOUR_AND_ONE = GameTimes(game=240, change=60)


def limited(minutes: int) -> GameTimes:
    """Return games of four minutes with a minute to change, in so many minutes."""
    return GameTimes(game=240, change=60, available=60 * minutes)


@pytest.mark.parametrize("teams", [4, 6, 8, 10, 12])
def test_the_berger_tables_come_out_as_printed(teams: int) -> None:
    """Rounds, their order and who is named first. Source: FIDE Handbook C.05 annex 1, as in the data file."""
    printed = TABLES[f"berger-{teams}"]["rounds"]

    assert printed == [[list(game) for game in games] for games in berger_table(teams)]


@pytest.mark.parametrize("teams", [3, 5, 7, 9, 11])
def test_an_odd_number_plays_the_table_of_the_next_even_one(teams: int) -> None:
    """Whoever would meet the missing team rests. Source: the same tables are headed 3 or 4, 5 or 6 and so on."""
    plan = plan_games(teams, teams // 2, FOUR_AND_ONE)

    for games, played in zip(TABLES[f"berger-{teams + 1}"]["rounds"], plan.rounds, strict=True):
        rests = [min(game) for game in games if max(game) > teams]
        assert rests == list(played.resting)
        assert [game for game in games if max(game) <= teams] == unordered(games, played.games)


def unordered(printed: list[list[int]], games: tuple[object, ...]) -> list[list[int]]:
    """Return the games as pairs, in the order in which the printed round has them."""
    pairs = [[game.first, game.second] for game in games]  # type: ignore[attr-defined]
    return sorted(pairs, key=printed.index)


def test_the_circle_table_comes_out_as_printed() -> None:
    """Eight entrants by the circle method. Source: a bridge players' answer of 2014, as in the data file."""
    printed = TABLES["circle-8"]["rounds"]

    assert printed == [[list(game) for game in games] for games in circle(8)]


@pytest.mark.parametrize(
    ("teams", "rounds", "games"),
    # Source: guide to round robins citing FIDE C.05 annex 1 (even numbers); n(n-1)/2 and n rounds (odd).
    [(4, 3, 6), (6, 5, 15), (8, 7, 28), (10, 9, 45), (12, 11, 66), (14, 13, 91), (5, 5, 10), (7, 7, 21)],
)
def test_rounds_and_games_are_counted_as_published(teams: int, rounds: int, games: int) -> None:
    """A single round robin has so many rounds and games."""
    plan = plan_games(teams, teams // 2, FOUR_AND_ONE)

    assert (rounds, games) == (len(plan.rounds), games_needed(teams))
    assert games == sum(len(each.games) for each in plan.rounds)


@pytest.mark.parametrize("teams", range(2, 33))
def test_the_fair_order_is_fair_at_every_moment(teams: int) -> None:
    """All pairs once; teams // 2 games in a row (one fewer if even) share no team; never two games more than another.

    Source: that this can be had is known for asynchronous round robins (Suksompong 2016, from memory); checked here by
    counting every prefix and every stretch.
    """
    order = fair_order(teams)
    stretch = max(1, teams // 2 - (teams % 2 == 0))
    played = Counter(dict.fromkeys(range(1, teams + 1), 0))

    assert set(combinations(range(1, teams + 1), 2)) == {tuple(sorted(pair)) for pair in order}
    assert len(order) == games_needed(teams)
    for place, pair in enumerate(order):
        played.update(pair)
        busy = [team for game in order[place : place + stretch] for team in game]
        assert len(set(busy)) == len(busy)
        assert max(played.values()) - min(played.values()) <= 1


@given(pairs=st.lists(st.tuples(st.integers(1, 12), st.integers(1, 12)).filter(lambda p: p[0] != p[1]), max_size=60))
def test_sides_are_balanced_for_any_games(pairs: list[tuple[int, int]]) -> None:
    """Every team is named first as often as second, or once more or less; no game is lost.

    Source: an Euler tour enters a vertex as often as it leaves it.
    """
    balanced = balance_sides(pairs)
    first = Counter(pair[0] for pair in balanced)
    second = Counter(pair[1] for pair in balanced)

    assert [set(pair) for pair in pairs] == [set(pair) for pair in balanced]
    assert all(abs(first[team] - second[team]) <= 1 for team in {*first, *second})


@given(teams=st.integers(2, 16), courts=st.integers(1, 10), minutes=st.integers(4, 90))
def test_every_plan_is_fair(teams: int, courts: int, minutes: int) -> None:
    """Nobody is in two places, all play equally often to within one game, and the minutes are kept."""
    plan = plan_games(teams, courts, limited(minutes))

    assert plan.seconds <= 60 * minutes < plan.seconds + 300
    assert max(plan.played) - min(plan.played) <= 1
    check_rounds(plan, teams, courts)


def check_rounds(plan: GamePlan, teams: int, courts: int) -> None:
    """Check that every round holds every team once, playing or resting, on courts that exist."""
    for number, each in enumerate(plan.rounds):
        there = [team for game in each.games for team in (game.first, game.second)]
        assert list(range(1, teams + 1)) == sorted([*there, *each.resting])
        assert [game.court for game in each.games] == sorted({game.court for game in each.games})
        assert max(game.court for game in each.games) <= courts
        assert each.starts == 300 * number


@given(teams=st.integers(2, 12), courts=st.integers(1, 8))
def test_without_a_limit_everybody_meets_everybody_in_as_few_rounds_as_can_be(teams: int, courts: int) -> None:
    """The games form the complete graph; the rounds are the games over the courts, rounded up.

    Source: networkx's complete graph; no round holds more games than courts or than half the teams.
    """
    plan = plan_games(teams, courts, FOUR_AND_ONE)
    met = networkx.Graph([(game.first, game.second) for each in plan.rounds for game in each.games])
    fewest = -(-games_needed(teams) // min(courts, teams // 2))

    assert networkx.is_isomorphic(networkx.complete_graph(teams), met)
    assert (fewest, len(plan.rounds)) == (len(plan.rounds), fewest)
    assert "Everybody meets everybody once." in plan.says


@pytest.mark.parametrize("teams", range(6, 13, 2))
def test_no_team_is_kept_on_one_court(teams: int) -> None:
    """On no court does a team play more than three times.

    Source: teams - 1 games on teams / 2 courts make two on some court unavoidable; one more is allowed.
    """
    plan = plan_games(teams, teams // 2, FOUR_AND_ONE)
    times = Counter(
        (team, game.court) for each in plan.rounds for game in each.games for team in (game.first, game.second)
    )

    assert 2 <= max(times.values()) <= 3


def test_a_plan_says_what_it_comes_to() -> None:
    """Six teams on two courts in half an hour, counted by hand: (30 + 1) / (4 + 1) rounds of two games."""
    plan = plan_games(6, 2, limited(30))

    assert (
        "Six rounds of 4\u00a0min and 1\u00a0min to change: 29\u00a0min in all.",
        "Every team plays four games.",
        "Two teams rest at a time, nobody longer than one round in a row: have something ready for them to do.",
        "For everybody to meet everybody it takes eight rounds; with games of 2\u00a0min\u00a050\u00a0s all eight fit.",
    ) == plan.says


def test_unequal_play_is_named() -> None:
    """Seven teams, six rounds: whoever has not rested yet has played once more (seven rests would be needed)."""
    plan = plan_games(7, 3, limited(30))

    assert "Team 4 plays six games, every other team five." in plan.says
    assert (5, 5, 5, 6, 5, 5, 5) == plan.played


def test_time_left_over_begins_again_with_sides_changed() -> None:
    """Two teams with time for six games play six, each beginning three; the other courts are not needed."""
    plan = plan_games(2, 3, limited(30))

    assert [1, 2, 1, 2, 1, 2] == [each.games[0].first for each in plan.rounds]
    assert "Two courts are not needed: two teams fill one." in plan.says
    assert "Everybody has met everybody after one round; then the games begin again, sides changed." in plan.says


@pytest.mark.parametrize(("teams", "courts", "minutes"), [(1, 1, 30), (0, 1, 30), (4, 0, 30), (4, 2, 3)])
def test_where_there_is_no_game_there_is_no_plan(teams: int, courts: int, minutes: int) -> None:
    """One team, no court, or less time than one game."""
    with pytest.raises(ValueError, match=r"at least|not time"):
        plan_games(teams, courts, limited(minutes))


def test_six_courts_hold_36() -> None:
    """Six side-by-side courts hold 36 children: 12 teams of three, all in play (common practice, no source)."""
    plan = plan_games(36 // 3, 6, limited(30))

    assert {6} == {len(each.games) for each in plan.rounds}
    assert {()} == {each.resting for each in plan.rounds}
