"""Small years made by a seed, and every schedule of one."""

from collections.abc import Iterator
from itertools import product
from random import Random

from lessonkit.planning.year.problem import Block, Span, YearProblem, YearSchedule
from lessonkit.planning.year.weights import PRICES


def year_problem(seed: int, *, rows: int = 2, units: int = 3, weeks: int = 9) -> YearProblem:
    """Return a year with every kind of demand and wish, in some of its units."""
    rng = Random(seed)
    blocks = [_block(rng, number, number // units, weeks, units) for number in range(rows * units)]
    open_weeks = frozenset(range(weeks)) - {rng.randrange(weeks)}
    return YearProblem(
        weeks=weeks,
        rows=rows,
        blocks=tuple(blocks),
        open_weeks=tuple(open_weeks for _ in range(rows)),
        stretches=(Span(0, weeks // 2), Span(weeks // 2 + 1, weeks - 1)),
        quiet=frozenset({rng.randrange(weeks)} if rng.random() < 0.3 else ()),
        setups=3,
        weights={wish: rng.choice((0, price, 2 * price)) for wish, price in PRICES.items()},
    )


def _block(rng: Random, number: int, row: int, weeks: int, units: int) -> Block:
    length = rng.choice((1, 2, 2, 3))
    first_of_row = number == row * units
    return Block(
        id=f"unit {number}",
        rows=(row,),
        spans=tuple(Span(week, week + length - 1) for week in range(weeks - length + 1)),
        load=rng.choice((10, 15, 25)),
        families=frozenset({rng.randrange(2)}),
        setups=frozenset({rng.randrange(3)}),
        covers=frozenset({rng.randrange(4)}),
        follows=() if first_of_row or rng.random() < 0.6 else (number - 1,),
        optional=rng.random() < 0.2,
        not_before=rng.choice((None, None, None, 2)),
        over_by=rng.choice((None, None, None, weeks - 3)),
        week_of=None,
        was=rng.choice((None, rng.randrange(weeks - length + 1))),
    )


def all_schedules(problem: YearProblem) -> Iterator[YearSchedule]:
    """Yield every way of giving the units weeks, or none."""
    for spans in product(*((*block.spans, None) for block in problem.blocks)):
        yield YearSchedule(spans)
