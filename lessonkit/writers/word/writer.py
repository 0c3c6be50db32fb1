"""The Word writer: a document tree to the bytes of a .docx file.

Every part is made here as text and packed by our own archive step, so that the same document gives the same bytes.
"""

from dataclasses import replace
from functools import lru_cache

from lessonkit.document.model import (
    Block,
    Contents,
    Document,
    Heading,
    ListBlock,
    Note,
    Paragraph,
    Table,
)
from lessonkit.writers.options import Options, SchoolLook
from lessonkit.writers.word.blocks import body_pieces
from lessonkit.writers.word.furniture import Furniture, ending_type
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.numbering import numbering_part
from lessonkit.writers.word.package import Part, archive, pack
from lessonkit.writers.word.page import Page
from lessonkit.writers.word.pagination import fill_pages, with_pages
from lessonkit.writers.word.pagination_measure import Measure
from lessonkit.writers.word.properties import (
    PROPERTIES_PART,
    core_part,
    extended_part,
    footer_part,
)
from lessonkit.writers.word.record_of_export import ABOUT, CONTENT_PART, content_parts, seal_part
from lessonkit.writers.word.setting import Setting, setting
from lessonkit.writers.word.settled import SPARE, settled
from lessonkit.writers.word.xml import DECLARATION, NAMESPACES, quoted

_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml"
_OFFICE_TYPE = "application/vnd.openxmlformats-officedocument"
_INSIDE = (
    ("styles", "styles.xml", f"{_WORD}.styles+xml"),
    ("settings", "settings.xml", f"{_WORD}.settings+xml"),
    ("theme", "theme/theme1.xml", f"{_OFFICE_TYPE}.theme+xml"),
    ("fontTable", "fontTable.xml", f"{_WORD}.fontTable+xml"),
    ("numbering", "numbering.xml", f"{_WORD}.numbering+xml"),
    ("footer", "footer1.xml", f"{_WORD}.footer+xml"),
)
"""Parts beside the body: kind of relation, name below word/, content type; their relations are numbered from 1."""

_BEGIN = f"{DECLARATION}<w:document {NAMESPACES}><w:body>"
_END = "</w:body></w:document>"

_NO_OPTIONS = Options()
_SPARE_OF_LOOKS = 2.5 * SPARE


def write(document: Document, options: Options | None = None) -> bytes:
    """Return the document as a .docx file. Same document and options, same bytes (for one build of the zlib library).

    Raises ValueError if a table row does not fill its columns, or if drawings shall be pictures and nothing makes them.
    """
    options = options or Options()
    around = _around(document, options)
    document = numbered(document, options)
    ledger, body = _body(document, options, around.sheet)
    main = (_BEGIN, *map(around.tinted, body), around.section(), _END)
    parts = [
        Part("[Content_Types].xml", _content_types(around.furniture), lasting=True),
        Part("_rels/.rels", _PACKAGE_RELATIONS, lasting=True),
        Part("word/document.xml", b"".join([piece.encode() for piece in main])),
        Part("word/_rels/document.xml.rels", _document_relations(ledger, around)),
        Part("word/styles.xml", around.styles, lasting=True),
        Part("word/settings.xml", around.settings, lasting=True),
        Part("word/theme/theme1.xml", around.theme, lasting=True),
        Part("word/fontTable.xml", around.fonts, lasting=True),
        Part("word/numbering.xml", around.tinted(numbering_part(ledger).decode()).encode()),
        Part("word/footer1.xml", footer_part(document)),
        Part("docProps/core.xml", core_part(document)),
        Part("docProps/app.xml", extended_part(document.pages)),
        *around.furniture.parts,
    ]
    parts.extend(Part(f"word/{name}", content) for name, content in ledger.pictures.values())
    packed = [pack(part) for part in parts]
    kept = content_parts(packed, {**ledger.keys, **({ABOUT: document.about} if document.about else {})})
    return archive((*packed, *map(pack, (*kept, seal_part((*parts, *kept))))))


def numbered(document: Document, options: Options = _NO_OPTIONS) -> Document:
    """Return the document with its total and its contents counted, where nobody has counted them yet.

    Where programs could come to different numbers of pages, a page break is added that settles it.
    """
    if not _is_uncounted(document):
        return document
    room = _around(document, options).sheet.text_height
    measure = _measure(document, options.look)
    pieces = measure.pieces(document.blocks)
    blocks = settled(document.blocks, pieces, measure.pieces, room)
    if blocks != document.blocks:
        document = replace(document, blocks=blocks)
        pieces = measure.pieces(blocks)
    measure.forget_blocks()
    return with_pages(document, fill_pages(pieces, room))


def pages(document: Document, spare: float = 0.0, look: SchoolLook | None = None) -> int:
    """Return the number of pages that the document takes with ``spare`` points left free at the foot of each.

    Raises UnsafeFileError where the school's file cannot be used.
    """
    room = _around(document, Options(look=look)).sheet.text_height
    pieces = _measure(document, look).pieces(document.blocks)
    return fill_pages(pieces, room - round(spare * 20)).total


def safe_pages(document: Document, look: SchoolLook | None = None) -> int:
    """Return the number of pages with a line to spare on each, for the small differences between programs.

    A school's own fonts are known less well, so its pages keep two lines and a half.
    """
    return pages(document, SPARE if look is None else _SPARE_OF_LOOKS, look)


def _is_uncounted(document: Document) -> bool:
    rows = (row for block in document.blocks if isinstance(block, Contents) for row in block.rows)
    return document.pages is None or any(number == 0 for _, _, _, number in rows)


def _around(document: Document, options: Options) -> Setting:
    return setting(document.paper, document.landscape, document.language, options.look)


def _measure(document: Document, look: SchoolLook | None) -> Measure:
    return _measure_of(document.paper, document.landscape, document.language, look)


@lru_cache(maxsize=8)
def _measure_of(paper: str, landscape: bool, language: str, look: SchoolLook | None) -> Measure:
    around = setting(paper, landscape, language, look)
    return Measure(around.sheet, around.looks)


def _body(document: Document, options: Options, sheet: Page) -> tuple[Ledger, list[str]]:
    ledger = Ledger(options, anchors=_anchors(document.blocks), tallest=sheet.text_height)
    return ledger, body_pieces(document.blocks, sheet.text_width, ledger)


def _anchors(blocks: tuple[Block, ...]) -> frozenset[str]:
    """Return the anchors of all headings, however deep they stand."""
    found: set[str] = set()
    waiting = list(blocks)
    while waiting:
        match waiting.pop():
            case Paragraph():
                pass
            case Heading(anchor=str() as anchor):
                found.add(anchor)
            case ListBlock(items=items):
                waiting.extend(block for item in items for block in item)
            case Note(blocks=inner):
                waiting.extend(inner)
            case Table(rows=rows):
                waiting.extend(block for row in rows for cell in row for block in cell.blocks)
            case _:
                pass
    return frozenset(found)


@lru_cache(maxsize=8)
def _content_types(around: Furniture) -> bytes:
    overrides = [("/word/document.xml", f"{_WORD}.document.main+xml")]
    overrides += [(f"/word/{name}", kind) for _, name, kind in _INSIDE]
    overrides.append(("/docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml"))
    overrides.append(("/docProps/app.xml", f"{_OFFICE_TYPE}.extended-properties+xml"))
    overrides.append(("/docProps/custom.xml", f"{_OFFICE_TYPE}.custom-properties+xml"))
    overrides.append(("/customXml/itemProps1.xml", f"{_OFFICE_TYPE}.customXmlProperties+xml"))
    overrides += [(f"/word/{file}", f"{_WORD}.{kind}+xml") for kind, _, file in around.shown]
    endings = "".join(
        f'<Default Extension="{ending}" ContentType="{ending_type(ending)}"/>'
        for ending in sorted({"png", *around.endings})
    )
    listed = "".join(f'<Override PartName="{name}" ContentType="{kind}"/>' for name, kind in overrides)
    return (
        f'{DECLARATION}<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="xml" ContentType="application/xml"/>'
        f"{endings}{listed}</Types>"
    ).encode()


def _relations(rows: list[tuple[str, str, str, bool]]) -> bytes:
    listed = "".join(
        f'<Relationship Id="{identity}" Type="{kind}" Target="{quoted(target)}"{_outside(outside)}/>'
        for identity, kind, target, outside in rows
    )
    return f'{DECLARATION}<Relationships xmlns="{_PACKAGE}/relationships">{listed}</Relationships>'.encode()


def _outside(outside: bool) -> str:
    return ' TargetMode="External"' if outside else ""


def _package_relations() -> bytes:
    return _relations(
        [
            ("rId1", f"{_OFFICE}/officeDocument", "word/document.xml", False),
            ("rId2", f"{_PACKAGE}/relationships/metadata/core-properties", "docProps/core.xml", False),
            ("rId3", f"{_OFFICE}/extended-properties", "docProps/app.xml", False),
            ("rId4", f"{_OFFICE}/custom-properties", PROPERTIES_PART, False),
        ]
    )


def _document_relations(ledger: Ledger, around: Setting) -> bytes:
    rows = [(f"rId{place}", f"{_OFFICE}/{kind}", name, False) for place, (kind, name, _) in enumerate(_INSIDE, start=1)]
    rows.append((f"rId{len(_INSIDE) + 1}", f"{_OFFICE}/customXml", f"../{CONTENT_PART}", False))
    rows += [(identity, f"{_OFFICE}/{kind}", file, False) for identity, kind, file in around.relations]
    rows += [(identity, f"{_OFFICE}/hyperlink", address, True) for address, identity in ledger.links.items()]
    rows += [(identity, f"{_OFFICE}/image", name, False) for identity, (name, _) in ledger.pictures.items()]
    return _relations(rows)


_PACKAGE_RELATIONS = _package_relations()
