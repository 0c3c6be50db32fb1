"""Digests of what a year map was made from, and of the map as it was written."""

from hashlib import sha256

import msgspec

from lessonkit.planning.year.case import YearCase
from lessonkit.records.year import MappedUnit, YearMap


def _digest(value: object) -> str:
    return sha256(msgspec.json.encode(value, order="deterministic")).hexdigest()[:16]


def units_digest(units: tuple[MappedUnit, ...]) -> str:
    """Return a digest of a map's units, by which a map edited by hand is known."""
    return _digest(units)


def inputs_digest(case: YearCase) -> str:
    """Return a digest of what must hold in a year: weeks, units, what they follow, wishes.

    Loads and outcomes, which change with every plan, leave it as it is.
    """
    problem = case.problem
    blocks = [
        (b.id, b.rows, b.spans, b.follows, b.optional, b.not_before, b.over_by, b.week_of) for b in problem.blocks
    ]
    return _digest((case.mondays, blocks, problem.stretches, sorted(problem.quiet), problem.weights))


def is_edited(found: YearMap) -> bool:
    """Tell whether a map's units are not as the program wrote them; also true for a map it never wrote."""
    return found.made is None or found.made.units != units_digest(found.units)
