"""The sequencer against a documented greedy plan and against HiGHS, on invented units of a usual kind, in one run.

Run ``python bench/sequencer.py`` for the table, with ``--growth`` for how it grows with lessons and with the library,
with ``--half`` for the best plan from half of the lessons on. Seconds are those of the processor. Each plan is audited
without a solver.
"""

import argparse
import sys
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

SIZES = ((8, 60), (8, 120), (8, 170), (12, 170), (24, 170))
GROWTH = ((4, 120), (6, 120), (8, 120), (10, 120), (12, 120), (8, 60), (8, 90), (8, 180), (8, 240))


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--effort", type=float, default=60.0, help="deterministic effort for each search")
    parser.add_argument("--highs", type=float, default=0.0, metavar="SECONDS", help="give HiGHS so many seconds too")
    parser.add_argument("--growth", action="store_true")
    parser.add_argument("--half", action="store_true")
    parser.add_argument("--only", nargs=2, type=int, action="append", metavar=("LESSONS", "ELIGIBLE"))
    args = parser.parse_args()
    print(
        "lessons eligible | first plan s | cost  bound  gap %  state       s |"
        " greedy cost  margin % | HiGHS cost  gap %"
    )
    sizes = GROWTH if args.growth else SIZES
    if args.half:
        print(half(12, 170, args.effort))
        return
    for lessons, eligible in args.only or sizes:
        print(line(lessons, eligible, args.effort, args.highs), flush=True)


def line(lessons: int, eligible: int, effort: float, highs: float) -> str:
    """Return a row of the table."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    first: list[float] = []
    began = process_time()

    def watch(_: Progress) -> None:
        first.append(process_time() - began)

    variables = build(problem)
    answer = Search(variables, watch=watch, effort=effort).run()
    seconds = process_time() - began
    measured = audit(schedule(problem, variables, answer.values), problem)
    if not measured.holds or measured.cost != answer.cost:
        raise SystemExit("the audit disagrees with the solver")
    gap = 100 * (answer.cost - answer.bound) / max(1, answer.cost)
    simple = greedy(problem)
    other = (
        f"{simple[1]:11} {100 * (simple[1] - answer.cost) / max(1, simple[1]):9.0f}"
        if simple
        else "       none         -"
    )
    return (
        f"{lessons:7} {eligible:8} | {first[0]:12.2f} | {answer.cost:5} {answer.bound:6} {gap:6.2f}  {answer.status:10}"
        f" {seconds:4.0f} | {other} | {second(problem, highs) if highs else ''}"
    )


def half(lessons: int, eligible: int, effort: float) -> str:
    """Return what planning the second half anew takes, when the first half is taught and an activity drops out."""
    problem = unit_problem(0, lessons=lessons, eligible=eligible)
    variables = build(problem)
    best = schedule(problem, variables, Search(variables, effort=effort).run().values)
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


def second(problem: Problem, seconds: float) -> str:
    """Return what HiGHS reaches in the same rows."""
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
        return f"no plan after {spent:.0f} s"
    cost = round(found.fun) + model.constant
    gap = 100 * (found.fun - found.mip_dual_bound) / max(1, cost)
    return f"{cost:10} {gap:6.2f} after {spent:.0f} s"


if __name__ == "__main__":
    main()
