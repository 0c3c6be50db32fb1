"""The sequencer's front door: a unit request and a class in, the best plan out, or the reasons why there is none."""

from collections.abc import Callable
from dataclasses import dataclass

from lessonkit.planning.audit import Audit, audit
from lessonkit.planning.build import build
from lessonkit.planning.case import Case, LeftOut
from lessonkit.planning.conflict import find_conflict
from lessonkit.planning.conflict_words import in_words
from lessonkit.planning.digest import digest
from lessonkit.planning.order import schedule
from lessonkit.planning.precheck import precheck
from lessonkit.planning.problem import Problem, Schedule
from lessonkit.planning.reasons import Reasons, reasons
from lessonkit.planning.said import Said
from lessonkit.planning.search import Search
from lessonkit.planning.setup import set_up
from lessonkit.planning.solve import Answer, Progress, solver_name
from lessonkit.planning.ways import Way, ways_into_the_year, ways_out
from lessonkit.planning.write_plan import plan_record
from lessonkit.records.library import Library
from lessonkit.records.plan import Made, Plan


@dataclass(frozen=True, slots=True)
class Options:
    """How to search: seconds (None for the search's own limit), whom to tell, and the program's version."""

    seconds: float | None = None
    progress: Callable[[Progress], None] | None = None
    version: str = "0"


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan, why it is as it is, what its audit measured, and what was left out of it.

    ``bound`` in ``plan.made`` is the cost that no plan can beat; ``status`` says whether the plan reaches it.
    ``stopped`` tells that a person stopped the search.
    """

    plan: Plan
    reasons: Reasons
    audit: Audit
    left_out: tuple[LeftOut, ...]
    notes: tuple[Said, ...]
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class Impossible:
    """Why there is no plan: sentences that cannot hold together, and ways out with the cheapest first."""

    because: tuple[Said, ...]
    ways_out: tuple[Way, ...] = ()


@dataclass(frozen=True, slots=True)
class Stopped:
    """The search ended before it found a plan or proved that there is none."""

    says: str


Outcome = Planned | Impossible | Stopped


def sequence(library: Library, unit_id: str, class_id: str, options: Options) -> Outcome:
    """Plan a unit for one of its classes.

    The same records, program and solver give the same plan, byte for byte, unless seconds run out or someone stops the
    search. Raises KeyError for a unit, school or class that the library does not have.
    """
    unit = library.units[unit_id]
    case = set_up(library, unit, library.schools[unit.school].school_class(class_id))
    return plan_case(case, options)


def plan_case(case: Case, options: Options) -> Outcome:
    """Plan a case that has been set up."""
    if case.faults:
        return Impossible(case.faults, ways_into_the_year(case))
    found = precheck(case)
    if found:
        return Impossible(found, ways_out(case))
    best, answer = search(case.problem, options)
    if answer.status == "impossible":
        return explain(case)
    if best is None:
        return Stopped("The search ended before it found a plan; give it more time.")
    return planned(case, best, answer, options.version)


def explain(case: Case) -> Impossible:
    """Say why a case has no plan, and what would give one."""
    conflict = find_conflict(case)
    if conflict is None:
        says = "These requirements cannot all be met, and the search found no smaller set to blame."
        return Impossible((case.in_unit((), says),), ways_out(case))
    return Impossible(in_words(conflict, case), ways_out(case))


def search(problem: Problem, options: Options) -> tuple[Schedule | None, Answer]:
    """Find the best schedule of a problem, and check it against the solver's own cost.

    Raises RuntimeError when the audit disagrees with the solver, which would be a fault of the program.
    """
    variables = build(problem)
    answer = Search(variables, options.seconds, options.progress).run()
    if not answer.values:
        return None, answer
    best = schedule(problem, variables, answer.values)
    measured = audit(best, problem)
    if measured.broken or measured.cost != answer.cost:
        raise RuntimeError(f"the audit disagrees with the solver: {measured.broken}, {measured.cost}, {answer.cost}")
    return best, answer


def planned(case: Case, best: Schedule, answer: Answer, version: str) -> Planned:
    """Put a schedule into a plan, with its reasons and its audit."""
    made = Made(
        lessonkit=version,
        solver=solver_name(),
        inputs=digest(case),
        status="proven" if answer.status == "proven" else "best-found",
        cost=answer.cost,
        bound=min(answer.bound, answer.cost),
    )
    plan = plan_record(case, best, made)
    measured = audit(best, case.problem)
    return Planned(plan, reasons(case, best), measured, case.left_out, case.notes, answer.stopped)
