"""Where a field stands in a file's tree of nodes, and how its author wrote it."""

from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, SequenceNode, place
from lessonkit.source.location import FieldPath, Location


def place_in(top: Node, field: FieldPath, path: str, on_key: bool = False, on_line: bool = False) -> Location:
    """Return the place of a field inside a file's top node, as ``places.locate`` does.

    With ``on_line`` it is the value's also where that begins on a line below the field's name.
    """
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
    below = _is_below(key, node) and not on_line
    return place(key if on_key or below else node, path)


def begins_below(top: Node, field: FieldPath) -> bool:
    """Tell whether a value begins on a line below its field's name."""
    key, node = top, top
    for step in field:
        found = _step(node, step)
        if found is None:
            return False
        key, node = found
    return _is_below(key, node)


def _is_below(key: Node, node: Node) -> bool:
    return node.start_mark.line != key.start_mark.line or node.start_mark.index < key.start_mark.index


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
