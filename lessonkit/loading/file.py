"""One file to one record, with everything that is wrong with it."""

import os
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Final

from lessonkit.loading import codes
from lessonkit.loading.build import build_file
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.loaded_file import LoadedFile
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.loading.shape import is_in_shape
from lessonkit.loading.text import SIZE_LIMIT, read_text, too_large
from lessonkit.records.library import KINDS
from lessonkit.source.finding import Finding
from lessonkit.source.location import file_start

if TYPE_CHECKING:
    from lessonkit.loading.engines import Engine
    from lessonkit.loading.nodes import Parser

_PIECE: Final = 1 << 16
"""Bytes read at once; a larger buffer costs more than it saves, since hardly any file fills it."""
_TEXT_ENDINGS: Final = (".yaml.txt", ".yml.txt")
_AS_BYTES: Final = os.O_RDONLY | getattr(os, "O_BINARY", 0)


def load_file(path: Path, shown_as: str | None = None) -> LoadedFile:
    """Read a record file; ``shown_as`` is how the user named it, by default ``path`` with forward slashes."""
    name = path.as_posix() if shown_as is None else shown_as
    content = read_content(str(path), name)
    return LoadedFile(None, (content,)) if isinstance(content, Finding) else load_content(content, name)


def load_text(text: str, path: str) -> LoadedFile:
    """Read the text of a record as if it stood in a file at ``path``."""
    return load_content(text.encode("utf-8", "surrogatepass"), path)


def read_content(path: str, name: str) -> bytes | Finding:
    """Return the bytes of a file, or the finding that says why they cannot be had."""
    if name.lower().endswith(_TEXT_ENDINGS):
        says = "This file is not read, because its name ends in .txt behind the ending of a record."
        hint = f"Call it {PurePath(name).stem}; the text editor may hide the last ending."
        return make(codes.UNREADABLE, says, file_start(name), hint=hint)
    try:
        handle = os.open(path, _AS_BYTES)
        try:
            content = os.read(handle, _PIECE)
            while len(content) <= SIZE_LIMIT and (piece := os.read(handle, _PIECE)):
                content += piece
            return too_large(os.fstat(handle).st_size, name) if len(content) > SIZE_LIMIT else content
        finally:
            os.close(handle)
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        return make(codes.UNREADABLE, f"This file cannot be read: {why}.", file_start(name))


def load_content(
    content: bytes, path: str, parser: "Parser | None" = None, engine: "Engine | None" = None
) -> LoadedFile:
    """Read the content of a record file; ``path`` is how the user knows it.

    A file of the usual layout in which nothing is wrong is read quickly; any other is read closely, with a place for
    every value. ``parser`` and ``engine`` choose the YAML reader and the schema engine for that; each has the same
    answers as the other.
    """
    try:
        text = read_text(content, path)
    except FileFaultError as fault:
        return LoadedFile(None, (fault.finding,))
    data = None if parser else read_quickly(text)
    kind = data.get("kind") if data else None
    if data and not engine and isinstance(kind, str) and kind in KINDS and is_in_shape(kind, data):
        return build_file(kind, data, path)
    from lessonkit.loading.close_reader import read_closely

    return read_closely(text, path, data, parser, engine)
