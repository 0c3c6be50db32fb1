"""What a written outcome code means in a named framework: known, repairable, ambiguous, impossible, not listed."""

import re
from dataclasses import dataclass
from typing import Final

from lessonkit.outcomes.code_form import compiled, matches
from lessonkit.records.framework import Framework, Outcome
from lessonkit.source.pattern import Pattern


@dataclass(frozen=True, slots=True)
class Known:
    """The code as the framework writes it."""

    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Repairable:
    """A misspelt code, and the only outcome it can mean."""

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
_LOOK_ALIKE: Final = str.maketrans({"O": "0", "o": "0", "l": "1", "I": "1"})
"""Letters that are typed for the digits that they look like."""
_PIECE: Final = Pattern(r"\{(\d+)\}")


def look_up(framework: Framework, written: str) -> Answer:
    """Say what a written code means in a framework."""
    table = framework.by_code
    if written in table:
        return Known(table[written])
    code = repair(framework, written)
    meant = table.get(code) or _by_looks(framework, written, code)
    if meant is not None:
        return Repairable(meant)
    lettered = _lettered(framework, code)
    if lettered:
        return Ambiguous(lettered)
    if not matches(framework.spelling.pattern, code):
        return Impossible(_why_misspelt(framework, written, code))
    if framework.complete:
        return Impossible(_why_missing(framework, written, code))
    return Unlisted(code)


def _by_looks(framework: Framework, written: str, code: str) -> Outcome | None:
    """Return the outcome of a code in which letters were typed for the digits that they look like."""
    if matches(framework.spelling.pattern, code):
        return None
    return framework.by_code.get(repair(framework, written.translate(_LOOK_ALIKE)))


def repair(framework: Framework, written: str) -> str:
    """Return a code in the framework's own spelling, or as written where nothing says how to put it right.

    A code of the right form is returned even where no such outcome exists.
    """
    for variant in framework.spelling.variants:
        if variant.seen == written:
            return variant.means
    rebuilt = _rebuilt(framework, written)
    known = framework.by_folded_code.get(rebuilt.casefold())
    if known is not None:
        return known.code
    capitals = rebuilt.upper()
    for form in (capitals, capitals[:-1] + capitals[-1:].lower()):
        if matches(framework.spelling.pattern, form):
            return form
    return rebuilt


def _rebuilt(framework: Framework, written: str) -> str:
    """Put the pieces of a code together by the framework's rule; numbers lose their leading zeros."""
    found, form = _pieces(framework, written), framework.spelling.rebuild
    if found is None or form is None:
        return written.strip()
    pieces = [str(int(piece)) if piece.isdecimal() else piece for piece in (group or "" for group in found.groups())]
    return _PIECE.sub(lambda place: _at(pieces, int(place.group(1))), form)


def _pieces(framework: Framework, written: str) -> re.Match[str] | None:
    """Match a code with the framework's rule of repair; None where it does not have the shape of a code."""
    pattern = framework.spelling.repair
    rule = compiled(pattern, re.IGNORECASE) if pattern is not None else None
    return rule.fullmatch(written) if rule is not None else None


def _at(pieces: list[str], number: int) -> str:
    return pieces[number - 1] if 1 <= number <= len(pieces) else ""


def _lettered(framework: Framework, code: str) -> tuple[str, ...]:
    """Return the codes that differ from a code only by a small letter at their end."""
    return tuple(known for known in framework.by_code if known[:-1] == code and known[-1].islower())


def _why_misspelt(framework: Framework, written: str, code: str) -> str:
    noted = _noted(framework, written)
    if noted:
        return f"{written!r} cannot be read as one code: {noted}."
    row = _row(framework, code)
    if row:
        return f"{framework.title} has no outcome {code}; its row goes from {row[0]} to {row[-1]}."
    if _pieces(framework, written):
        return f"{framework.title} has no outcome {code}."
    example = framework.outcomes[0].code
    return f"{written!r} is not a code of {framework.title}; its codes look like {example}."


def _why_missing(framework: Framework, written: str, code: str) -> str:
    bare = framework.by_code.get(code[:-1])
    if bare is not None and code[-1].islower():
        return f"{bare.code} has no parts with letters; write {bare.code}."
    row = _lettered(framework, code[:-1]) if code[-1].islower() else _row(framework, code)
    noted = _noted(framework, written)
    if noted:
        return f"{framework.title} has no outcome {code}: {noted}."
    if row:
        return f"{framework.title} has no outcome {code}; its row goes from {row[0]} to {row[-1]}."
    return f"{framework.title} has no outcome {code}."


def _noted(framework: Framework, written: str) -> str | None:
    return next((unclear.reason for unclear in framework.spelling.unclear if unclear.seen == written), None)


def _row(framework: Framework, code: str) -> tuple[str, ...]:
    """Return the codes that share everything up to a code's last point with it, in the framework's order."""
    start = code.rpartition(".")[0] + "."
    return tuple(known for known in framework.by_code if known.startswith(start)) if "." in start[:-1] else ()
