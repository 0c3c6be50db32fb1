"""Whether a Word file from elsewhere is safe to take a look from; one that is not is refused in a sentence.

Refused is what starts programs, fetches anything from elsewhere or hides other files, wherever it stands in the file.
"""

import re
from collections.abc import Mapping
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.opening import Relation, UnsafeFileError, main_part, parse, relations
from lessonkit.writers.word.resolved import name, value

_PROGRAMS: Final = ("macroenabled", "vbaproject", "vbadata", "activex", "ms-word.attachedtoolbars")
_OBJECTS: Final = ("oleobject", "package", "control", "frame", "subdocument", "afchunk", "htmlpub")
_FETCHING: Final = frozenset(
    (
        *("DDE", "DDEAUTO", "INCLUDE", "INCLUDEPICTURE", "INCLUDETEXT", "IMPORT", "LINK", "DATABASE", "MACROBUTTON"),
        *("RD", "EMBED", "CONTROL", "HTMLCONTROL"),
    )
)
_WORD_TYPES: Final = ("wordprocessingml.document.main+xml", "wordprocessingml.template.main+xml")
_SAFE_ADDRESS: Final = re.compile(r"(?:https?://|mailto:|#)[^\s\\]*", re.IGNORECASE)
_XML: Final = (".xml", ".rels", ".vml", ".svg")


def refuse_hostile(parts: Mapping[str, bytes]) -> None:
    """Raise UnsafeFileError, whose message goes on after the file's name, for a file that is not safe to use."""
    types = parts["[Content_Types].xml"]
    parse(types)
    lowered = types.decode("utf-8", "replace").lower()
    if any(word in lowered or any(word in part.lower() for part in parts) for word in _PROGRAMS):
        raise UnsafeFileError("holds macros or other programs; save it as a plain .docx without them")
    main_part(parts)
    if not any(kind in lowered for kind in _WORD_TYPES):
        raise UnsafeFileError("is not a Word document but another kind of Office file")
    for part in sorted(parts):
        if part.lower().endswith(_XML) or part == "[Content_Types].xml":
            _refuse_fields(parse(parts[part]))
    for part in ("", *sorted(part for part in parts if not part.endswith(".rels"))):
        for relation in relations(parts, part):
            _refuse_relation(relation)


def _refuse_relation(relation: Relation) -> None:
    kind = relation.kind.lower()
    if kind == "attachedtemplate":
        raise UnsafeFileError("is tied to a template elsewhere; detach the template and save it again")
    if kind in _OBJECTS:
        raise UnsafeFileError("holds another file or object inside; take it out and save it again")
    if not relation.outside:
        if relation.target.split("/").count("..") > 2 or "\\" in relation.target or ":" in relation.target:
            raise UnsafeFileError("refers to something outside of itself")
        return
    if kind != "hyperlink":
        raise UnsafeFileError("fetches a part from elsewhere, such as a linked picture; put it into the file instead")
    if not _SAFE_ADDRESS.fullmatch(relation.target):
        raise UnsafeFileError("holds a link that is neither a web nor a mail address")


def _refuse_fields(root: Xml.Element) -> None:
    if root.find(f".//{name('altChunk')}") is not None:
        raise UnsafeFileError("holds another file or object inside; take it out and save it again")
    codes = [value(each, "instr") for each in root.iter(name("fldSimple"))]
    for paragraph in root.iter(name("p")):
        codes += "".join(_code(each) for each in paragraph.iter() if each.tag in _FIELD_PARTS).split("\0")
    for code in codes:
        words = code.split()
        if words and words[0].upper() in _FETCHING:
            raise UnsafeFileError(f"holds a field that fetches or starts something ({words[0].upper()})")


_FIELD_PARTS: Final = frozenset((name("instrText"), name("fldChar")))


def _code(element: Xml.Element) -> str:
    """Return a piece of a field's code; fields are parted by a sign that no code holds."""
    return element.text or "" if element.tag == name("instrText") else "\0"
