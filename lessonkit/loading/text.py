"""Bytes of a file to text: encoding, size, and characters that have no place in a record."""

import re
from typing import Final

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location, file_start
from lessonkit.source.pattern import Pattern

SIZE_LIMIT: Final = 1 << 20
"""Bytes of the largest file that is read: 1 MiB. An outcome framework of 600 codes has about a fifth of it."""

_UNSEEN: Final = Pattern("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff\ud800-\udfff]")
_SEEN: Final = bytes(range(0x20, 0x7F)) + b"\t\n\r"
"""The bytes of which most files consist, and with which nothing is wrong."""
_ODD_INDENT: Final = Pattern(
    "^ *([\u00a0\u2007\u202f\u3000])[ \u00a0\u2007\u202f\u3000]*(?:- |[^\\s:]+:(?:\\s|$))", re.MULTILINE
)
_LINE_END: Final = Pattern("\r\n|\r|\n")
_OTHER_ENCODINGS: Final = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)


def read_text(content: bytes, path: str) -> str:
    """Return the text of a record file, without a byte order mark.

    Raises FileFaultError for a file too large, in another encoding than UTF-8, empty, or with unseen characters.
    """
    if len(content) > SIZE_LIMIT:
        raise FileFaultError(too_large(len(content), path))
    text = _decode(content, path)
    if not text or text.isspace():
        says = "This file is empty; a record starts with its kind, such as kind: activity."
        raise FileFaultError(make(codes.EMPTY, says, file_start(path)))
    if content.translate(None, _SEEN):
        _refuse_unseen(text, path)
    return text


def too_large(size: int, path: str) -> Finding:
    """Return the finding for a file of so many bytes."""
    says = f"This file has {size:,} bytes; a record file may have {SIZE_LIMIT:,} (1 MiB) at most."
    return make(codes.TOO_LARGE, says, file_start(path))


def place_of(text: str, offset: int, path: str) -> Location:
    """Return the place of one character of a text."""
    line, start = 1, 0
    for end in _LINE_END.finditer(text, 0, offset):
        line, start = line + 1, end.end()
    column = offset - start + 1
    return Location(path, line, column, line, column + 1)


def lines_of(text: str) -> list[str]:
    """Return the lines of a text as an editor numbers them, without their ends."""
    return _LINE_END.split(text)


def _decode(content: bytes, path: str) -> str:
    other = _other_encoding(content) if content[:1] in (b"\xff", b"\xfe") or 0 in content[:4] else None
    if other:
        says = f"This file is saved as {other}; save it again as UTF-8 in your text editor."
        raise FileFaultError(make(codes.ENCODING, says, file_start(path)))
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        before = problem.object[: problem.start].decode("utf-8-sig", "replace")
        says = "The character here is not saved as UTF-8; save the file again as UTF-8 in your text editor."
        raise FileFaultError(make(codes.ENCODING, says, place_of(before, len(before), path))) from None


def _other_encoding(content: bytes) -> str | None:
    for mark, name in _OTHER_ENCODINGS:
        if content.startswith(mark):
            return name
    zeros = [byte == 0 for byte in content[:4]]
    return "UTF-16" if zeros in ([False, True] * 2, [True, False] * 2) else None


def _refuse_unseen(text: str, path: str) -> None:
    unseen = _UNSEEN.search(text)
    if unseen:
        says = f"There is a character here that cannot be seen (U+{ord(unseen.group()):04X}); delete it."
        raise FileFaultError(make(codes.UNSEEN, says, place_of(text, unseen.start(), path)))
    odd = None if text.isascii() else _ODD_INDENT.search(text)
    if odd:
        says = f"The indent of this line is not made of ordinary spaces (U+{ord(odd.group(1)):04X}); type it again."
        raise FileFaultError(make(codes.UNSEEN, says, place_of(text, odd.start(1), path)))
