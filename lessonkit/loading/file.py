"""One file to one record, with everything that is wrong with it."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import msgspec

from lessonkit.loading import codes
from lessonkit.loading.build import build_record
from lessonkit.loading.cut_off import cut_off
from lessonkit.loading.engines import Engine
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.nodes import PARSER, Node, Parser, compose, place
from lessonkit.loading.phrases import shown
from lessonkit.loading.places import place_in, written_in
from lessonkit.loading.remarks import Remark, remarks_in
from lessonkit.loading.shape import schema_of, shape_faults
from lessonkit.loading.text import SIZE_LIMIT, read_text, too_large
from lessonkit.loading.values import Reader
from lessonkit.loading.wording import say_faults
from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.source.closest import closest
from lessonkit.source.finding import Finding, has_errors, in_reading_order
from lessonkit.source.location import file_start


@dataclass(frozen=True, slots=True)
class LoadedFile:
    """What became of a file: its record, None where an error stands in the way, the findings, and its kind if known.

    ``remarks`` are those to the program in its comments.
    """

    record: AnyRecord | None
    findings: tuple[Finding, ...]
    kind: str | None = None
    remarks: tuple[Remark, ...] = ()


def load_file(path: Path, shown_as: str | None = None) -> LoadedFile:
    """Read a record file; ``shown_as`` is how the user named it, by default ``path`` with forward slashes."""
    name = path.as_posix() if shown_as is None else shown_as
    content = read_content(path, name)
    return LoadedFile(None, (content,)) if isinstance(content, Finding) else load_content(content, name)


def load_text(text: str, path: str) -> LoadedFile:
    """Read the text of a record as if it stood in a file at ``path``."""
    return load_content(text.encode("utf-8", "surrogatepass"), path)


def read_content(path: Path, name: str) -> bytes | Finding:
    """Return the bytes of a file, or the finding that says why they cannot be had."""
    try:
        with path.open("rb") as stream:
            content = stream.read(SIZE_LIMIT + 1)
        return too_large(path.stat().st_size, name) if len(content) > SIZE_LIMIT else content
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        return make(codes.UNREADABLE, f"This file cannot be read: {why}.", file_start(name))


def load_content(content: bytes, path: str, parser: Parser = PARSER, engine: Engine | None = None) -> LoadedFile:
    """Read the content of a record file; ``path`` is how the user knows it.

    ``parser`` and ``engine`` choose the YAML reader and the schema engine; each has the same answers as the other.
    """
    try:
        text = read_text(content, path)
        top = compose(text, path, parser)
        reader = Reader(path)
        data = reader.value(top)
    except FileFaultError as fault:
        return LoadedFile(None, (fault.finding,))
    found = [*reader.findings, *cut_off(text, top, path)]
    kind = _kind(data, top, path)
    found.extend([kind] if isinstance(kind, Finding) else _shape(kind, data, top, path, engine))
    findings = in_reading_order(dict.fromkeys(found))
    if isinstance(kind, Finding) or has_errors(findings):
        return LoadedFile(None, findings, None if isinstance(kind, Finding) else kind)
    return _build(kind, data, path, findings, remarks_in(text, top, path))


def _kind(data: Any, top: Node, path: str) -> str | Finding:
    kinds = ", ".join(sorted(KINDS))
    if not isinstance(data, dict):
        hint = "Begin with a line such as kind: activity, with a space after the colon."
        return make(
            codes.NO_KIND, "This file holds no fields; a record has a field on each line.", place(top, path), hint=hint
        )
    kind = data.get("kind")
    if kind is None:
        says = f"This record does not say its kind; it is one of {kinds}."
        return make(codes.NO_KIND, says, place_in(top, ("kind",), path, on_key=True))
    if isinstance(kind, str) and kind in KINDS:
        return kind
    written = shown(kind, written_in(top, ("kind",)))
    meant = closest(kind, KINDS) if isinstance(kind, str) else None
    guess = f"Did you mean {meant!r}?" if meant else None
    says = f"The kind {written} is not known; it is one of {kinds}."
    return make(codes.UNKNOWN_KIND, says, place_in(top, ("kind",), path), hint=guess, field=("kind",))


def _shape(kind: str, data: dict[str, Any], top: Node, path: str, engine: Engine | None) -> list[Finding]:
    own_id = data.get("id")
    record = own_id if isinstance(own_id, str) else None
    said = say_faults(schema_of(kind), data, shape_faults(kind, data, engine), lambda field: written_in(top, field))
    return [
        make(
            one.code,
            one.says,
            place_in(top, one.path, path, one.on_key),
            hint=one.hint,
            record=record,
            field=one.path,
            repair=one.repair,
        )
        for one in said
    ]


def _build(
    kind: str, data: dict[str, Any], path: str, findings: tuple[Finding, ...], remarks: tuple[Remark, ...]
) -> LoadedFile:
    try:
        return LoadedFile(build_record(kind, data, path), findings, kind, remarks)
    except msgspec.ValidationError as problem:
        says = f"This record cannot be understood: {problem}."
        return LoadedFile(None, (*findings, make(codes.WRONG_VALUE, says, file_start(path))))
