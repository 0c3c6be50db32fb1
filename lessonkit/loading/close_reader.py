"""A file's text to its record by way of nodes that know their places, so that everything wrong can be shown."""

from functools import partial
from typing import Any

from lessonkit.loading import codes
from lessonkit.loading.build import build_file
from lessonkit.loading.cut_off import cut_off
from lessonkit.loading.engines import Engine
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.loading.node_places import begins_below, place_in, written_in
from lessonkit.loading.nodes import PARSER, Node, Parser, compose, place
from lessonkit.loading.phrases import shown
from lessonkit.loading.remarks import remarks_in
from lessonkit.loading.shape import schema_of, shape_faults
from lessonkit.loading.values import Reader
from lessonkit.loading.wording import say_faults
from lessonkit.records.library import KINDS
from lessonkit.source.closest import closest
from lessonkit.source.finding import Finding, has_errors, in_reading_order


def read_closely(
    text: str, path: str, data: dict[str, Any] | None = None, parser: Parser | None = None, engine: Engine | None = None
) -> LoadedFile:
    """Read the text of a record file; ``data`` are its values where they are known already.

    ``parser`` and ``engine`` choose the YAML reader and the schema engine; each has the same answers as the other.
    """
    try:
        top = compose(text, path, parser or PARSER)
        reader = Reader(path)
        values = reader.value(top) if data is None else data
    except FileFaultError as fault:
        return LoadedFile(None, (fault.finding,))
    found = [*reader.findings, *cut_off(text, top, path)]
    kind = _kind(values, top, path)
    found.extend([kind] if isinstance(kind, Finding) else _shape(kind, values, top, path, engine))
    findings = in_reading_order(dict.fromkeys(found))
    if isinstance(kind, Finding) or has_errors(findings):
        return LoadedFile(None, findings, None if isinstance(kind, Finding) else kind)
    return build_file(kind, values, path, findings, remarks_in(text, top, path))


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
    faults = shape_faults(kind, data, engine)
    written, below = partial(written_in, top), partial(begins_below, top)
    said = say_faults(schema_of(kind), data, faults, written, below)
    return [
        make(
            one.code,
            one.says,
            place_in(top, one.path, path, one.on_key, one.on_line),
            hint=one.hint,
            record=record,
            field=one.path,
            repair=one.repair,
        )
        for one in said
    ]
