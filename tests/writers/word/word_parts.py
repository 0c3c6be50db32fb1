"""Opens a Word file for the checks: its parts as trees, and the standard's schemas for them."""

import io
import zipfile
from functools import lru_cache
from pathlib import Path

from lxml import etree

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
WP = "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"
WPS = "http://schemas.microsoft.com/office/word/2010/wordprocessingShape"
WPG = "http://schemas.microsoft.com/office/word/2010/wordprocessingGroup"
W14 = "http://schemas.microsoft.com/office/word/2010/wordml"
MC = "http://schemas.openxmlformats.org/markup-compatibility/2006"
A = "http://schemas.openxmlformats.org/drawingml/2006/main"
R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
EXTENDED = "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"
CUSTOM = "http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"
TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"

SCHEMAS = Path(__file__).parents[2] / "outside" / "ooxml-transitional-xsd"
_FILES = {
    W: "wml.xsd",
    A: "dml-main.xsd",
    EXTENDED: "shared-documentPropertiesExtended.xsd",
    CUSTOM: "shared-documentPropertiesCustom.xsd",
    TYPES: "opc-contentTypes.xsd",
    RELATIONS: "opc-relationships.xsd",
}


def parts(document: bytes) -> dict[str, bytes]:
    """Return the parts of a Word file by name, in their order."""
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def tree(document: bytes, name: str = "word/document.xml") -> etree._Element:
    """Return one part as a tree."""
    return etree.fromstring(parts(document)[name])


def w(name: str) -> str:
    """Return a name in the WordprocessingML namespace."""
    return f"{{{W}}}{name}"


def values(root: etree._Element, path: str, attribute: str = "val") -> list[str]:
    """Return the values of a WordprocessingML attribute on all elements of a name."""
    return [element.get(w(attribute), "") for element in root.iter(w(path))]


def schema_faults(name: str, content: bytes, branch: str = "Choice") -> list[str]:
    """Return what the standard's schema finds wrong with a part, one of its markup-compatibility branches chosen."""
    root = etree.fromstring(content)
    file = _FILES.get(etree.QName(root).namespace or "")
    if file is None:
        return []
    known = etree.fromstring(_as_in_the_standard(etree.tostring(_one_branch(root, branch))))
    schema = _schema(file)
    schema.validate(known)
    return [f"{name}: {entry}" for entry in str(schema.error_log).splitlines()]


@lru_cache(maxsize=8)
def _schema(file: str) -> etree.XMLSchema:
    target = etree.parse(SCHEMAS / file).getroot().get("targetNamespace")
    wrapper = (
        '<xsd:schema xmlns:xsd="http://www.w3.org/2001/XMLSchema">'
        '<xsd:import namespace="http://www.w3.org/XML/1998/namespace" schemaLocation="xml.xsd"/>'
        f'<xsd:import namespace="{target}" schemaLocation="{file}"/></xsd:schema>'
    )
    return etree.XMLSchema(etree.fromstring(wrapper, base_url=f"{SCHEMAS.as_uri()}/wrapper.xsd"))


def _one_branch(root: etree._Element, branch: str) -> etree._Element:
    """Keep one branch of each alternative and drop what belongs to the declared extension of 2010."""
    if f"{{{MC}}}Ignorable" in root.attrib:
        del root.attrib[f"{{{MC}}}Ignorable"]
    for alternative in list(root.iter(f"{{{MC}}}AlternateContent")):
        parent = alternative.getparent()
        assert parent is not None
        kept = alternative.find(f"{{{MC}}}{branch}")
        place = parent.index(alternative)
        for child in list(kept if kept is not None else ()):
            parent.insert(place, child)
            place += 1
        parent.remove(alternative)
    for extension in list(root.iter(f"{{{W14}}}*")):
        parent = extension.getparent()
        if parent is not None:
            parent.remove(extension)
    return root


def _as_in_the_standard(content: bytes) -> bytes:
    """Name shapes as ISO 29500 does: Word's namespaces of 2010 hold the same types; text boxes differ in a prefix."""
    renamed = content.replace(WPS.encode(), WP.encode()).replace(WPG.encode(), WP.encode())
    return renamed.replace(b"<w:txbxContent", b"<wp:txbxContent").replace(b"</w:txbxContent", b"</wp:txbxContent")
