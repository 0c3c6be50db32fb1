"""What a Word file says and how it looks, whatever program saved it last: a flat sequence of lines to compare.

Left out is what programs change on their own: the parting into runs, names of styles and lists, results of fields such
as page numbers, the fallback of a drawing, traces of sessions and spelling.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final
from xml.etree import ElementTree as Xml

from lessonkit.writers.word.drawn import Drawn, picture_mark
from lessonkit.writers.word.line import FRAMED_ANEW, Line
from lessonkit.writers.word.opening import main_part, parse, relations, resolve
from lessonkit.writers.word.resolved import Styles, distances, fill, name, value, whole
from lessonkit.writers.word.school_colors import read_colors

_CHOICE: Final = "{http://schemas.openxmlformats.org/markup-compatibility/2006}Choice"
_ALTERNATIVE: Final = "{http://schemas.openxmlformats.org/markup-compatibility/2006}AlternateContent"
_GONE: Final = frozenset((name("del"), name("moveFrom")))
_JOINED: Final = f"{name('rPr')}/{name('del')}"
"""Where Word marks that the end of a paragraph was taken out under revision."""
_MATHS: Final = "{http://schemas.openxmlformats.org/officeDocument/2006/math}"
_TITLE: Final = "{http://purl.org/dc/elements/1.1/}title"
_THROUGH: Final = frozenset(
    (
        *map(name, ("hyperlink", "sdt", "sdtContent", "ins", "moveTo", "smartTag", "fldSimple")),
        *map(name, ("customXml", "dir", "bdo")),
        _ALTERNATIVE,
        _CHOICE,
    )
)
_SHIFTING: Final = ("PAGE", "NUMPAGES", "PAGEREF", "SEQ", "DATE", "TIME", "SECTIONPAGES")
_BOXES: Final = frozenset("\u2610\u2611\u2612")
KEY_MARK: Final = "_lk_"
"""How the hidden bookmarks begin that tie a paragraph to a record."""


def read_content(parts: Mapping[str, bytes], pictures: Mapping[str, str] = MappingProxyType({})) -> tuple[Line, ...]:
    """Return the lines of a Word file; ``pictures`` are the marks of pictures that are not among the parts.

    Raises UnsafeFileError where its markup is broken.
    """
    main = main_part(parts)
    related = {relation.kind: resolve(main, relation.target) for relation in relations(parts, main)}
    trees = [parse(parts[related[k]]) if related.get(k) in parts else None for k in ("styles", "numbering", "theme")]
    notes = dict(_notes(parts, related))
    whole_file = _File(parts, pictures, Styles(*trees), read_colors(trees[2]), notes)
    root = parse(parts[main])
    lines = list(whole_file.reader(main).blocks(root[0] if len(root) else root))
    by_id = {relation.id: resolve(main, relation.target) for relation in relations(parts, main)}
    for kind in ("header", "footer"):
        for reference in sorted(root.iter(name(f"{kind}Reference")), key=lambda found: value(found, "type")):
            target = by_id.get(reference.get(f"{{{_RELATED}}}id", ""), "")
            if target in parts:
                lines.append(Line("part", look=f"{kind} {value(reference, 'type') or 'default'}"))
                lines.extend(whole_file.reader(target).blocks(parse(parts[target])))
    told = {line for line in lines if line.kind == "note"}
    lines.extend(line for line in notes.values() if line not in told)
    lines.extend(Line("note", title, "title in the file's properties") for title in _titles(parts))
    return tuple(lines)


def _notes(parts: Mapping[str, bytes], related: Mapping[str, str]) -> Iterator[tuple[str, Line]]:
    """Yield comments, footnotes and endnotes by their kind and number."""
    for kind in ("comment", "footnote", "endnote"):
        if related.get(f"{kind}s") in parts:
            for each in parse(parts[related[f"{kind}s"]]):
                if words := _plain(each):
                    yield f"{kind} {value(each, 'id')}", Line("note", words, kind.replace("endnote", "footnote"))


def _titles(parts: Mapping[str, bytes]) -> Iterator[str]:
    core = next((resolve("", found.target) for found in relations(parts, "") if found.kind == "core-properties"), "")
    if core in parts:
        title = parse(parts[core]).findtext(_TITLE)
        if title:
            yield title


@dataclass(frozen=True, slots=True)
class _File:
    """What the parts of a file share: styles, theme colours, notes, and the marks of missing pictures."""

    parts: Mapping[str, bytes]
    pictures: Mapping[str, str]
    styles: Styles
    colors: Mapping[str, str]
    notes: Mapping[str, Line]

    def reader(self, part: str) -> "_Reader":
        """Return a reader for one part, which knows what its relations lead to."""
        found = relations(self.parts, part)
        links = {relation.id: relation.target for relation in found if relation.outside}
        known = {relation.id: resolve(part, relation.target) for relation in found if not relation.outside}
        marks = {identity: self.pictures.get(target, "") for identity, target in known.items()}
        marks |= {key: picture_mark(self.parts[target]) for key, target in known.items() if target in self.parts}
        frames = FRAMED_ANEW if b"LibreOffice" in self.parts.get("docProps/app.xml", b"") else ""
        return _Reader(self, Drawn(self.colors, {**marks, **links}, frames), links)


_RELATED: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def _plain(element: Xml.Element) -> str:
    return " ".join("".join(found.text or "" for found in element.iter(name("t"))).split())


class _Reader:
    def __init__(self, file: _File, drawn: Drawn, links: Mapping[str, str]) -> None:
        self._styles = file.styles
        self._notes = file.notes
        self._drawn = drawn
        self._links = links

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
        grid, usual = table.find(name("tblGrid")), self._styles.ground(table)
        yield Line("table", sizes=tuple(whole(value(each, "w")) for each in grid) if grid is not None else ())
        for row in _inside(table, "tr"):
            if row.find(f"{name('trPr')}/{name('del')}") is not None:
                continue
            yield Line("row")
            for cell in _inside(row, "tc"):
                properties = cell.find(name("tcPr"))
                span = "" if properties is None else value(properties.find(name("gridSpan")))
                merged = properties is not None and properties.find(name("vMerge")) is not None
                ground = "" if properties is None else fill(value(properties.find(name("shd")), "fill"))
                yield Line("cell", ground or usual, f"{span or 1}{'+' if merged else ''}")
                yield from self.blocks(cell)
        yield Line("end")

    def _paragraph(self, paragraph: Xml.Element) -> Iterator[Line]:
        properties = paragraph.find(name("pPr"))
        around, look = self._styles.paragraph(properties)
        text = _Text(self._styles, around, self._links)
        text.read(paragraph)
        style = self._styles.title(value(properties.find(name("pStyle"))) if properties is not None else "")
        form = [style, *(look.get(each, "") for each in ("list", "align", "new page", "shaded"))]
        form.append("" if properties is None or properties.find(_JOINED) is None else "yes")
        yield Line("p", "".join(text.words), "|".join(form), distances(look), text.stretches(), text.key)
        for drawn in text.drawn:
            yield from self._drawn.lines(drawn)
        yield from (self._notes[each] for each in text.notes if each in self._notes)
        section = None if properties is None else properties.find(name("sectPr"))
        if section is not None:
            yield _section(section)


def _inside(element: Xml.Element, tag: str) -> Iterator[Xml.Element]:
    """Yield the rows of a table or the cells of a row, those in content controls too."""
    for child in element:
        if child.tag == name(tag):
            yield child
        elif child.tag in _THROUGH:
            yield from _inside(child, tag)


class _Text:
    """The words of a paragraph as they are read: pieces with their looks, drawings, the key."""

    def __init__(self, styles: Styles, around: Mapping[str, str], links: Mapping[str, str]) -> None:
        self._styles = styles
        self._around = around
        self._links = links
        self._link = ""
        self._fields: list[tuple[str, bool]] = []
        self._looks: list[tuple[int, str]] = []
        self.words: list[str] = []
        self.drawn: list[Xml.Element] = []
        self.notes: list[str] = []
        self.key = ""

    def read(self, element: Xml.Element) -> None:
        """Read the runs below an element in their order."""
        linked = bool(value(element, "anchor"))
        for child in element:
            if child.tag == name("r"):
                self._run(child, linked)
            elif child.tag == name("bookmarkStart") and value(child, "name").startswith(KEY_MARK):
                self.key = self.key or value(child, "name")
            elif child.tag == name("hyperlink"):
                self._link = self._links.get(child.get(f"{{{_RELATED}}}id", ""), "")
                self.read(child)
                self._link = ""
            elif child.tag in _THROUGH and not _shifts(value(child, "instr")):
                self.read(child)
            elif child.tag.startswith(_MATHS):
                self._say("".join(found.text or "" for found in child.iter(f"{_MATHS}t")), "")

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
            elif part.tag in _NOTED:
                self.notes.append(f"{_NOTED[part.tag]} {value(part, 'id')}")
            elif part.tag in _DRAWN:
                self.drawn.append(part)
            elif self._shows() and not (linked and words[-1:] == ["\t"] and (part.text or "").isdigit()):
                words.append(_letters(part))
        said = "".join(words)
        self._say(said, "" if _BOXES.issuperset(said) else self._look(run))

    def _say(self, said: str, look: str) -> None:
        if said:
            self.words.append(said)
            self._looks.append((len(said), look))

    def _look(self, run: Xml.Element) -> str:
        look = self._styles.words(self._around, run.find(name("rPr")))
        if self._link:
            look["link"] = self._link.rstrip("/")
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


def _shifts(code: str) -> bool:
    """Tell whether a field's result changes with the layout or the day rather than by an author's hand."""
    words = code.split()
    return bool(words) and words[0].upper() in _SHIFTING


def _letters(part: Xml.Element) -> str:
    if part.tag == name("t"):
        return part.text or ""
    if part.tag == name("br"):
        return "\f" if value(part, "type") == "page" else "\n"
    if part.tag == name("ruby"):
        return "".join(found.text or "" for base in part.findall(name("rubyBase")) for found in base.iter(name("t")))
    return value(part, "char") if part.tag == name("sym") else _SIGNS.get(part.tag, "")


_SIGNS: Final = {name("tab"): "\t", name("ptab"): "\t", name("cr"): "\n", name("noBreakHyphen"): "\u2011"}
_NOTED: Final = {name(f"{kind}Reference"): kind for kind in ("comment", "footnote", "endnote")}
_DRAWN: Final = frozenset((name("drawing"), name("pict"), name("object")))


def _section(section: Xml.Element) -> Line:
    size, margins = section.find(name("pgSz")), section.find(name("pgMar"))
    sides = ("top", "right", "bottom", "left")
    sizes = [whole(value(size, side)) for side in ("w", "h")]
    sizes += [whole(value(margins, side)) for side in sides]
    columns = value(section.find(name("cols")), "num") or "1"
    return Line("section", look=columns, sizes=tuple(sizes))
