"""Text that YAML leaves out because a # after a space starts a comment: ``use #1 ball`` is read as ``use``."""

from collections.abc import Iterator
from typing import Final

from lessonkit.loading import codes
from lessonkit.loading.fault import make
from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, SequenceNode
from lessonkit.loading.text import lines_of
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location
from lessonkit.source.pattern import Pattern

_LOOKS_LOST: Final = Pattern(r"\s+(#[^\s#].*)")
"""A comment written on purpose has a space after its sign."""


def cut_off(text: str, top: Node, path: str) -> tuple[Finding, ...]:
    """Return advice for every text after which something was left out that does not look like a comment."""
    if " #" not in text and "\t#" not in text:
        return ()
    lines = lines_of(text)
    findings = []
    for node in _plain(top, set()):
        number, column = node.end_mark.line, node.end_mark.column
        lost = _LOOKS_LOST.match(lines[number], column) if number < len(lines) else None
        if lost:
            word = lost.group(1).split()[0]
            says = f"Everything from {word!r} on is left out here, because # after a space starts a comment."
            start = lost.start(1) + 1
            place = Location(path, number + 1, start, number + 1, len(lines[number]) + 1)
            hint = "Put the whole text in quotes if this belongs to it."
            findings.append(make(codes.CUT_OFF, says, place, hint=hint))
    return tuple(findings)


def _plain(node: Node, seen: set[int]) -> Iterator[ScalarNode]:
    """Give every text without quotes, each once."""
    if id(node) in seen:
        return
    seen.add(id(node))
    if isinstance(node, ScalarNode) and not node.style:
        yield node
    elif isinstance(node, MappingNode):
        for _, value in node.value:
            yield from _plain(value, seen)
    elif isinstance(node, SequenceNode):
        for item in node.value:
            yield from _plain(item, seen)
