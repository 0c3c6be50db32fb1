"""One file to one record, with everything that is wrong with it."""

import re
from dataclasses import dataclass
from typing import Any, Final

import msgspec

from lessonkit.loading import codes
from lessonkit.loading.build import build_record
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.nodes import Node, compose, place
from lessonkit.loading.places import place_in
from lessonkit.loading.shape import shape_faults
from lessonkit.loading.text import lines_of, read_text
from lessonkit.loading.values import Reader
from lessonkit.loading.wording import quote, say_faults
from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.source.closest import closest
from lessonkit.source.finding import Finding, has_errors
from lessonkit.source.location import Location

_CUT_OFF: Final = re.compile(r"(?:^|\s)(?:- |[\w-]+: )(?!['\"|>\[{&*!#])[^#'\"]*\S (#\d)")


@dataclass(frozen=True, slots=True)
class LoadedFile:
    """What became of a file: its record, None where an error stands in the way, and the findings."""

    record: AnyRecord | None
    findings: tuple[Finding, ...]


def load_content(content: bytes, path: str) -> LoadedFile:
    """Read the content of a record file; ``path`` is how the user knows it."""
    try:
        text = read_text(content, path)
        top = compose(text, path)
        reader = Reader(path)
        data = reader.value(top)
    except FileFaultError as fault:
        return LoadedFile(None, (fault.finding,))
    findings = [*reader.findings, *_cut_off(text, path)]
    kind, problem = _kind(data, top, path)
    if problem:
        return LoadedFile(None, (*findings, problem))
    findings.extend(_shape(kind, data, top, path))
    if has_errors(findings):
        return LoadedFile(None, tuple(findings))
    try:
        return LoadedFile(build_record(kind, data, path), tuple(findings))
    except msgspec.ValidationError as problem_found:
        return LoadedFile(None, (*findings, _build_fault(str(problem_found), top, path)))


def _kind(data: Any, top: Node, path: str) -> tuple[str, Finding | None]:
    kinds = ", ".join(sorted(KINDS))
    if not isinstance(data, dict):
        says = f"A record is a set of fields; the first is its kind: {kinds}."
        return "", make(codes.NO_KIND, says, place(top, path))
    kind = data.get("kind")
    if kind is None:
        return "", make(
            codes.NO_KIND, f"This record does not say its kind; it is one of {kinds}.", place_in(top, (), path)
        )
    if kind in KINDS:
        return str(kind), None
    meant = closest(str(kind), KINDS)
    says = f"The kind {quote(kind)} is not known; it is one of {kinds}."
    hint = f"Did you mean {meant!r}?" if meant else None
    return "", make(codes.UNKNOWN_KIND, says, place_in(top, ("kind",), path), hint=hint, field=("kind",))


def _shape(kind: str, data: dict[str, Any], top: Node, path: str) -> list[Finding]:
    record = data.get("id") if isinstance(data.get("id"), str) else None
    return [
        make(code, says, place_in(top, field, path, on_key), hint=hint, record=record, field=field)
        for code, field, on_key, says, hint in say_faults(shape_faults(kind, data))
    ]


def _build_fault(message: str, top: Node, path: str) -> Finding:
    """Place a fault that only the building saw: its words end in the field's path, as ``- at `$.grades```."""
    says, _, where = message.partition(" - at `$")
    steps = re.findall(r"\.([\w-]+)|\[(\d+)\]", where)
    field = tuple(name or int(number) for name, number in steps)
    return make(codes.WRONG_VALUE, f"{says[:1].upper()}{says[1:]}.", place_in(top, field, path), field=field)


def _cut_off(text: str, path: str) -> list[Finding]:
    findings = []
    for number, line in enumerate(lines_of(text), 1):
        found = _CUT_OFF.search(line)
        if found:
            column = found.start(1) + 1
            findings.append(
                make(
                    codes.CUT_OFF,
                    f"Everything from {found.group(1)!r} on is left out: # after a space starts a comment.",
                    Location(path, number, column, number, column + len(found.group(1))),
                    hint="Put the text in quotes if it belongs to it.",
                )
            )
    return findings
