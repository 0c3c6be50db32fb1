"""Nodes to plain values, as YAML 1.2 reads them, with everything refused that would surprise an author.

What a word means is settled in ``words.py``; a number that starts with a zero is refused here.
"""

import sys
from typing import Any, Final

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.nodes import DEPTH_LIMIT, MappingNode, Node, ScalarNode, SequenceNode, place, too_deep
from lessonkit.loading.words import FIRST_OF_SPECIAL, LEADING_ZERO, meaning
from lessonkit.source.finding import Finding, Related

COPY_LIMIT: Final = 1000
"""Values that copies (aliases) may add to a file before it is refused."""


class Reader:
    """Turns the nodes of one file into values; ``findings`` gathers duplicate fields and the like."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.findings: list[Finding] = []
        self._open: set[int] = set()
        self._seen: dict[int, int] = {}
        self._made = 0
        self._copied = 0

    def value(self, node: Node, depth: int = 0) -> Any:
        """Return the value of a node. Raises FileFaultError for tags, too deep nesting and too many copies."""
        if isinstance(node, ScalarNode):
            return self._scalar(node)
        if depth >= DEPTH_LIMIT:
            raise FileFaultError(too_deep(self.path, node.start_mark.line + 1, node.start_mark.column + 1))
        self._refuse_tag(node)
        self._enter(node)
        before = self._made
        value: Any = None
        if isinstance(node, MappingNode):
            value = self._mapping(node, depth)
        elif isinstance(node, SequenceNode):
            value = self._sequence(node, depth)
        self._open.discard(id(node))
        self._seen[id(node)] = self._made - before + 1
        return value

    def _enter(self, node: Node) -> None:
        if id(node) in self._open:
            raise self._too_many(node, "A copy (*) stands inside what it copies.")
        self._open.add(id(node))
        if id(node) in self._seen:
            self._copied += self._seen[id(node)]
            if self._copied > COPY_LIMIT:
                raise self._too_many(node, "Copies of copies (& and *) make this file far larger than it looks.")

    def _too_many(self, node: Node, says: str) -> FileFaultError:
        return FileFaultError(make(codes.ALIAS, says, place(node, self.path), hint="Write the text out."))

    def _refuse_tag(self, node: Node) -> None:
        if node.tag not in (None, "!"):
            says = f"A text cannot begin with an exclamation mark ({_tag_word(node.tag)})."
            raise FileFaultError(make(codes.TAG, says, place(node, self.path), hint="Put the text in quotes."))

    def _mapping(self, node: MappingNode, depth: int) -> dict[str, Any]:
        result: dict[str, Any] = {}
        first: dict[str, Node] = {}
        for key_node, value_node in node.value:
            key = self._key(key_node)
            if key in result:
                self._report_duplicate(key, key_node, first[key])
                continue
            first[key] = key_node
            is_word = value_node.__class__ is ScalarNode
            result[key] = self._scalar(value_node) if is_word else self.value(value_node, depth + 1)
        self._made += len(result)
        return result

    def _key(self, node: Node) -> str:
        if not isinstance(node, ScalarNode):
            says = "The name of a field must be a word, not a list or fields in brackets."
            hint = "Put the text in quotes if it begins with a bracket."
            raise FileFaultError(make(codes.FIELD_NAME, says, place(node, self.path), hint=hint))
        if node.tag is not None:
            self._refuse_tag(node)
        if node.value == "<<" and not node.style:
            says = "Fields cannot be brought in with <<; write them out."
            raise FileFaultError(make(codes.TAG, says, place(node, self.path)))
        return sys.intern(str(node.value))

    def _report_duplicate(self, key: str, node: Node, first: Node) -> None:
        says = f"The field {key!r} stands here twice; keep one of them."
        related = (Related(place(first, self.path), "first written here"),)
        self.findings.append(make(codes.DUPLICATE_FIELD, says, place(node, self.path), related=related))

    def _sequence(self, node: SequenceNode, depth: int) -> list[Any]:
        self._made += len(node.value)
        return [
            self._scalar(item) if item.__class__ is ScalarNode else self.value(item, depth + 1) for item in node.value
        ]

    def _scalar(self, node: ScalarNode) -> Any:
        if node.tag is not None:
            self._refuse_tag(node)
        text: str = node.value
        if node.style or node.tag == "!" or (text and text[0] not in FIRST_OF_SPECIAL):
            return text
        if LEADING_ZERO.fullmatch(text):
            says = f"The number {text} starts with a zero; write it without, or put it in quotes if it is a text."
            self.findings.append(make(codes.NUMBER, says, place(node, self.path)))
            return text
        return meaning(text)


def _tag_word(tag: str) -> str:
    return "!" + tag.removeprefix("tag:yaml.org,2002:").lstrip("!")
