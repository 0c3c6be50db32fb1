"""What a written outcome code means in a named framework: known, repairable, ambiguous, impossible, not listed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from lessonkit.records.framework import Framework, Outcome
from lessonkit.records.measures import GRADES


@dataclass(frozen=True, slots=True)
class Known:
    """The code as the framework writes it."""

    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Repairable:
    """A misspelt code, and the only one it can mean."""

    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Ambiguous:
    """A code that several outcomes share: their codes."""

    candidates: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Impossible:
    """A code that cannot exist in the framework, with the reason in a sentence."""

    reason: str


@dataclass(frozen=True, slots=True)
class Unlisted:
    """A well-formed code of a framework that is not complete, so that nobody can say whether it exists."""

    code: str


Answer = Known | Repairable | Ambiguous | Impossible | Unlisted


def look_up(framework: Framework, written: str) -> Answer:
    """Say what a written code means in a framework."""
    table = framework.by_code
    if written in table:
        return Known(table[written])
    code = repair(framework, written)
    if code in table and code != written:
        return Repairable(table[code])
    return _without(framework, table, written, code)


def repair(framework: Framework, written: str) -> str:
    """Return a code in the framework's own spelling, or as written where its rule of repair does not apply.

    A code of the right form is returned even where no such outcome exists.
    """
    rule = framework.spelling.repair
    found = re.match(rule, written, re.IGNORECASE) if rule else None
    if found is None:
        return written
    form = (framework.spelling.rebuild or "").partition(":")[0]
    pieces = [piece or "" for piece in found.groups()]
    for number, piece in enumerate(pieces, 1):
        form = form.replace(f"{{{number}}}", _cased(piece, number == len(pieces)))
    return form


def _cased(piece: str, last: bool) -> str:
    """Capital letters everywhere, but a small one for the letter at the end; numbers without leading zeros."""
    if piece.isdigit():
        return str(int(piece))
    return piece.lower() if last else piece.upper()


def _without(framework: Framework, table: Mapping[str, Outcome], written: str, code: str) -> Answer:
    lettered = tuple(sorted(known for known in table if known[:-1] == code and known[-1] in "abc"))
    if lettered:
        return Ambiguous(lettered)
    if not re.fullmatch(framework.spelling.pattern, code):
        return Impossible(_reason(framework, written))
    if framework.complete:
        bare = table.get(code[:-1])
        if bare is not None:
            return Impossible(f"{bare.code} has no parts with letters; write {bare.code}.")
        return Impossible(f"{framework.title} has no outcome {code}.")
    return Unlisted(code)


def _reason(framework: Framework, written: str) -> str:
    for unclear in framework.spelling.unclear:
        if unclear.seen == written:
            return f"This code cannot be read: {unclear.reason}."
    return f"{written!r} is not written as {framework.title} writes its codes, such as {framework.outcomes[0].code}."


def elementary_grades(outcome: Outcome) -> tuple[str, ...]:
    """Return the grades K to 5 that an outcome is for; a span such as ``PreK-2`` gives K, 1 and 2, grade 6 none."""
    first, _, last = outcome.grade.partition("-")
    if not last:
        return (first,) if first in GRADES else ()
    low = 0 if first in ("PreK", "K") else GRADES.index(first) if first in GRADES else len(GRADES)
    high = GRADES.index(last) if last in GRADES else len(GRADES) - 1
    return GRADES[low : high + 1]
