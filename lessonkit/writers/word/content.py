"""What a Word file says and how it looks, whatever program saved it last: a flat sequence of lines to compare.

Left out is what programs change on their own: the parting into runs, names of styles and lists, results of fields such
as page numbers, the fallback of a drawing, traces of sessions and spelling.
"""

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.opening import main_part, parse, relations, resolve
from lessonkit.writers.word.resolved import Styles, distances, name, value, whole

_DRAW: Final = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
_PLACED: Final = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"
_SHAPE: Final = "{http://schemas.microsoft.com/office/word/2010/wordprocessingShape}"
_CHOICE: Final = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Choice"
_ALTERNATIVE: Final = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"
_GONE: Final = frozenset((name("del"), name("moveFrom")))
_THROUGH: Final = frozenset(
    name(tag) for tag in ("hyperlink", "sdt", "sdtContent", "ins", "moveTo", "smartTag", "fldSimple")
)
_SHIFTING: Final = ("PAGE", "NUMPAGES", "PAGEREF", "SEQ", "DATE", "TIME", "SECTIONPAGES")
_BOXES: Final = frozenset("\u2610\u2611\u2612")
FRAMED_ANEW: Final = "framed anew"
"""The look of a drawing from a program that gives groups of shapes another frame and size when it saves."""
KEY_MARK: Final = "_lk_"
"""How the hidden bookmarks begin that tie a paragraph to a record."""


class Line(NamedTuple):
    """One thing in its order: a paragraph (``p``), the beginning of a table, row or cell, a shape, a section.

    ``look`` tells apart what reads the same, ``sizes`` are measures that programs round, ``marks`` are (length, look)
    stretches of the words, ``key`` is the hidden bookmark on them.
    """

    kind: str
    words: str = ""
    look: str = ""
    sizes: tuple[int, ...] = ()
    marks: tuple[tuple[int, str], ...] = ()
    key: str = ""


def read_content(parts: Mapping[str, bytes]) -> tuple[Line, ...]:
    """Return the lines of a Word file. Raises UnsafeFileError where its markup is broken."""
    main = main_part(parts)
    related = {relation.kind: resolve(main, relation.target) for relation in relations(parts, main)}
    trees = [parse(parts[related[k]]) if related.get(k) in parts else None for k in ("styles", "numbering", "theme")]
    reader = _Reader(Styles(*trees), FRAMED_ANEW if b"LibreOffice" in parts.get("docProps/app.xml", b"") else "")
    root = parse(parts[main])
    lines = list(reader.blocks(root[0] if len(root) else root))
    by_id = {relation.id: resolve(main, relation.target) for relation in relations(parts, main)}
    for kind in ("header", "footer"):
        for reference in root.iter(name(f"{kind}Reference")):
            target = by_id.get(reference.get(f"{{{_RELATED}}}id", ""), "")
            if target in parts:
                lines.append(Line("part", look=f"{kind} {value(reference, 'type') or 'default'}"))
                lines.extend(reader.blocks(parse(parts[target])))
    for kind, what in (("comments", "comment"), ("footnotes", "footnote"), ("endnotes", "footnote")):
        if related.get(kind) in parts:
            notes = parse(parts[related[kind]])
            lines.extend(Line("note", _plain(each), what) for each in notes if _plain(each))
    return tuple(lines)


_RELATED: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def _plain(element: Xml.Element) -> str:
    return " ".join("".join(found.text or "" for found in element.iter(name("t"))).split())


class _Reader:
    def __init__(self, styles: Styles, frames: str) -> None:
        self._styles = styles
        self._frames = frames

    def blocks(self, parent: Xml.Element) -> Iterator[Line]:
        """Yield the lines of the paragraphs, tables and sections of an element."""
        for block in parent:
            if block.tag == name("p"):
                yield from self._paragraph(block)
            elif block.tag == name("tbl"):
                yield from self._table(block)
            elif block.tag == name("sectPr"):
                yield _section(block)
            elif block.tag in _THROUGH:
                yield from self.blocks(block)

    def _table(self, table: Xml.Element) -> Iterator[Line]:
        grid = table.find(name("tblGrid"))
        yield Line("table", sizes=tuple(whole(value(each, "w")) for each in grid) if grid is not None else ())
        for row in _rows(table):
            if row.find(f"{name('trPr')}/{name('del')}") is not None:
                continue
            yield Line("row")
            for cell in row.findall(name("tc")):
                properties = cell.find(name("tcPr"))
                span = "" if properties is None else value(properties.find(name("gridSpan")))
                merged = properties is not None and properties.find(name("vMerge")) is not None
                yield Line("cell", look=f"{span or 1}{'+' if merged else ''}")
                yield from self.blocks(cell)
        yield Line("end")

    def _paragraph(self, paragraph: Xml.Element) -> Iterator[Line]:
        properties = paragraph.find(name("pPr"))
        around, look = self._styles.paragraph(properties)
        text = _Text(self._styles, around)
        text.read(paragraph)
        style = self._styles.title(value(properties.find(name("pStyle"))) if properties is not None else "")
        form = [style, look.get("list", ""), look.get("align", ""), look.get("new page", ""), look.get("shaded", "")]
        yield Line("p", "".join(text.words), "|".join(form), distances(look), text.stretches(), text.key)
        for drawn in text.drawn:
            yield from self._drawing(drawn)
        section = None if properties is None else properties.find(name("sectPr"))
        if section is not None:
            yield _section(section)

    def _drawing(self, drawn: Xml.Element) -> Iterator[Line]:
        extent = next(drawn.iter(f"{_PLACED}extent"), None)
        shapes = list(drawn.iter(f"{_SHAPE}wsp"))
        kind = "drawing" if shapes else "picture"
        size = () if extent is None else (whole(extent.get("cx", "")), whole(extent.get("cy", "")))
        yield Line(kind, look=self._frames, sizes=size)
        for shape in shapes:
            yield Line("shape", _plain(shape), sizes=_frame(shape))


def _rows(element: Xml.Element) -> Iterator[Xml.Element]:
    """Yield the rows of a table, those in content controls too."""
    for child in element:
        if child.tag == name("tr"):
            yield child
        elif child.tag in _THROUGH:
            yield from _rows(child)


class _Text:
    """The words of a paragraph as they are read: pieces with their looks, drawings, the key."""

    def __init__(self, styles: Styles, around: Mapping[str, str]) -> None:
        self._styles = styles
        self._around = around
        self._fields: list[tuple[str, bool]] = []
        self._looks: list[tuple[int, str]] = []
        self.words: list[str] = []
        self.drawn: list[Xml.Element] = []
        self.key = ""

    def read(self, element: Xml.Element) -> None:
        """Read the runs below an element in their order."""
        linked = bool(value(element, "anchor"))
        for child in element:
            if child.tag == name("r"):
                self._run(child, linked)
            elif child.tag == name("bookmarkStart") and value(child, "name").startswith(KEY_MARK):
                self.key = self.key or value(child, "name")
            elif child.tag in _THROUGH and not _shifts(value(child, "instr")):
                self.read(child)

    def stretches(self) -> tuple[tuple[int, str], ...]:
        """Return the looks of the words, neighbours of one look joined."""
        joined: list[tuple[int, str]] = []
        for length, look in self._looks:
            if joined and joined[-1][1] == look:
                joined[-1] = (joined[-1][0] + length, look)
            else:
                joined.append((length, look))
        return tuple(joined)

    def _run(self, run: Xml.Element, linked: bool) -> None:
        """Read a run; in a link into the document, a number behind a tab is a page, which changes with the layout."""
        words: list[str] = []
        for part in run:
            if part.tag == name("fldChar"):
                self._field(value(part, "fldCharType"))
            elif part.tag == name("instrText") and self._fields:
                self._fields[-1] = (self._fields[-1][0] + (part.text or ""), self._fields[-1][1])
            elif part.tag == _ALTERNATIVE:
                chosen = part.find(_CHOICE)
                self.drawn.extend(() if chosen is None else chosen.findall(name("drawing")))
            elif part.tag == name("drawing"):
                self.drawn.append(part)
            elif self._shows() and not (linked and words[-1:] == ["\t"] and (part.text or "").isdigit()):
                words.append(_letters(part))
        said = "".join(words)
        if said:
            self.words.append(said)
            self._looks.append((len(said), "" if _BOXES.issuperset(said) else self._look(run)))

    def _look(self, run: Xml.Element) -> str:
        look = self._styles.words(self._around, run.find(name("rPr")))
        return ";".join(f"{key}:{look[key]}" for key in sorted(look))

    def _field(self, kind: str) -> None:
        if kind == "begin":
            self._fields.append(("", False))
        elif kind == "separate" and self._fields:
            self._fields[-1] = (self._fields[-1][0], True)
        elif kind == "end" and self._fields:
            self._fields.pop()

    def _shows(self) -> bool:
        return all(separate and not _shifts(code) for code, separate in self._fields)


def _frame(shape: Xml.Element) -> tuple[int, ...]:
    """Return where a shape stands and how large it is, in EMU."""
    frame = shape.find(f".//{_DRAW}xfrm")
    sizes = []
    for child, names in (("off", ("x", "y")), ("ext", ("cx", "cy"))):
        found = None if frame is None else frame.find(f"{_DRAW}{child}")
        sizes += [0 if found is None else whole(found.get(each, "")) for each in names]
    return tuple(sizes)


def _shifts(code: str) -> bool:
    """Tell whether a field's result changes with the layout or the day rather than by an author's hand."""
    words = code.split()
    return bool(words) and words[0].upper() in _SHIFTING


def _letters(part: Xml.Element) -> str:
    if part.tag == name("t"):
        return part.text or ""
    if part.tag == name("tab"):
        return "\t"
    if part.tag == name("br"):
        return "\f" if value(part, "type") == "page" else "\n"
    if part.tag == name("noBreakHyphen"):
        return "\u2011"
    return value(part, "char") if part.tag == name("sym") else ""


def _section(section: Xml.Element) -> Line:
    size, margins = section.find(name("pgSz")), section.find(name("pgMar"))
    sides = ("top", "right", "bottom", "left")
    sizes = [whole(value(size, side)) for side in ("w", "h")]
    sizes += [whole(value(margins, side)) for side in sides]
    return Line("section", sizes=tuple(sizes))
