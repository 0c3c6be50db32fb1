"""Where a field of a record stands in its file, found by reading the file again.

The YAML reader is loaded for the first question only: where nothing is found, nobody asks.
"""

import os
from functools import lru_cache
from typing import TYPE_CHECKING

from lessonkit.loading.fault import FileFaultError
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
    from lessonkit.loading.node_places import place_in

    top = _top(path, _stamp(path))
    return file_start(path) if top is None else place_in(top, field, path, on_key)


def _stamp(path: str) -> tuple[int, int]:
    try:
        status = os.stat(path)  # noqa: PTH116  # nothing else on the way to a finding needs path objects
    except (OSError, ValueError):
        return (0, 0)
    return status.st_mtime_ns, status.st_size


@lru_cache(maxsize=_KEPT)
def _top(path: str, stamp: tuple[int, int]) -> "Node | None":
    from lessonkit.loading.nodes import compose

    if stamp == (0, 0):
        return None
    try:
        with open(path, "rb") as stream:  # noqa: PTH123
            return compose(read_text(stream.read(), path), path)
    except (OSError, FileFaultError):
        return None
