"""Where a field of a record stands in its file, found by reading the file again."""

from functools import lru_cache
from pathlib import Path

from lessonkit.loading.fault import FileFaultError
from lessonkit.loading.nodes import MappingNode, Node, SequenceNode, compose, place
from lessonkit.loading.text import read_text
from lessonkit.source.location import FieldPath, Location, file_start


def locate(path: str, field: FieldPath, on_key: bool = False) -> Location:
    """Return the place of a field's value, or of its name with ``on_key``.

    A field that is not there gives the place of the nearest one above it; a file that has gone since, its start.
    """
    top = _top(path, _stamp(path))
    return file_start(path) if top is None else place_in(top, field, path, on_key)


def place_in(top: Node, field: FieldPath, path: str, on_key: bool = False) -> Location:
    """Return the place of a field inside a file's top node, as ``locate`` does."""
    node, key = top, top
    if not field and isinstance(top, MappingNode) and top.value:
        return place(top.value[0][0], path)
    for step in field:
        found = _step(node, step)
        if found is None:
            return place(key, path)
        key, node = found
    if on_key or (isinstance(node, MappingNode | SequenceNode) and key is not node):
        return place(key, path)
    return place(node, path)


def _step(node: Node, step: str | int) -> tuple[Node, Node] | None:
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
    except OSError:
        return (0, 0)
    return status.st_mtime_ns, status.st_size


@lru_cache(maxsize=8)
def _top(path: str, stamp: tuple[int, int]) -> Node | None:
    if stamp == (0, 0):
        return None
    try:
        return compose(read_text(Path(path).read_bytes(), path), path)
    except (OSError, FileFaultError):
        return None
