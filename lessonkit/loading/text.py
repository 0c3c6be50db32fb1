"""Bytes of a file to text: encoding, size, and characters that have no place in a record."""

import re
from typing import Final

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.source.location import Location, file_start

SIZE_LIMIT: Final = 1 << 20
"""Bytes of the largest file that is read; an outcome framework of 600 codes has about a fifth of it."""

_FORBIDDEN: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x80-\x9f\u2028\u2029\ufffe\uffff]")
_LINE_END: Final = re.compile("\r\n|\r|\n")


def read_text(content: bytes, path: str) -> str:
    """Return the text of a record file, without a byte order mark.

    Raises FileFaultError for a file too large, in another encoding than UTF-8, empty, or with control characters.
    """
    if len(content) > SIZE_LIMIT:
        raise FileFaultError(
            make(
                codes.TOO_LARGE,
                f"This file has {len(content):,} bytes; a record file may have {SIZE_LIMIT:,} at most.",
                file_start(path),
            )
        )
    text = _decode(content, path)
    if not text.strip():
        raise FileFaultError(
            make(
                codes.EMPTY,
                "This file is empty; a record starts with its kind, such as kind: activity.",
                file_start(path),
            )
        )
    unwanted = _FORBIDDEN.search(text)
    if unwanted:
        raise FileFaultError(
            make(
                codes.CONTROL,
                f"There is an invisible character (U+{ord(unwanted.group()):04X}) here; delete it.",
                place_of(text, unwanted.start(), path),
            )
        )
    return text


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
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise FileFaultError(
            make(
                codes.ENCODING,
                "This file is saved as UTF-16; save it again as UTF-8 in your text editor.",
                file_start(path),
            )
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        before = content[: problem.start].decode("utf-8-sig", "replace")
        raise FileFaultError(
            make(
                codes.ENCODING,
                "This file is not saved as UTF-8: the next character cannot be read; save it again as UTF-8.",
                place_of(before + " ", len(before), path),
            )
        ) from None
