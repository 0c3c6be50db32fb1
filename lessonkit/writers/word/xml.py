"""The smallest pieces of WordprocessingML: escaped words, paragraphs, runs.

Everything above this module builds markup only from these pieces, so that no text reaches a part unescaped.
"""

import re

from lessonkit.writers.typography import bind_units

NAMESPACES = (
    'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
    ' xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
    ' xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"'
    ' xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"'
    ' xmlns:pic="http://schemas.openxmlformats.org/drawingml/2006/picture"'
    ' xmlns:wps="http://schemas.microsoft.com/office/word/2010/wordprocessingShape"'
    ' xmlns:wpg="http://schemas.microsoft.com/office/word/2010/wordprocessingGroup"'
    ' xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"'
    ' xmlns:w14="http://schemas.microsoft.com/office/word/2010/wordml"'
    ' mc:Ignorable="w14"'
)
DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

_ILLEGAL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_RIGHT_TO_LEFT = re.compile("[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]")
_PLAIN = re.compile("[ -%'-/:;=?-~]*")
"""Most words: ASCII with nothing to escape and, without digits, nothing to bind."""
_PLAIN_VALUE = re.compile("[ !#-%'-;=?-~]*")
"""Most values of attributes: ASCII with nothing to escape."""


def escaped(words: str) -> str:
    """Return words as XML text; characters that XML forbids become U+FFFD."""
    if not words.isprintable():
        words = _ILLEGAL.sub("\ufffd", words)
    return words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def quoted(words: str) -> str:
    """Return words as the value of an XML attribute, without its quotation marks."""
    if _PLAIN_VALUE.fullmatch(words):
        return words
    if not words.isprintable():
        words = words.replace("\n", " ").replace("\t", " ").replace("\r", " ")
    return escaped(words).replace('"', "&quot;")


def runs_right_to_left(words: str) -> bool:
    """Tell whether words hold letters that are written from right to left."""
    return not words.isascii() and _RIGHT_TO_LEFT.search(words) is not None


def run(words: str, style: str = "") -> str:
    """Return a run of words in a character style; tabs and line ends in the words become Word's own."""
    properties = f'<w:rStyle w:val="{style}"/>' if style else ""
    if not words.isascii() and runs_right_to_left(words):
        properties += "<w:rtl/>"
    if properties:
        properties = f"<w:rPr>{properties}</w:rPr>"
    return f"<w:r>{properties}{text(words)}</w:r>"


def literal_run(words: str, style: str = "") -> str:
    """Return a run whose spaces stay as they are, for code."""
    properties = f'<w:rPr><w:rStyle w:val="{style}"/></w:rPr>' if style else ""
    return f"<w:r>{properties}{_pieces(words)}</w:r>"


def text(words: str) -> str:
    """Return the inside of a run: words with their no-break spaces, tabs and line ends."""
    if _PLAIN.fullmatch(words):
        return f'<w:t xml:space="preserve">{words}</w:t>'
    return _pieces(bind_units(words))


def _pieces(words: str) -> str:
    if "\t" not in words and "\n" not in words:
        return f'<w:t xml:space="preserve">{escaped(words)}</w:t>'
    pieces = re.split(r"([\t\n])", words.replace("\r", ""))
    marks = {"\t": "<w:tab/>", "\n": "<w:br/>"}
    return "".join(marks.get(piece) or f'<w:t xml:space="preserve">{escaped(piece)}</w:t>' for piece in pieces if piece)


def paragraph(style: str, content: str, properties: str = "") -> str:
    """Return a paragraph of a style; ``properties`` are further paragraph properties in their order."""
    if style != "Normal":
        properties = f'<w:pStyle w:val="{style}"/>{properties}'
    if properties:
        properties = f"<w:pPr>{properties}</w:pPr>"
    return f"<w:p>{properties}{content}</w:p>"


def field(instruction: str, shown: str) -> str:
    """Return a field with the value it shows until a program works it out anew."""
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> {escaped(instruction)} </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
        f"<w:r><w:t>{escaped(shown)}</w:t></w:r>"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )
