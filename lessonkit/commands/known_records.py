"""What a check knew of every record, for a later one that has to read only a few of them again.

It is kept in sections, each of which is read only when it is asked for: after a change of one record hardly anything
of what is known of all others is needed.
"""

import marshal
import sys
from collections.abc import Callable, Iterable
from types import ModuleType
from typing import Any

import msgspec

from lessonkit.commands.gathered import asked, builders, gathered
from lessonkit.commands.outward import WIDTH, outward_mark
from lessonkit.loading.build import build_file, read_value
from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.loading.quick_gate import is_surely_in_shape
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.loading.text import read_text
from lessonkit.records.equipment import Catalogue
from lessonkit.records.framework import Framework
from lessonkit.records.library import KINDS, AnyRecord
from lessonkit.records.school import School
from lessonkit.records.skill import Skill
from lessonkit.source.finding import Finding

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lessonkit.loading.folder import Loaded

BODIES: dict[str, type[AnyRecord]] = {"outcomes": Framework, "equipment": Catalogue, "school": School, "skill": Skill}
"""Kinds of record that nearly every activity names: kept whole, so that they need not be read again."""
MARK = 16
"""Bytes of what stands for a file's content."""
AUDITED = frozenset(("plan", "year-map"))
"""Kinds of record whose audits read nearly every field of nearly every record."""
WHOLE = ("facts", "servers", "trainers")
"""The sections that lie in a file of their own."""
UNKNOWN = bytes(3 * WIDTH)
"""Stands for what other records may read of a file that has no record."""


def known_records(loaded: "Loaded", found: tuple[Finding, ...]) -> dict[str, Any]:
    """Return in plain values what is known of a curriculum's records; ``found`` is all that was found, unsilenced."""
    from lessonkit.commands.kept_findings import plain, plain_remark
    from lessonkit.loading.shape import schema_of
    from lessonkit.rules.registry import RULES

    own = {record.path for record in loaded.records}
    added = [each for each in loaded.library.frameworks.values() if each.path not in own]
    names: dict[str, dict[str, str]] = {}
    for record in (*loaded.records, *added):
        names.setdefault(record.kind, {}).setdefault(record.id, record.path)
    outward = {record.path: outward_mark(record) for record in loaded.records}
    kinds = {record.kind: type(record) for record in loaded.records}
    sections: dict[str, Any] = {
        "bodies": _bodies([*loaded.records, *added]),
        "remarks": [plain_remark(remark) for remark in loaded.remarks],
        "builders": builders(loaded.library.activities.values()),
        "asked": asked(loaded.library.units.values()),
        **{f"names of {kind}": names[kind] for kind in names},
        **{f"schema of {kind}": schema_of(kind) for kind in kinds},
        **{
            f"rules of {kind}": [
                (module.__name__, module.RULE.code.name)
                for module in RULES
                if issubclass(kinds[kind], module.RULE.kinds)
            ]
            for kind in kinds
        },
    }
    return {
        "marks": b"".join(bytes.fromhex(mark) for mark in loaded.marks),
        "outward": b"".join(outward.get(path, UNKNOWN) for path in loaded.paths),
        "kinds": sorted(names),
        "broken": [(file.id, file.kind) for file in loaded.broken],
        "found": [plain(finding) for finding in found],
        "sections": {name: marshal.dumps(value) for name, value in sections.items()},
    }


def known_whole(loaded: "Loaded") -> dict[str, Any]:
    """Return in plain values what is known of a curriculum as a whole."""
    found = gathered(loaded.library.activities.values())
    return {"sections": {name: marshal.dumps(found[name]) for name in WHOLE}}


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


class NotAsKnownError(Exception):
    """A record is not as the last check knew it, so that all must be checked."""


class Known:
    """What the last check of everything knew, and what later ones of a few changed records made of it.

    ``kept`` is what was kept by the first, ``news`` what was kept since, if anything, and ``paths`` are all files as
    shown, in their order; ``whole`` reads what was kept of the curriculum as a whole. ``changed`` are the files that
    are not as they were when everything was checked; ``audited`` tells whether there are plans or maps.
    """

    def __init__(
        self,
        kept: dict[str, Any],
        news: dict[str, Any] | None,
        paths: Iterable[str],
        whole: Callable[[], dict[str, Any] | None],
    ) -> None:
        self.kept = kept
        self._whole = whole
        self.news = news
        self.changed: dict[str, tuple[bytes, bytes, bytes]] = news["records"] if news else {}
        self.audited = not AUDITED.isdisjoint(kept["kinds"])
        self.found: list[Any] = _newer(news, "found", kept["found"])
        self.said: list[Any] = _newer(news, "said", kept["said"])
        self._paths = list(paths)
        self._read: dict[str, Any] = {}

    def section(self, name: str) -> Any:
        """Return what stands in a section, an empty table where there is none of that name."""
        if name not in self._read:
            section = self._section(name)
            self._read[name] = {} if section is None else marshal.loads(section)
        return self._read[name]

    def _section(self, name: str) -> bytes | None:
        if name in WHOLE and "whole" not in self._read:
            whole = self._whole()
            if whole is None:
                raise NotAsKnownError
            self._read["whole"] = whole["sections"]
        sections: dict[str, bytes] = self._read["whole"] if name in WHOLE else self.kept["sections"]
        return sections.get(name)

    def rule(self, kind: str, code: str) -> ModuleType:
        """Return the rule of a code, which is one for a kind of record."""
        name = next(name for name, other in self.section(f"rules of {kind}") if other == code)
        __import__(name)
        return sys.modules[name]

    def facts(self, name: str) -> bytes:
        """Return the facts of an activity as they were."""
        facts: bytes = self.changed[name][2] if name in self.changed else self.section("facts")[name]
        return facts

    def names(self, kind: str) -> dict[str, str]:
        """Return the files of the records of a kind, by their ids."""
        names: dict[str, str] = self.section(f"names of {kind}")
        return names

    def remarks(self) -> list[Any]:
        """Return the remarks in all files."""
        remarks: list[Any] | None = _newer(self.news, "remarks", None)
        return self.section("remarks") if remarks is None else remarks

    def mark(self, name: str) -> bytes:
        """Return what stands for the content of a file."""
        return self.changed[name][0] if name in self.changed else self._at("marks", MARK, name)

    def outward(self, name: str) -> bytes:
        """Return what stands for all that other records' checks may read of a file's record."""
        return self.changed[name][1] if name in self.changed else self._at("outward", 3 * WIDTH, name)

    def _at(self, row: str, width: int, name: str) -> bytes:
        place = self._paths.index(name) * width
        found: bytes = self.kept[row][place : place + width]
        return found

    def load(self, content: bytes, name: str, seen: bool = False) -> LoadedFile:
        """Read the content of a file, without an engine for schemas where nothing is wrong with it.

        With ``seen`` its content is what it was when nothing was wrong with its shape.
        """
        try:
            data = read_quickly(read_text(content, name))
        except FileFaultError:
            data = None
        kind = data.get("kind") if data else None
        if data and isinstance(kind, str) and kind in KINDS and (seen or self._is_in_shape(kind, data)):
            return build_file(kind, data, name)
        from lessonkit.loading.file import load_content

        return load_content(content, name)

    def _is_in_shape(self, kind: str, data: dict[str, Any]) -> bool:
        schema = self.section(f"schema of {kind}")
        return bool(schema) and is_surely_in_shape(schema, data)


def _newer(news: dict[str, Any] | None, name: str, otherwise: Any) -> Any:
    """Return what the news say, or what was there before where they say nothing."""
    return otherwise if news is None or news[name] is None else news[name]
