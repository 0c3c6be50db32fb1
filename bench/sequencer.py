"""The sequencer against a documented greedy plan and against HiGHS, on invented units of a usual kind, in one run.

Run ``python bench/sequencer.py`` for all parts, or name some: ``first`` (the first plan), ``proof`` (time to the proof,
gap after 60 and 120 seconds, margin over the greedy), ``half`` (the second half planned anew), ``highs`` (both solvers
on the same rows), ``lessons`` and ``library`` (how it grows). Seconds are those of the processor. Each plan is audited
without a solver.
"""

import argparse
import sys
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from bench.greedy import greedy
from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.order import schedule
from lessonkit.planning.problem import Bar, Problem
from lessonkit.planning.search import Search
from lessonkit.planning.solve import Progress
from tests.planning.synthetic import unit_problem

PROOFS = ((8, 60), (8, 170), (12, 170), (24, 170))
LESSONS = ((4, 120), (8, 120), (12, 120), (16, 120), (24, 120))
LIBRARY = ((8, 60), (8, 120), (8, 170), (8, 250))
SMALL = ((4, 60), (6, 60), (8, 60))
PARTS = ("first", "proof", "half", "highs", "lessons", "library")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("parts", nargs="*", metavar="PART", help=f"{', '.join(PARTS)} (default: all)")
    parser.add_argument(
        "--effort", type=float, default=600.0, help="deterministic effort for each proof, about seconds"
    )
    parser.add_argument("--highs", type=float, default=300.0, metavar="SECONDS", help="time for HiGHS, each unit")
    parser.add_argument("--only", nargs=2, type=int, action="append", metavar=("LESSONS", "ELIGIBLE"))
    args = parser.parse_args()
    wanted = args.parts or PARTS
    if set(wanted) - set(PARTS):
        parser.error(f"the parts are {', '.join(PARTS)}")
    import ortools.sat.python.cp_model  # noqa: F401  so that loading it counts in no row

    for part in PARTS:
        if part in wanted:
            measure(part, args)


def measure(part: str, args: argparse.Namespace) -> None:
    """Print one part."""
    if part == "half":
        print(half(12, 170, args.effort), flush=True)
    elif part in ("lessons", "library"):
        growth(part, LESSONS if part == "lessons" else LIBRARY)
    else:
        print(HEAD if part == "proof" else f"{part}:")
        for lessons, eligible in args.only or (SMALL if part == "highs" else PROOFS):
            if part == "proof":
                print(line(lessons, eligible, args.effort)[0], flush=True)
            elif part == "first":
                print(f"{lessons} x {eligible}: {first_plan(lessons, eligible)}", flush=True)
            else:
                print(f"{lessons} x {eligible}: {both(lessons, eligible, args.effort, args.highs)}", flush=True)


def growth(part: str, sizes: tuple[tuple[int, int], ...]) -> None:
    """Print how the search grows, as a table and as bars."""
    print(f"growth with the {part}, an effort of 30 each", HEAD, sep="\n")
    found = [line(*size, 30.0) for size in sizes]
    print("\n".join(row for row, _ in found), *bars(sizes, [seconds for _, seconds in found]), sep="\n", flush=True)


HEAD = "lessons eligible | cost  bound  gap %  state       s | gap at 60 s, 120 s | greedy cost  margin %"


def bars(sizes: tuple[tuple[int, int], ...], seconds: list[float]) -> list[str]:
    """Return a bar for each size, as long as its seconds, the longest of 50 signs."""
    unit = max(seconds) / 50
    rows = zip(sizes, seconds, strict=True)
    return [
        f"{f'{lessons} x {eligible}':>9} {'#' * round(each / unit)} {each:.0f} s" for (lessons, eligible), each in rows
    ]


class _EnoughError(Exception):
    """The first plan has been heard of."""


def first_plan(lessons: int, eligible: int) -> str:
    """Return how soon a first valid plan is there, from the numbers of the problem on."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    began = process_time()
    heard: list[Progress] = []

    def watch(progress: Progress) -> None:
        heard.append(progress)
        raise _EnoughError

    with suppress(_EnoughError):
        Search(build(problem), watch=watch).run()
    seconds, simple_began = process_time() - began, process_time()
    simple = greedy(problem)
    other = (
        f"the greedy's costs {simple[1]}, after {process_time() - simple_began:.2f} s" if simple else "no greedy plan"
    )
    return f"costs {heard[0].cost}, after {seconds:.2f} s; {other}"


def line(lessons: int, eligible: int, effort: float) -> tuple[str, float]:
    """Return a row of the table, and the seconds to its end."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    began = process_time()
    variables = build(problem)
    heard: list[tuple[float, float]] = []
    search = Search(variables, watch=lambda news: heard.append((process_time() - began, 100 * news.gap)), effort=effort)
    answer = search.run()
    seconds = process_time() - began
    measured = audit(schedule(problem, variables, answer.values), problem)
    if not measured.holds or measured.cost != answer.cost:
        raise SystemExit("the audit disagrees with the solver")
    last = 100 * (answer.cost - answer.bound) / max(1, answer.cost)
    gaps = " ".join(f"{gap_at(heard, seconds, last, moment):8.2f}" for moment in (60.0, 120.0))
    simple = greedy(problem)
    other = f"{simple[1]:11} {100 * (simple[1] - answer.cost) / answer.cost:9.0f}" if simple else "no greedy plan"
    return (
        f"{lessons:7} {eligible:8} | {answer.cost:5} {answer.bound:6} {last:6.2f}  {answer.status:10} {seconds:5.0f} |"
        f" {gaps} | {other}"
    ), seconds


def gap_at(heard: list[tuple[float, float]], seconds: float, last: float, moment: float) -> float:
    """Return the gap that was last heard of by a moment; the bound is only heard of together with a better plan."""
    return last if seconds <= moment else [gap for when, gap in heard if when <= moment][-1]


def both(lessons: int, eligible: int, effort: float, highs: float) -> str:
    """Return what both solvers find in the same rows, and how their times compare where both prove."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    began = process_time()
    answer = Search(build(problem), effort=effort).run()
    seconds = process_time() - began
    cost, gap, spent = second(problem, highs)
    if answer.status == "proven" and cost is not None and gap == 0 and cost != answer.cost:
        raise SystemExit("the two solvers prove different costs")
    ours = f"{answer.cost} {answer.status} after {seconds:.1f} s"
    theirs = "no plan" if cost is None else f"{cost}, gap {gap:.2f} %,"
    return f"{ours}; HiGHS {theirs} after {spent:.1f} s, {spent / seconds:.1f} times as long"


def half(lessons: int, eligible: int, effort: float) -> str:
    """Return what planning the second half anew takes, when the first half is taught and an activity drops out."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    variables = build(problem)
    best = schedule(problem, variables, Search(variables, effort=10.0).run().values)
    middle = lessons // 2
    gone = best.lessons[middle][1].activity
    frames = tuple(
        replace(frame, taught=best.lessons[number]) if number < middle else frame
        for number, frame in enumerate(problem.lessons)
    )
    choices = tuple(
        replace(choice, bars=(Bar("equipment", frozenset(range(lessons))),)) if number == gone else choice
        for number, choice in enumerate(problem.choices)
    )
    again = replace(problem, lessons=frames, choices=choices)
    began = process_time()
    answer = Search(build(again), effort=effort).run()
    return f"half of {lessons} lessons taught: {answer.status}, {process_time() - began:.1f} s"


def second(problem: Problem, seconds: float) -> tuple[int | None, float, float]:
    """Return the cost that HiGHS reaches in the same rows, its gap in percent, and its seconds."""
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_matrix

    model = build(problem).model
    size = len(model.variables)
    factors_of_cost = np.zeros(size)
    for number, factor in model.cost.items():
        factors_of_cost[number] = factor
    entries = [(row, number, factor) for row, each in enumerate(model.rows) for factor, number in each.terms]
    rows, columns, factors = zip(*entries, strict=True)
    matrix = csr_matrix((factors, (rows, columns)), shape=(len(model.rows), size))
    low = [-np.inf if row.least is None else row.least for row in model.rows]
    high = [np.inf if row.most is None else row.most for row in model.rows]
    began = process_time()
    found = milp(
        factors_of_cost,
        constraints=LinearConstraint(matrix, low, high),
        bounds=Bounds([each.least for each in model.variables], [each.most for each in model.variables]),
        integrality=np.ones(size),
        options={"mip_rel_gap": 0, "time_limit": seconds},
    )
    spent = process_time() - began
    if found.x is None:
        return None, 100.0, spent
    cost = round(found.fun) + model.constant
    return cost, 100 * round(found.fun - found.mip_dual_bound) / max(1, cost), spent


if __name__ == "__main__":
    main()
