"""The year map's front door: a year request in, the best map out, or the reasons why there is none."""

from collections.abc import Callable
from dataclasses import dataclass

from lessonkit.planning.audit import Audit
from lessonkit.planning.said import Said
from lessonkit.planning.sequence import Options
from lessonkit.planning.solve import Answer, Limits, Progress, limits_of, minimise, solver_name
from lessonkit.planning.year.audit import audit_year
from lessonkit.planning.year.case import YearCase
from lessonkit.planning.year.conflict import because
from lessonkit.planning.year.problem import YearProblem, YearSchedule
from lessonkit.planning.year.registry import BY_CODE, TERMS
from lessonkit.planning.year.setup import Again, set_up_year
from lessonkit.planning.year.term import YearVariables, variables_of
from lessonkit.planning.year.worth import inputs_digest, units_digest
from lessonkit.records.library import Library
from lessonkit.records.year import MapMade, MappedUnit, Year, YearMap

EFFORT = 30.0
"""Deterministic effort after which a search stops by itself, in units of about a second."""


@dataclass(frozen=True, slots=True)
class Mapped:
    """A map, its problem's words, what its audit measured, and a sentence for every wish given up.

    ``stopped`` tells that a person stopped the search.
    """

    year_map: YearMap
    case: YearCase
    schedule: YearSchedule
    audit: Audit
    given_up: tuple[Said, ...]
    stopped: bool = False


@dataclass(frozen=True, slots=True)
class NoMap:
    """Why there is no map: sentences that cannot hold together."""

    because: tuple[Said, ...]


def build_year(problem: YearProblem) -> YearVariables:
    """State a problem as a linear model."""
    variables = variables_of(problem)
    for term in TERMS:
        if term.applies(problem):
            term.add(variables, problem)
    return variables


def search_year(
    problem: YearProblem, limits: Limits, watch: Callable[[Progress], None] | None = None
) -> tuple[YearSchedule | None, Answer]:
    """Find the best schedule of a problem, and check it against the solver's own cost.

    Raises RuntimeError when the audit disagrees with the solver, which would be a fault of the program.
    """
    variables = build_year(problem)
    answer = minimise(variables.model, limits, watch=watch)
    if not answer.values:
        return None, answer
    spans = tuple(
        next((span for span, number in choices if answer.values[number]), None) for choices in variables.choices
    )
    schedule = YearSchedule(spans)
    measured = audit_year(schedule, problem)
    if measured.broken or (answer.status == "proven" and measured.cost != answer.cost) or measured.cost > answer.cost:
        raise RuntimeError(f"the audit disagrees with the solver: {measured.broken}, {measured.cost}, {answer.cost}")
    return schedule, answer


def map_year(library: Library, year: Year, options: Options, again: Again | None = None) -> Mapped | NoMap | None:
    """Map a year; None when the search ended before it found anything.

    The same records, program and solver give the same map, unless seconds run out or someone stops the search.
    """
    case = set_up_year(library, year, again)
    if case.faults:
        return NoMap(case.faults)
    schedule, answer = search_year(case.problem, limits_of(options.seconds, EFFORT), options.progress)
    if answer.status == "impossible":
        return NoMap(because(case, build_year(case.problem).model))
    if schedule is None:
        return None
    audit = audit_year(schedule, case.problem)
    given_up = tuple(BY_CODE[instance.term].say(instance, case) for instance in audit.given_up)
    record = _record(case, schedule, answer, audit.cost, options.version)
    return Mapped(record, case, schedule, audit, given_up, answer.stopped)


def _record(case: YearCase, schedule: YearSchedule, answer: Answer, cost: int, version: str) -> YearMap:
    everything = tuple(range(len(case.problem.blocks)))
    units = tuple(
        MappedUnit(
            unit=case.problem.blocks[block].id,
            week_of=case.mondays[span.first].isoformat(),
            last=case.lasts[block][span.first].isoformat(),
        )
        for span, block in schedule.placed(everything)
    )
    return YearMap(
        kind="year-map",
        id=f"{case.year.id}-map"[:60].rstrip("-"),
        title=f"{case.year.title}: the map"[:80],
        year=case.year.id,
        school=case.school.id,
        made=MapMade(
            lessonkit=version,
            solver=solver_name(),
            inputs=inputs_digest(case),
            units=units_digest(units),
            status="proven" if answer.status == "proven" else "best-found",
            cost=cost,
            bound=min(answer.bound, cost),
        ),
        units=units,
        left_out=tuple(block.id for block, span in zip(case.problem.blocks, schedule.spans, strict=True) if not span),
    )
