"""Cases kept as data: a text with a fault, and what must be said about it and where."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from lessonkit.loading.nodes import compose
from lessonkit.loading.values import Reader
from lessonkit.source.finding import Finding

CASES = Path(__file__).parent.parent / "cases" / "loading"
BASES = CASES / "base"
SIGN = "⟦"
"""Stands in a case's text where the finding must point."""


@dataclass(frozen=True)
class Case:
    """A text with a fault; ``expected`` are places, code names, sentences, hints and related places in order."""

    fact: str
    text: str
    expected: tuple[tuple[str, str, str, str | None, str | None], ...]

    def __str__(self) -> str:
        return self.fact


def cases(name: str) -> list[Case]:
    """Read the cases of a file: whole texts, or changes to a record of ``base``."""
    return [_case(entry) for entry in yaml.safe_load((CASES / f"{name}.yaml").read_text("utf-8"))]


@cache
def base(kind: str) -> str:
    """Return the text of the record of a kind that is in order, with every field filled in."""
    return (BASES / f"{kind}.yaml").read_text("utf-8")


def data(kind: str) -> dict[str, Any]:
    """Return that record's values."""
    values: dict[str, Any] = Reader(kind).value(compose(base(kind), kind))
    return values


def told(findings: tuple[Finding, ...]) -> tuple[tuple[str, str, str, str | None, str | None], ...]:
    """Return findings in the form of a case's expectations."""
    return tuple((_place(found), found.code.name, found.says, found.hint, _related(found)) for found in findings)


def _place(found: Finding) -> str:
    return f"{found.location.line}:{found.location.column}"


def _related(found: Finding) -> str | None:
    return " ".join(f"{_spot(one.location)} {one.says}" for one in found.related) or None


def _spot(location: Any) -> str:
    return f"{location.line}:{location.column}"


def _case(entry: dict[str, Any]) -> Case:
    marked = entry["text"] if "text" in entry else _changed(entry)
    before, sign, after = marked.partition(SIGN)
    assert sign or "at" in entry, f"no place in {entry['fact']}"
    lines = (before + "|").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    place = entry.get("at", f"{len(lines)}:{len(lines[-1])}")
    expected = [{"at": place, **entry}, *entry.get("also", ())]
    rows = [(e["at"], e["code"], e["says"], e.get("hint"), e.get("related")) for e in expected]
    rows.sort(key=lambda row: [int(number) for number in row[0].split(":")])
    return Case(entry["fact"], before + after, tuple(rows))


def _changed(entry: dict[str, Any]) -> str:
    whole = base(entry["record"])
    assert whole.count(entry["take"]) == 1, f"{entry['take']!r} must stand in the record once: {entry['fact']}"
    return whole.replace(entry["take"], entry["put"]).replace(entry.get("without", "\0"), entry.get("with", ""))
