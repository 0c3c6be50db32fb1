"""Markup of others, read with the prefixes it declares and written again with all of them.

Word looks for prefixes inside values (``mc:Ignorable``, ``Requires``), which a plain writer of XML would lose.
"""

import io
from dataclasses import dataclass
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.opening import parse
from lessonkit.writers.word.xml import DECLARATION, escaped, quoted

_XML = "http://www.w3.org/XML/1998/namespace"


@dataclass(frozen=True, slots=True)
class Markup:
    """A part's tree with its prefixes by namespace."""

    root: Xml.Element
    prefixes: tuple[tuple[str, str], ...]


def read_markup(content: bytes) -> Markup:
    """Return the tree of a part. Raises UnsafeFileError for a broken part or one that declares entities."""
    root = parse(content)
    prefixes: dict[str, str] = {}
    for _, (prefix, space) in Xml.iterparse(io.BytesIO(content), events=("start-ns",)):
        if prefix and space not in prefixes and prefix not in prefixes.values():
            prefixes[space] = prefix
    number = 0
    for element in root.iter():
        for tag in (element.tag, *element.keys()):
            space = tag[1:].partition("}")[0] if tag.startswith("{") else ""
            if space and space != _XML and space not in prefixes:
                number += 1
                prefixes[space] = f"x{number}"
    return Markup(root, tuple(prefixes.items()))


def write_markup(markup: Markup) -> bytes:
    """Return a part: every prefix is declared at its root."""
    prefixes = dict(markup.prefixes)
    declared = "".join(f' xmlns:{prefix}="{quoted(space)}"' for space, prefix in markup.prefixes)
    return (DECLARATION + _element(markup.root, {**prefixes, _XML: "xml"}, declared)).encode()


def element_text(element: Xml.Element, prefixes: dict[str, str]) -> str:
    """Return an element as text; its namespaces are declared around it."""
    return _element(element, prefixes, "")


def _element(element: Xml.Element, prefixes: dict[str, str], declared: str) -> str:
    tag = _name(element.tag, prefixes)
    given = "".join(f' {_name(key, prefixes)}="{quoted(value)}"' for key, value in element.items())
    inside = escaped(element.text or "") + "".join(
        _element(child, prefixes, "") + escaped(child.tail or "") for child in element
    )
    return f"<{tag}{declared}{given}>{inside}</{tag}>" if inside else f"<{tag}{declared}{given}/>"


def _name(tag: str, prefixes: dict[str, str]) -> str:
    if not tag.startswith("{"):
        return tag
    space, _, local = tag[1:].partition("}")
    return f"{prefixes[space]}:{local}"
