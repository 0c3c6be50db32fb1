"""Nodes to plain values, as YAML 1.2 reads them, with everything refused that would surprise an author.

YAML 1.2 (core schema): only true and false are yes-or-no values, ``no``, ``off``, ``1:30``
and ``2026-01-05`` are words.
"""

import re
import sys
from typing import Any, Final

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.nodes import MappingNode, Node, ScalarNode, SequenceNode, place, too_deep
from lessonkit.source.finding import Finding, Related

DEPTH_LIMIT: Final = 64
COPY_LIMIT: Final = 1000
"""Values that copies (aliases) may add to a file before it is refused."""

_INTEGER: Final = re.compile(r"[-+]?[0-9]+")
_OTHER_INTEGER: Final = re.compile(r"0o[0-7]+|0x[0-9a-fA-F]+")
_LEADING_ZERO: Final = re.compile(r"[-+]?0[0-9]+")
_FLOAT: Final = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
_WORDS: Final[dict[str, Any]] = {
    **dict.fromkeys(("null", "Null", "NULL", "~", "")),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}
_FIRST_OF_SPECIAL: Final = frozenset("0123456789-+.nNtTfF~")


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
        if node.tag is not None and node.tag != "!":
            raise FileFaultError(
                make(
                    codes.TAG,
                    f"A word with an exclamation mark ({_tag_word(node.tag)}) cannot stand here.",
                    place(node, self.path),
                    hint="Put the text in quotes.",
                )
            )

    def _mapping(self, node: MappingNode, depth: int) -> dict[str, Any]:
        result: dict[str, Any] = {}
        first: dict[str, Node] = {}
        for key_node, value_node in node.value:
            key = self._key(key_node)
            if key in result:
                self._report_duplicate(key, key_node, first[key])
                continue
            first[key] = key_node
            result[key] = self.value(value_node, depth + 1)
        self._made += len(result)
        return result

    def _key(self, node: Node) -> str:
        if not isinstance(node, ScalarNode):
            raise FileFaultError(
                make(
                    codes.FIELD_NAME,
                    "The name of a field must be a word, not a list.",
                    place(node, self.path),
                    hint="Put the text in quotes if it starts with a bracket.",
                )
            )
        self._refuse_tag(node)
        if node.value == "<<" and not node.style:
            raise FileFaultError(
                make(codes.TAG, "Merging fields with << is not possible; write the fields out.", place(node, self.path))
            )
        return sys.intern(str(node.value))

    def _report_duplicate(self, key: str, node: Node, first: Node) -> None:
        self.findings.append(
            make(
                codes.DUPLICATE_FIELD,
                f"The field {key!r} stands twice; keep one of them.",
                place(node, self.path),
                related=(Related(place(first, self.path), "first written here"),),
            )
        )

    def _sequence(self, node: SequenceNode, depth: int) -> list[Any]:
        self._made += len(node.value)
        return [self.value(item, depth + 1) for item in node.value]

    def _scalar(self, node: ScalarNode) -> Any:
        self._refuse_tag(node)
        text: str = node.value
        if node.style or node.tag == "!":
            return text
        if text and text[0] not in _FIRST_OF_SPECIAL:
            return text
        if text in _WORDS:
            return _WORDS[text]
        return self._number(node, text)

    def _number(self, node: ScalarNode, text: str) -> Any:
        if _LEADING_ZERO.fullmatch(text):
            self.findings.append(
                make(
                    codes.NUMBER,
                    f"The number {text} starts with a zero; write it without, or put it in quotes if it is a text.",
                    place(node, self.path),
                )
            )
            return text
        if _INTEGER.fullmatch(text) and len(text) < 20:
            return int(text)
        if _OTHER_INTEGER.fullmatch(text):
            return int(text, 0)
        if _FLOAT.fullmatch(text):
            return float(text)
        return text


def _tag_word(tag: str) -> str:
    return "!" + tag.removeprefix("tag:yaml.org,2002:").lstrip("!")
