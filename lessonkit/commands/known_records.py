"""What a check knew of every record, for a later one that has to read only a few of them again."""

from typing import Any

import msgspec

from lessonkit.commands.kept_findings import plain, plain_remark
from lessonkit.commands.outward import outward_mark
from lessonkit.loading.build import read_value
from lessonkit.loading.folder import Loaded
from lessonkit.records.activity import Activity
from lessonkit.records.equipment import Catalogue
from lessonkit.records.framework import Framework
from lessonkit.records.library import AnyRecord
from lessonkit.records.school import School
from lessonkit.records.skill import Skill
from lessonkit.source.finding import Finding

BODIES: dict[str, type[AnyRecord]] = {"outcomes": Framework, "equipment": Catalogue, "school": School, "skill": Skill}
"""Kinds of record that nearly every activity names: kept whole, so that they need not be read again."""


def known_records(loaded: Loaded, found: tuple[Finding, ...]) -> dict[str, Any]:
    """Return in plain values what is known of a curriculum's records; ``found`` is all that was found, unsilenced."""
    own = {record.path for record in loaded.records}
    added = [each for each in loaded.library.frameworks.values() if each.path not in own]
    names: dict[str, dict[str, str]] = {}
    for record in (*loaded.records, *added):
        names.setdefault(record.kind, {}).setdefault(record.id, record.path)
    return {
        "marks": dict(zip(loaded.paths, loaded.marks, strict=True)),
        "names": names,
        "outward": {each.path: outward_mark(each) for each in loaded.records if isinstance(each, Activity)},
        "bodies": _bodies([*loaded.records, *added]),
        "broken": [(file.id, file.kind) for file in loaded.broken],
        "remarks": [plain_remark(remark) for remark in loaded.remarks],
        "found": [plain(finding) for finding in found],
    }


def _bodies(records: list[AnyRecord]) -> dict[str, tuple[str, bytes]]:
    """Return records whole with their kinds, by their paths, where they can be had back as they are."""
    kept = {}
    for record in records:
        if record.kind in BODIES:
            body = msgspec.msgpack.encode(record, enc_hook=str)
            try:
                same = body_of(record.kind, body) == record
            except (msgspec.ValidationError, ValueError):
                same = False
            if same:
                kept[record.path] = record.kind, body
    return kept


def body_of(kind: str, body: bytes) -> AnyRecord:
    """Return a record that was kept whole."""
    return msgspec.msgpack.decode(body, type=BODIES[kind], dec_hook=read_value)
