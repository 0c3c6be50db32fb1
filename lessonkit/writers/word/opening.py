"""Opens Word files that others have saved: unpacks them within limits and reads their markup without surprises.

What is no sound Word file is refused with one sentence. Nothing here runs, fetches or resolves anything.
"""

import io
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final
from xml.etree import ElementTree as Xml
from xml.parsers import expat

MOST_PARTS: Final = 2000
LARGEST_PART: Final = 64 * 2**20
LARGEST_FILE: Final = 160 * 2**20
"""Bytes of all parts together, once unpacked."""
_SUSPECT_SIZE: Final = 2**20
_STEEPEST: Final = 400
"""How many times larger a part above a megabyte may become; text of a document stays far below."""
_DEEPEST: Final = 256
_OLD_WORD: Final = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_RELATIONS: Final = "http://schemas.openxmlformats.org/package/2006/relationships"


class UnsafeFileError(Exception):
    """The file cannot be opened safely; the message goes on after the file's name, as in ``holds macros``."""


@dataclass(frozen=True, slots=True)
class Relation:
    """What a part leads to: the last word of the relation's kind, the target, and whether it lies outside the file."""

    id: str
    kind: str
    target: str
    outside: bool


def unpack(content: bytes) -> dict[str, bytes]:
    """Return the parts of a Word file by name. Raises UnsafeFileError for anything that is no plain package."""
    if content.startswith(_OLD_WORD):
        raise UnsafeFileError("is an old Word file or has a password; save it as .docx without a password")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            parts = dict(_parts(package))
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OSError):
        raise UnsafeFileError("is not a sound Word file (.docx): it is cut off or damaged") from None
    if parts.get("mimetype", b"").startswith(b"application/vnd.oasis.opendocument"):
        raise UnsafeFileError("is an OpenDocument file under the name of a Word file; save it as .docx")
    if "[Content_Types].xml" not in parts:
        raise UnsafeFileError("is not a Word file (.docx): it has no list of content types")
    return parts


def main_part(parts: Mapping[str, bytes]) -> str:
    """Return the name of the part that holds the text. Raises UnsafeFileError where there is none."""
    found = [relation.target for relation in relations(parts, "") if relation.kind == "officeDocument"]
    name = resolve("", found[0]) if found else ""
    if name not in parts:
        raise UnsafeFileError("is not a Word file (.docx): it has no document in it")
    return name


def parse(content: bytes) -> Xml.Element:
    """Return the root of a part's markup. Raises UnsafeFileError for a broken part or one that declares entities."""
    _refuse_declarations(content)
    try:
        return Xml.fromstring(content)
    except (Xml.ParseError, ValueError, LookupError):
        raise UnsafeFileError("is damaged: one of its parts is not well-formed XML") from None


def relations(parts: Mapping[str, bytes], name: str) -> tuple[Relation, ...]:
    """Return the relations of a part (the empty name for the whole package); none where it has no list."""
    folder, _, file = name.rpartition("/")
    content = parts.get(f"{folder}/_rels/{file}.rels" if folder else f"_rels/{file}.rels")
    if content is None:
        return ()
    return tuple(
        Relation(
            each.get("Id", ""),
            each.get("Type", "").rpartition("/")[2],
            each.get("Target", ""),
            each.get("TargetMode") == "External",
        )
        for each in parse(content).iter(f"{{{_RELATIONS}}}Relationship")
    )


def resolve(source: str, target: str) -> str:
    """Return the name of the part that a target leads to from the part ``source``."""
    if target.startswith("/"):
        return target[1:]
    steps = source.split("/")[:-1]
    for step in target.split("/"):
        if step == "..":
            steps = steps[:-1]
        elif step != ".":
            steps.append(step)
    return "/".join(steps)


def _parts(package: zipfile.ZipFile) -> Iterator[tuple[str, bytes]]:
    entries = [entry for entry in package.infolist() if not entry.is_dir()]
    _refuse_odd_lists(entries)
    room = LARGEST_FILE
    for entry in entries:
        _refuse_odd_entry(entry)
        limit = min(room, LARGEST_PART)
        with package.open(entry) as stream:
            content = stream.read(limit + 1)
        if len(content) > limit:
            raise UnsafeFileError("is far too large once unpacked")
        room -= len(content)
        yield entry.filename, content


def _refuse_odd_lists(entries: list[zipfile.ZipInfo]) -> None:
    if len(entries) > MOST_PARTS:
        raise UnsafeFileError(f"holds {len(entries)} parts; a Word file has a few dozen")
    names = [entry.filename.lower() for entry in entries]
    if len(set(names)) < len(names):
        raise UnsafeFileError("holds a part twice under one name")
    ends = 0
    for entry in sorted(entries, key=lambda found: found.header_offset):
        if entry.header_offset < ends:
            raise UnsafeFileError("is not a sound Word file: its parts overlap")
        ends = entry.header_offset + entry.compress_size


def _refuse_odd_entry(entry: zipfile.ZipInfo) -> None:
    name = entry.filename
    steps = name.split("/")
    if name.startswith("/") or "\\" in name or ":" in name or ".." in steps or "" in steps:
        raise UnsafeFileError("holds a part whose name leads out of the file")
    if entry.flag_bits & 1:
        raise UnsafeFileError("is protected by a password; save it without one")
    steep = entry.file_size > _SUSPECT_SIZE and entry.file_size > _STEEPEST * max(entry.compress_size, 1)
    if entry.file_size > LARGEST_PART or steep:
        raise UnsafeFileError("is far too large once unpacked")


def _refuse_declarations(content: bytes) -> None:
    """Refuse document types, and with them entities, and markup nested beyond reason."""
    depth = 0

    def refuse(*_: object) -> None:
        raise UnsafeFileError("declares a document type or entities, which no Word file needs")

    def begin(*_: object) -> None:
        nonlocal depth
        depth += 1
        if depth > _DEEPEST:
            raise UnsafeFileError("is nested deeper than any Word file")

    def end(*_: object) -> None:
        nonlocal depth
        depth -= 1

    reader = expat.ParserCreate()
    reader.StartDoctypeDeclHandler = refuse
    reader.EntityDeclHandler = refuse
    reader.StartElementHandler = begin
    reader.EndElementHandler = end
    try:
        reader.Parse(content, True)
    except (expat.ExpatError, ValueError, LookupError):
        raise UnsafeFileError("is damaged: one of its parts is not well-formed XML") from None
