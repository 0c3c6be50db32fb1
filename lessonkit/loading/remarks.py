"""Remarks to the program in a record's comments: ``# lessonkit: allow cue-too-long because it is a rhyme``.

What a remark may say is not settled here; only where it stands, and which lines it is about.
"""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

from lessonkit.loading.text import lines_of
from lessonkit.source.location import Location
from lessonkit.source.pattern import Pattern

if TYPE_CHECKING:
    from lessonkit.loading.nodes import Node

_REMARK: Final = Pattern(r"(?:^|(?<=\s))#+\s*lessonkit\s*:\s*(.*?)\s*$", re.IGNORECASE)
_NO_TEXT: Final = Pattern(r"\s*(?:#.*|---\s*)?$")


class Remark(NamedTuple):
    """What a remark says, its place, and the line that it is about: its own or the next; None for the whole file."""

    says: str
    location: Location
    line: int | None


def remarks_in(text: str, top: "Node", path: str) -> tuple[Remark, ...]:
    """Return the remarks in a record's comments; ``top`` is its top node. What looks like one inside a text is none."""
    if "lessonkit" not in text.lower():
        return ()
    lines = lines_of(text)
    texts = tuple(_texts(top, set()))
    first = next((number for number, line in enumerate(lines) if not _NO_TEXT.match(line)), len(lines))
    found = []
    for number, line in enumerate(lines):
        match = _REMARK.search(line)
        if match and not any(start <= (number, match.start()) < end for start, end in texts):
            place = Location(path, number + 1, match.start() + 1, number + 1, len(line.rstrip()) + 1)
            found.append(Remark(match.group(1), place, None if number < first else _about(lines, number)))
    return tuple(found)


def _about(lines: list[str], number: int) -> int:
    """Return the line (from 1) that a comment on line ``number`` (from 0) is about."""
    while number < len(lines) - 1 and _NO_TEXT.match(lines[number]):
        number += 1
    return number + 1


_Spot = tuple[int, int]


def _texts(node: "Node", seen: set[int]) -> Iterator[tuple[_Spot, _Spot]]:
    """Give where each text that could hold the sign of a comment starts and ends, lines and columns from 0."""
    from lessonkit.loading.nodes import MappingNode, ScalarNode, SequenceNode

    if id(node) in seen:
        return
    seen.add(id(node))
    if isinstance(node, ScalarNode):
        start, end = node.start_mark, node.end_mark
        below = node.style in ("|", ">")  # a comment may follow the sign on its line
        yield (start.line + 1, 0) if below else (start.line, start.column), (end.line, end.column)
    elif isinstance(node, MappingNode):
        for key, value in node.value:
            yield from _texts(key, seen)
            yield from _texts(value, seen)
    elif isinstance(node, SequenceNode):
        for item in node.value:
            yield from _texts(item, seen)
