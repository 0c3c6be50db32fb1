"""What an exported Word file keeps of itself: its parts as they were written, and a seal on all of them.

The parts lie in a data part (``customXml``) that Word and LibreOffice carry along when they save. By them an edit is
known from a mere saving, and told in words; by its keys an edit finds the record that it belongs to. They are kept as
they are rather than read here: writing takes no longer for it, and old files are compared as new ones are.
"""

import json
from base64 import b64decode, b64encode
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from typing import Final
from xml.etree import ElementTree as Xml

import msgspec

from lessonkit.writers.word.content import read_content
from lessonkit.writers.word.drawn import checked_mark
from lessonkit.writers.word.line import Line
from lessonkit.writers.word.opening import UnsafeFileError, parse, unpack
from lessonkit.writers.word.package import Packed, Part, archive
from lessonkit.writers.word.properties import PROPERTIES_PART, custom_part
from lessonkit.writers.word.xml import DECLARATION

SEAL: Final = "lessonkit seal"
"""The name of the document property that holds the digest of all other parts."""
ABOUT: Final = "about"
"""Among the keys the name of the record that a file's pages are made for; no bookmark is named so."""
CONTENT_PART: Final = "customXml/item1.xml"
_SPACE: Final = "urn:lessonkit:exported"
_DATA: Final = "http://schemas.openxmlformats.org/officeDocument/2006/customXml"
_PACKAGE: Final = "http://schemas.openxmlformats.org/package/2006/relationships"
_OFFICE: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_MEDIA: Final = "word/media/"
_OPENING: Final = f'{DECLARATION}<exported xmlns="{_SPACE}"><keys>'.encode()
_FIXED: Final = (
    Part(
        "customXml/itemProps1.xml",
        (
            f'{DECLARATION}<ds:datastoreItem ds:itemID="{{4C4B0001-0000-4000-8000-4C4553534F4E}}" xmlns:ds="{_DATA}">'
            f'<ds:schemaRefs><ds:schemaRef ds:uri="{_SPACE}"/></ds:schemaRefs></ds:datastoreItem>'
        ).encode(),
        lasting=True,
    ),
    Part(
        "customXml/_rels/item1.xml.rels",
        (
            f'{DECLARATION}<Relationships xmlns="{_PACKAGE}"><Relationship Id="rId1"'
            f' Type="{_OFFICE}/customXmlProps" Target="itemProps1.xml"/></Relationships>'
        ).encode(),
        lasting=True,
    ),
)


@dataclass(frozen=True, slots=True)
class Exported:
    """What was exported: the lines, and the record fields behind each hidden bookmark."""

    lines: tuple[Line, ...]
    keys: Mapping[str, str]


def content_parts(packed: Iterable[Packed], keys: Mapping[str, str]) -> tuple[Part, ...]:
    """Return the parts that keep a file's content; ``keys`` are record fields by the bookmark on them."""
    every = tuple(packed)
    kept = b64encode(archive(part for part in every if not part.name.startswith(_MEDIA)))
    pictures = {part.name: checked_mark(part.checksum, part.size) for part in every if part.name.startswith(_MEDIA)}
    before = b"".join((_OPENING, _json(keys), b"</keys><pictures>", _json(pictures), b"</pictures><parts>"))
    content = b"".join((before, kept, b"</parts></exported>"))
    return (Part(CONTENT_PART, content, dense=len(before)), *_FIXED)


def seal_part(parts: Sequence[Part]) -> Part:
    """Return the properties part with the seal on all other parts."""
    digest = _digest({part.name: part.content for part in parts})
    return Part(PROPERTIES_PART, custom_part(((SEAL, digest),)))


def is_untouched(content: bytes) -> bool:
    """Tell whether every part of a Word file is as it was exported; False for a file of another origin."""
    try:
        parts = unpack(content)
        properties = parse(parts.get(PROPERTIES_PART, b"<none/>"))
    except UnsafeFileError:
        return False
    seals = [_words(each) for each in properties if each.get("name") == SEAL]
    return seals == [_digest({name: part for name, part in parts.items() if name != PROPERTIES_PART})]


def exported_content(parts: Mapping[str, bytes]) -> Exported | None:
    """Return what a file keeps of its export; None where it keeps nothing, or nothing that can be read."""
    for name in sorted(parts):
        if name.startswith("customXml/item") and _SPACE.encode() in parts[name]:
            root = parse(parts[name])
            if root.tag == f"{{{_SPACE}}}exported":
                return _exported(root)
    return None


def _exported(root: Xml.Element) -> Exported | None:
    keys, pictures, kept = (root.findtext(f"{{{_SPACE}}}{child}", "") for child in ("keys", "pictures", "parts"))
    try:
        marks = {str(name): str(mark) for name, mark in json.loads(pictures or "{}").items()}
        lines = read_content(unpack(b64decode(kept, validate=True)), marks)
        return Exported(lines, {str(name): str(key) for name, key in json.loads(keys).items()})
    except (ValueError, AttributeError, UnsafeFileError):
        return None


def _json(words: Mapping[str, str]) -> bytes:
    return msgspec.json.encode(words).replace(b"&", b"&amp;").replace(b"<", b"&lt;").replace(b">", b"&gt;")


def _digest(parts: Mapping[str, bytes]) -> str:
    digest = blake2b(digest_size=16)
    for name in sorted(parts):
        digest.update(f"{name}\0{len(parts[name])}\0".encode())
        digest.update(parts[name])
    return digest.hexdigest()


def _words(element: Xml.Element) -> str:
    return "".join(element.itertext())
