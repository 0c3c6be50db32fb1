"""Where a field of a record stands in its file, found by reading the file again."""

from functools import lru_cache
from pathlib import Path

from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, SequenceNode, compose, place
from lessonkit.loading.text import read_text
from lessonkit.source.location import FieldPath, Location, file_start

_KEPT = 8
"""Files whose nodes are kept for the next question; rules ask about one record after another."""


def locate(path: str, field: FieldPath, on_key: bool = False) -> Location:
    """Return the place of a field's value, or of its name with ``on_key``.

    ``path`` must lead to the file from where the program runs. A list or set of fields that starts below its name has
    the place of the name. A field that is not there gives the place of the nearest one above it; a file that has gone
    since, or cannot be read any more, its start. Lines and columns count from 1, columns in characters.
    """
    top = _top(path, _stamp(path))
    return file_start(path) if top is None else place_in(top, field, path, on_key)


def place_in(top: Node, field: FieldPath, path: str, on_key: bool = False) -> Location:
    """Return the place of a field inside a file's top node, as ``locate`` does."""
    if isinstance(top, MappingNode) and top.value:
        key, node = top.value[0][0], top.value[0][0]
    else:
        key, node = top, top
    inner = top
    for step in field:
        found = _step(inner, step)
        if found is None:
            return place(key, path)
        key, node = found
        inner = node
    below = node.start_mark.line != key.start_mark.line or node.start_mark.index < key.start_mark.index
    return place(key if on_key or below else node, path)


def written_in(top: Node, field: FieldPath) -> str | None:
    """Return a value as its author wrote it, without quotes; None for lists and sets of fields."""
    node = top
    for step in field:
        found = _step(node, step)
        if found is None:
            return None
        node = found[1]
    return str(node.value) if isinstance(node, ScalarNode) else None


def _step(node: Node, step: str | int) -> tuple[Node, Node] | None:
    """Return the name and the value of a field, or an item of a list as both."""
    if isinstance(node, MappingNode) and isinstance(step, str):
        for key, value in node.value:
            if key.value == step:
                return key, value
    if isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
        return node.value[step], node.value[step]
    return None


def _stamp(path: str) -> tuple[int, int]:
    try:
        status = Path(path).stat()
    except (OSError, ValueError):
        return (0, 0)
    return status.st_mtime_ns, status.st_size


@lru_cache(maxsize=_KEPT)
def _top(path: str, stamp: tuple[int, int]) -> Node | None:
    if stamp == (0, 0):
        return None
    try:
        return compose(read_text(Path(path).read_bytes(), path), path)
    except (OSError, FileFaultError):
        return None
