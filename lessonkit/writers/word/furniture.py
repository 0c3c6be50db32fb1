"""Headers and footers of a school's Word file, with their pictures, made ready to stand in ours."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.markup import read_markup, write_markup
from lessonkit.writers.word.opening import UnsafeFileError, parse, relations, resolve
from lessonkit.writers.word.package import Part
from lessonkit.writers.word.resolved import name, value, whole
from lessonkit.writers.word.xml import DECLARATION, quoted

_R: Final = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_WP: Final = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"
_PACKAGE: Final = "http://schemas.openxmlformats.org/package/2006/relationships"
_OFFICE: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_FIRST_DRAWING: Final = 900_000
"""Drawings of headers are numbered from here, away from those of the text."""
_PICTURES: Final = {
    "png": "image/png",
    "jpg": "image/jpeg",
    "jpeg": "image/jpeg",
    "gif": "image/gif",
    "bmp": "image/bmp",
    "tif": "image/tiff",
    "tiff": "image/tiff",
    "emf": "image/x-emf",
    "wmf": "image/x-wmf",
    "svg": "image/svg+xml",
}
_LEFT_OUT: Final = frozenset(
    name(tag)
    for tag in (
        *("bookmarkStart", "bookmarkEnd", "commentRangeStart", "commentRangeEnd", "commentReference", "proofErr"),
        *("numPr", "dataBinding", "permStart", "permEnd", "footnoteReference", "endnoteReference", "docPartObj"),
    )
)
_STYLES: Final = (name("pStyle"), name("rStyle"))


@dataclass(frozen=True, slots=True)
class Furniture:
    """What stands around the text: the parts, what kind each is, the pictures' endings, and the page's measures.

    ``shown`` are (``header`` or ``footer``, ``default``, ``first`` or ``even``, name below ``word/``). Measures are
    twentieths of a point, 0 where the file says nothing.
    """

    parts: tuple[Part, ...] = ()
    shown: tuple[tuple[str, str, str], ...] = ()
    endings: tuple[str, ...] = ()
    title_page: bool = False
    even_pages: bool = False
    top: int = 0
    bottom: int = 0
    header_at: int = 0
    footer_at: int = 0


def read_furniture(parts: Mapping[str, bytes], main: str, ids: Mapping[str, str], plain: str) -> Furniture:
    """Return the headers and footers of a file's last section; ``ids`` are our style ids by theirs."""
    sections = list(parse(parts[main]).iter(name("sectPr")))
    if not sections:
        return Furniture()
    maker = _Maker(parts, ids, plain)
    targets = {relation.id: resolve(main, relation.target) for relation in relations(parts, main)}
    for section in sections:
        for kind in ("header", "footer"):
            for reference in section.findall(name(f"{kind}Reference")):
                maker.take(kind, value(reference, "type") or "default", targets.get(reference.get(f"{_R}id", ""), ""))
    last = sections[-1]
    margins = last.find(name("pgMar"))
    settings = next((resolve(main, r.target) for r in relations(parts, main) if r.kind == "settings"), "")
    made = Furniture(
        parts=tuple(maker.parts.values()),
        shown=tuple((kind, side, file) for (kind, side), file in sorted(maker.shown.items())),
        endings=tuple(sorted(maker.endings)),
        title_page=last.find(name("titlePg")) is not None,
        even_pages=_has_even_pages(parts.get(settings)),
    )
    if margins is None:
        return made
    sides = {side: _measure(value(margins, side)) for side in ("top", "bottom", "header", "footer")}
    return replace(made, top=sides["top"], bottom=sides["bottom"], header_at=sides["header"], footer_at=sides["footer"])


def ending_type(ending: str) -> str:
    """Return the media type of a picture's ending."""
    return _PICTURES[ending]


def _has_even_pages(settings: bytes | None) -> bool:
    found = None if settings is None else parse(settings).find(name("evenAndOddHeaders"))
    return found is not None and value(found) not in ("0", "false", "off")


def _measure(written: str) -> int:
    return max(0, min(whole(written), 4000))


class _Maker:
    def __init__(self, parts: Mapping[str, bytes], ids: Mapping[str, str], plain: str) -> None:
        self._theirs = parts
        self._ids = ids
        self._plain = plain
        self._drawings = _FIRST_DRAWING
        self.parts: dict[str, Part] = {}
        self.shown: dict[tuple[str, str], str] = {}
        self.endings: set[str] = set()

    def take(self, kind: str, side: str, source: str) -> None:
        """Take one header or footer over; a later section's takes the place of an earlier one's."""
        if source not in self._theirs or side not in ("default", "first", "even"):
            return
        file = f"school_{kind}_{side}.xml"
        markup = read_markup(self._theirs[source])
        self._clean(markup.root)
        rows = list(self._relations(source, f"{kind}_{side}"))
        self._cut_loose_ends(markup.root, {identity for identity, *_ in rows})
        self.shown[kind, side] = file
        self.parts[f"word/{file}"] = Part(f"word/{file}", write_markup(markup), lasting=True)
        self.parts.pop(f"word/_rels/{file}.rels", None)
        if rows:
            listed = "".join(
                f'<Relationship Id="{quoted(identity)}" Type="{_OFFICE}/{what}" Target="{quoted(target)}"{mode}/>'
                for identity, what, target, mode in rows
            )
            content = f'{DECLARATION}<Relationships xmlns="{_PACKAGE}">{listed}</Relationships>'.encode()
            self.parts[f"word/_rels/{file}.rels"] = Part(f"word/_rels/{file}.rels", content, lasting=True)

    def _relations(self, source: str, who: str) -> Iterator[tuple[str, str, str, str]]:
        for number, relation in enumerate(relations(self._theirs, source), start=1):
            if relation.outside:
                yield relation.id, "hyperlink", relation.target, ' TargetMode="External"'
                continue
            picture = resolve(source, relation.target)
            ending = picture.rpartition(".")[2].lower()
            if relation.kind != "image" or picture not in self._theirs:
                continue
            if ending not in _PICTURES:
                raise UnsafeFileError(f"shows a picture of the kind {ending!r} in its header or footer")
            if ending == "svg":
                parse(self._theirs[picture])
            file = f"media/school_{who}_{number}.{ending}"
            self.parts[f"word/{file}"] = Part(f"word/{file}", self._theirs[picture], lasting=True)
            self.endings.add(ending)
            yield relation.id, "image", file, ""

    def _clean(self, root: Xml.Element) -> None:
        """Give styles and drawings our ids, and leave out what leads into the rest of their file."""
        for parent in list(root.iter()):
            for child in [each for each in parent if each.tag in _LEFT_OUT]:
                parent.remove(child)
        for element in root.iter():
            if element.tag in _STYLES:
                element.set(name("val"), self._ids.get(value(element), self._plain or "Normal"))
            elif element.tag == f"{_WP}docPr":
                self._drawings += 1
                element.set("id", str(self._drawings))
        for paragraph in root.iter(name("p")):
            _style_plain(paragraph, self._plain)
        for table in root.iter(name("tblPr")):
            for style in table.findall(name("tblStyle")):
                table.remove(style)

    @staticmethod
    def _cut_loose_ends(root: Xml.Element, known: set[str]) -> None:
        """Take out what refers to a part that does not come along."""
        for parent in list(root.iter()):
            for child in list(parent):
                refers = [each for key, each in child.items() if key.startswith(_R)]
                if any(each not in known for each in refers):
                    parent.remove(child)


def _style_plain(paragraph: Xml.Element, plain: str) -> None:
    """Give a paragraph without a style the school's usual one, which is not ours."""
    if not plain:
        return
    properties = paragraph.find(name("pPr"))
    if properties is None:
        properties = Xml.Element(name("pPr"))
        paragraph.insert(0, properties)
    if properties.find(name("pStyle")) is None:
        properties.insert(0, Xml.Element(name("pStyle"), {name("val"): plain}))
