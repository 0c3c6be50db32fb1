"""The sequencer against a documented greedy plan and against HiGHS, on invented units of a usual kind, in one run.

Run ``python bench/sequencer.py`` for all parts, or name some: ``first`` (the first plan), ``proof`` (time to the proof,
gap after 60 and 120 seconds, margin over the greedy), ``half`` (the second half planned anew), ``flagship`` (the unit
that ships with the project: first plan, proof, second half planned anew as a teacher does it), ``highs`` (both solvers
on the same rows), ``lessons`` and ``library`` (how it grows). Seconds are those of the processor. Each plan is audited
without a solver.
"""

import argparse
import sys
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from time import process_time

import msgspec

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from bench.greedy import greedy
from lessonkit.loading.folder import load_folder
from lessonkit.planning.audit import audit
from lessonkit.planning.build import build
from lessonkit.planning.order import schedule
from lessonkit.planning.problem import Bar, Problem
from lessonkit.planning.replan import replan
from lessonkit.planning.search import EFFORT, Search
from lessonkit.planning.sequence import Options, Planned, sequence
from lessonkit.planning.setup import set_up
from lessonkit.planning.solve import Progress
from lessonkit.records.library import Library
from lessonkit.records.plan import Happened, Plan
from tests.planning.synthetic import unit_problem

PROOFS = ((8, 60), (8, 170), (12, 170), (24, 170))
LESSONS = ((4, 120), (8, 120), (12, 120), (16, 120), (24, 120))
LIBRARY = ((8, 60), (8, 120), (8, 170), (8, 250))
SMALL = ((4, 60), (4, 120), (6, 60), (6, 120), (8, 60))
PARTS = ("first", "proof", "half", "flagship", "highs", "lessons", "library")
CURRICULUM = Path(__file__).resolve().parent.parent / "curriculum"
FLAGSHIP = ("paddles-grade-3", "grade-3-heron")


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
        print(half(12, 170), flush=True)
    elif part == "flagship":
        flagship()
    elif part in ("lessons", "library"):
        growth(part, LESSONS if part == "lessons" else LIBRARY)
    else:
        print(HEAD if part == "proof" else f"{part}:")
        for lessons, eligible in args.only or (SMALL if part == "highs" else PROOFS):
            problem = unit_problem(0, lessons=lessons, eligible=eligible)
            if part == "proof":
                print(line(problem, eligible, args.effort)[0], flush=True)
            elif part == "first":
                print(f"{lessons} x {eligible}: {first_plan(problem)}", flush=True)
            else:
                print(f"{lessons} x {eligible}: {both(problem, args.effort, args.highs)}", flush=True)


def growth(part: str, sizes: tuple[tuple[int, int], ...]) -> None:
    """Print how the search grows, as a table and as bars."""
    print(f"growth with the {part}, an effort of {EFFORT:.0f} each", HEAD, sep="\n")
    times: list[float] = []
    for lessons, eligible in sizes:
        row, seconds = line(unit_problem(0, lessons=lessons, eligible=eligible), eligible, EFFORT)
        times.append(seconds)
        print(row, flush=True)
    print("\n".join(bars(sizes, times)), flush=True)


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


def first_plan(problem: Problem) -> str:
    """Return how soon a first valid plan is there, from the numbers of the problem on."""
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


def line(problem: Problem, eligible: int, effort: float) -> tuple[str, float]:
    """Return a row of the table, and the seconds to its end."""
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
        f"{len(problem.lessons):7} {eligible:8} | {answer.cost:5} {answer.bound:6} {last:6.2f}  {answer.status:10}"
        f" {seconds:5.0f} | {gaps} | {other}"
    ), seconds


def gap_at(heard: list[tuple[float, float]], seconds: float, last: float, moment: float) -> float:
    """Return the gap that was last heard of by a moment; the bound is only heard of together with a better plan."""
    return last if seconds <= moment else [gap for when, gap in heard if when <= moment][-1]


def both(problem: Problem, effort: float, highs: float) -> str:
    """Return what both solvers find in the same rows, and how their times compare where both prove."""
    began = process_time()
    answer = Search(build(problem), effort=effort).run()
    seconds = process_time() - began
    cost, gap, spent = second(problem, highs)
    if answer.status == "proven" and cost is not None and gap == 0 and cost != answer.cost:
        raise SystemExit("the two solvers prove different costs")
    ours = f"{answer.cost} {answer.status} after {seconds:.1f} s"
    theirs = "no plan" if cost is None else f"{cost}, gap {gap:.2f}%,"
    return f"{ours}; HiGHS {theirs} after {spent:.1f} s, {spent / seconds:.1f} times as long"


def half(lessons: int, eligible: int) -> str:
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
    answer = Search(build(again)).run()
    return f"half of {lessons} lessons taught: {answer.status}, {process_time() - began:.1f} s"


def flagship() -> None:
    """Print how the unit that ships with the project is planned, and planned again when half of it is taught."""
    library = load_folder(CURRICULUM, "curriculum").library
    unit, school_class = FLAGSHIP
    school = library.schools[library.units[unit].school]
    problem = set_up(library, library.units[unit], school.school_class(school_class)).problem
    print(f"{unit}: the first plan {first_plan(problem)}", HEAD, sep="\n")
    print(line(problem, len(problem.choices), EFFORT)[0], flush=True)
    found = sequence(library, unit, school_class, Options())
    if isinstance(found, Planned):
        for best in (False, True):
            for same_end in (False, True):
                print(planned_again(library, found.plan, best=best, same_end=same_end), flush=True)


def planned_again(library: Library, plan: Plan, *, best: bool, same_end: bool) -> str:
    """Return what planning again takes when half of a plan's lessons are taught and the next is lost."""
    half_way = len(plan.lessons) // 2
    lessons = tuple(
        msgspec.structs.replace(lesson, taught=number < half_way) for number, lesson in enumerate(plan.lessons)
    )
    day = (plan.lessons[half_way].date,)
    happened = Happened(dropped_days=day) if same_end else Happened(lost_days=day)
    began = process_time()
    answer = replan(library, msgspec.structs.replace(plan, lessons=lessons, happened=happened), Options(), best=best)
    seconds = process_time() - began
    changed = sum(change.swapped for change in answer.changes)
    asked = f"{'the best' if best else 'the least changed'} plan{', same end' if same_end else ''}"
    return f"half taught, a lesson lost, {asked}: {seconds:.1f} s, {changed} activities changed"


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
