"""Where a field of a record stands in its file, found by reading the file again.

In a file of the usual layout its lines tell; the YAML reader is loaded for the first question that they do not answer.
"""

import os
from functools import lru_cache
from typing import TYPE_CHECKING

from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.quick_places import quick_place
from lessonkit.loading.quick_reader import read_quickly
from lessonkit.loading.text import read_text
from lessonkit.source.location import FieldPath, Location, file_start

if TYPE_CHECKING:
    from lessonkit.loading.nodes import Node

_KEPT = 8
"""Files whose nodes are kept for the next question; rules ask about one record after another."""


def locate(path: str, field: FieldPath, on_key: bool = False) -> Location:
    """Return the place of a field's value, or of its name with ``on_key``.

    ``path`` must lead to the file from where the program runs. A list or set of fields that starts below its name has
    the place of the name. A field that is not there gives the place of the nearest one above it; a file that has gone
    since, or cannot be read any more, its start. Lines and columns count from 1, columns in characters.
    """
    stamp = _stamp(path)
    text = _usual(path, stamp)
    place = None if text is None else quick_place(text, field, path, on_key)
    if place is not None:
        return place
    from lessonkit.loading.node_places import place_in

    top = _top(path, stamp)
    return file_start(path) if top is None else place_in(top, field, path, on_key)


def _stamp(path: str) -> tuple[int, int, int]:
    try:
        status = os.stat(path)  # noqa: PTH116  # nothing else on the way to a finding needs path objects
    except (OSError, ValueError):
        return (0, 0, 0)
    return status.st_mtime_ns, status.st_ctime_ns, status.st_size


@lru_cache(maxsize=_KEPT)
def _text(path: str, stamp: tuple[int, int, int]) -> str | None:
    """Return the text of a file, None where it cannot be read."""
    if stamp == (0, 0, 0):
        return None
    try:
        with open(path, "rb") as stream:  # noqa: PTH123
            return read_text(stream.read(), path)
    except (OSError, FileFaultError):
        return None


@lru_cache(maxsize=_KEPT)
def _usual(path: str, stamp: tuple[int, int, int]) -> str | None:
    """Return the text of a file of the usual layout, None for any other."""
    text = _text(path, stamp)
    return None if text is None or read_quickly(text) is None else text


@lru_cache(maxsize=_KEPT)
def _top(path: str, stamp: tuple[int, int, int]) -> "Node | None":
    from lessonkit.loading.nodes import compose

    text = _text(path, stamp)
    try:
        return None if text is None else compose(text, path)
    except FileFaultError:
        return None
