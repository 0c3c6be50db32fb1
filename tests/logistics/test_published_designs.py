"""Tables of partners, groups and orders hold against what others printed, computed or can be counted.

Sources: the data files in tests/outside/combinatorial-designs name theirs; networkx, GAP and plain exhaustive search
calculate independently of the project.
"""

import json
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from itertools import combinations, permutations
from pathlib import Path

import networkx
import pytest
import yaml
from networkx.algorithms.isomorphism import vf2pp_is_isomorphic

from lessonkit.logistics.circle import circle_table
from lessonkit.logistics.doubles import doubles, opposed, partnered
from lessonkit.logistics.latin_squares import balanced_square, is_balanced, is_latin
from lessonkit.logistics.meetings import fault_of, meetings, never_met, repeated
from lessonkit.logistics.regroup import regroup

OUTSIDE = Path(__file__).parents[1] / "outside/combinatorial-designs"
TABLES = yaml.safe_load((OUTSIDE / "published-tables.yaml").read_text("utf-8"))
GOLF = json.loads((OUTSIDE / "golf-8x4x9.json").read_text("utf-8"))
Rounds = Sequence[Sequence[Sequence[int]]]


def published(name: str) -> list[list[list[int]]]:
    """Return a printed table with its members as numbers, from whichever letter or number it begins."""
    rounds = TABLES[name]["rounds"]
    return [[[_number(member) for member in group] for group in groups] for groups in rounds]


def _number(member: str | int) -> int:
    return member if isinstance(member, int) else ord(member.lower()) - ord("a") + 1


def resolutions(name: str) -> list[Rounds]:
    """Return every table of a kind that GAP found, one of each up to renaming."""
    lines = (OUTSIDE / "gap-resolutions.txt").read_text("utf-8").splitlines()
    return [json.loads(line.removeprefix(f"{name} ")) for line in lines if line.startswith(f"{name} ")]


@pytest.mark.parametrize(
    ("rounds", "children"),
    [
        (published("schoolgirls-a"), range(1, 16)),
        (published("schoolgirls-c"), range(1, 16)),
        (published("fours-of-16"), range(16)),
        (published("threes-of-9"), range(1, 10)),
        (published("circle-8"), range(1, 9)),
        (GOLF, range(1, 33)),
    ],
    ids=["15 in threes (a)", "15 in threes (c)", "16 in fours", "9 in threes", "8 in pairs", "32 in fours"],
)
def test_printed_tables_are_found_right(rounds: list[list[list[int]]], children: range) -> None:
    """Every round holds everybody once and nobody meets twice, as their publishers say."""
    assert fault_of(rounds, list(children)) is None


def test_the_table_printed_wrong_is_refused() -> None:
    """Of fifteen schoolgirls four pairs meet twice and four never; changing b and c on the fourth day mends it.

    Source: the pairs and the repair stand with the table in the data file.
    """
    wrong = published("schoolgirls-wrong")
    swapped = {2: 3, 3: 2}
    mended = [
        [[swapped.get(girl, girl) for girl in group] for group in groups] if day == 3 else groups
        for day, groups in enumerate(wrong)
    ]

    assert "These meet more than once: 2 and 5, 2 and 7, 3 and 13, 3 and 14." == fault_of(wrong, list(range(1, 16)))
    assert ((2, 5), (2, 7), (3, 13), (3, 14)) == repeated(wrong)
    assert ((2, 13), (2, 14), (3, 5), (3, 7)) == never_met(wrong, range(1, 16))
    assert fault_of(mended, list(range(1, 16))) is None


@pytest.mark.parametrize(
    ("sizes", "rounds", "pairs"),
    # Sources: 15 schoolgirls, 9 in threes with its fourth week, 16 in fours (all 120 pairs), 32 in fours for 9 weeks.
    [((3,) * 5, 7, 105), ((3,) * 3, 4, 36), ((4,) * 4, 5, 120), ((4,) * 8, 9, 432)],
)
def test_our_tables_reach_what_is_published(sizes: tuple[int, ...], rounds: int, pairs: int) -> None:
    """As many rounds as the published tables have, with as many different pairs meeting."""
    found = regroup(sizes, rounds)

    assert fault_of(found.rounds, list(range(1, sum(sizes) + 1))) is None
    assert pairs == len(meetings(found.rounds))


@pytest.mark.parametrize(("kind", "children"), [("pairs6", 6), ("pairs8", 8)])
def test_our_rounds_of_pairs_are_among_all_there_are(kind: str, children: int) -> None:
    """Renamed in one of all ways, the circle's table is exactly one of those that GAP's DESIGN package lists."""
    round_of = {pair: number for number, pairs in enumerate(circle_table((2,) * (children // 2))) for pair in pairs}
    found = [table for table in resolutions(kind) if _can_be_renamed(table, round_of, children)]

    assert 1 == len(found)


def _can_be_renamed(table: Rounds, round_of: dict[tuple[int, ...], int], children: int) -> bool:
    """Tell whether some renaming keeps together the pairs of every round."""
    return any(
        all(
            len({round_of[(min(names[a - 1], names[b - 1]), max(names[a - 1], names[b - 1]))] for a, b in pairs}) == 1
            for pairs in table
        )
        for names in permutations(range(1, children + 1))
    )


@pytest.mark.parametrize(("kind", "sizes", "rounds"), [("triples9", (3,) * 3, 4), ("quads16", (4,) * 4, 5)])
def test_our_rounds_of_groups_are_among_all_there_are(kind: str, sizes: tuple[int, ...], rounds: int) -> None:
    """A whole table has the form of the only one that GAP's DESIGN package lists (networkx compares them)."""
    ours = _graph(regroup(sizes, rounds).rounds)

    assert [True] == [vf2pp_is_isomorphic(_graph(table), ours, node_label="kind") for table in resolutions(kind)]


def _graph(rounds: Rounds) -> networkx.Graph:
    """Join every child to its groups and every group to its round."""
    graph = networkx.Graph()
    for number, groups in enumerate(rounds):
        graph.add_node(("round", number), kind="round")
        for place, group in enumerate(groups):
            graph.add_node(("group", number, place), kind="group")
            graph.add_edge(("round", number), ("group", number, place))
            for child in group:
                graph.add_node(("child", child), kind="child")
                graph.add_edge(("child", child), ("group", number, place))
    return graph


@pytest.mark.parametrize("order", [4, 6])
def test_balanced_squares_come_out_as_printed(order: int) -> None:
    """Sources: a Williams design of order 4 of a statistics package; order 6 after Bradley 1958 (data file)."""
    printed = TABLES[f"balanced-{order}"]["rounds"]

    assert is_balanced(printed)
    assert sorted(printed) == sorted(list(row) for row in balanced_square(order))


@pytest.mark.parametrize("order", [4, 6])
def test_squares_called_balanced_that_are_not_are_refused(order: int) -> None:
    """Both are Latin, but neighbours repeat unevenly. Source: the two squares of the data file."""
    printed = TABLES[f"unbalanced-{order}"]["rounds"]

    assert is_latin(printed)
    assert not is_balanced(printed)


def test_an_odd_number_of_stations_needs_two_squares() -> None:
    """No square of order 3 is balanced (all 12 are tried), two of them together are.

    Source: exhaustive search; that an odd number needs 2n rows is stated in texts on balanced Latin squares.
    """
    rows = list(permutations((1, 2, 3)))
    squares = [square for square in permutations(rows, 3) if is_latin(square)]

    assert 12 == len(squares)
    assert not any(is_balanced(square) for square in squares)
    assert is_balanced(balanced_square(3)) and 6 == len(balanced_square(3))


def test_the_printed_doubles_for_eight_are_as_even_as_ours() -> None:
    """Eight children, seven rounds: everybody partners everybody once and opposes everybody twice (data file)."""
    printed = [tuple(((a, b), (c, d)) for (a, b), (c, d) in _games(sets)) for sets in published("doubles-8")]
    ours = doubles(8, 7)

    for rounds in (printed, ours.rounds):
        assert {1} == set(partnered(rounds).values()) and 28 == len(partnered(rounds))
        assert {2} == set(opposed(rounds).values()) and 28 == len(opposed(rounds))


def _games(pairs: list[list[int]]) -> Iterator[tuple[list[int], list[int]]]:
    yield from ((pairs[place], pairs[place + 1]) for place in range(0, len(pairs), 2))


def test_there_are_315_line_ups_and_720_schedules_for_eight() -> None:
    """Every schedule for eight is found by trying all line-ups, and ours is one of them.

    Source: both counts stand with the printed table's note and are counted again here.
    """
    line_ups = {games: _counts(games) for games in _line_ups()}
    found = {frozenset(schedule) for schedule in _schedules(line_ups, (), 0, 0)}
    ours = frozenset(frozenset(frozenset(map(frozenset, game)) for game in games) for games in doubles(8, 7).rounds)

    assert 315 == len(line_ups)
    assert 720 == len(found)
    assert ours in found


LineUp = frozenset[frozenset[frozenset[int]]]
PLACES = {frozenset(pair): 4**place for place, pair in enumerate(combinations(range(1, 9), 2))}
"""A digit of base four for every pair, so that a number counts how often each pair comes, up to three times."""
TOP = sum(2 * place for place in PLACES.values())


def _line_ups() -> Iterator[LineUp]:
    """Yield every way in which eight children play two games two against two."""
    for first in combinations(range(2, 9), 3):
        court, other = (1, *first), tuple(child for child in range(2, 9) if child not in first)
        for one in _splits(court):
            for two in _splits(other):
                yield frozenset((one, two))


def _splits(four: tuple[int, ...]) -> Iterator[frozenset[frozenset[int]]]:
    for partner in four[1:]:
        pair = frozenset((four[0], partner))
        yield frozenset((pair, frozenset(four) - pair))


def _counts(games: LineUp) -> tuple[int, int]:
    """Return the partners and the opponents of a line-up as numbers with a digit for each pair."""
    partners = sum(PLACES[pair] for game in games for pair in game)
    against = sum(PLACES[frozenset((a, b))] for one, two in games for a in one for b in two)
    return partners, against


def _schedules(
    line_ups: dict[LineUp, tuple[int, int]], chosen: tuple[LineUp, ...], partners: int, against: int
) -> Iterator[tuple[LineUp, ...]]:
    """Yield every choice of seven line-ups: child 1 with 2, then with 3 ...; partners differ, opponents come twice."""
    if len(chosen) == 7:
        yield chosen
        return
    wanted = PLACES[frozenset((1, len(chosen) + 2))]
    for games, (new_partners, new_against) in line_ups.items():
        if not new_partners & wanted or new_partners & partners:
            continue
        total = against + new_against
        if not total & (total << 1) & TOP:
            yield from _schedules(line_ups, (*chosen, games), partners | new_partners, total)


@pytest.mark.needs_gap
def test_gap_counts_every_pair_once() -> None:
    """GAP counts the pairs of our whole tables: all there are, each once.

    Source: GAP's own Combinations and Collected; n(n-1)/2 pairs of n children.
    """
    if not shutil.which("gap"):
        pytest.skip("GAP is not installed")
    tables = [(15, (3,) * 5, 7), (16, (4,) * 4, 5), (21, (3,) * 7, 10), (27, (3,) * 9, 13)]
    lines = []
    for _, sizes, rounds in tables:
        groups = [list(group) for groups in regroup(sizes, rounds).rounds for group in groups]
        pairs = f"Collected(Concatenation(List({groups}, group -> Combinations(group, 2))))"
        lines.append(f'p := {pairs};; Print("found ", Length(p), " ", Set(List(p, x -> x[2])), "\\n");')
    done = subprocess.run(
        ["gap", "-q", "--bare"],
        input="\n".join([*lines, "QUIT;"]),
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )

    assert [f"found {n * (n - 1) // 2} [ 1 ]" for n, _, _ in tables] == done.stdout.split("\n")[: len(tables)]
