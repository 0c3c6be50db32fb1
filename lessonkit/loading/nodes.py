"""YAML text to a tree of nodes that know their places; the door to PyYAML."""

from collections.abc import Callable

import yaml

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.plain_parser import PlainParser
from lessonkit.loading.syntax import Trouble, explain_syntax
from lessonkit.loading.text import lines_of
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location, file_start

ScalarNode = yaml.ScalarNode
MappingNode = yaml.MappingNode
SequenceNode = yaml.SequenceNode
Node = yaml.Node
Parser = Callable[[str], yaml.composer.Composer]

DEPTH_LIMIT = 64
"""How deep lists and fields may be nested; the deepest record of the curriculum has six floors."""

_STARTS = (
    yaml.BlockMappingStartToken,
    yaml.BlockSequenceStartToken,
    yaml.FlowMappingStartToken,
    yaml.FlowSequenceStartToken,
)


def _silence(parser: type) -> type:
    """Return a parser that leaves plain words as written: their meaning is settled later, as YAML 1.2 has it."""

    class Silent(parser):  # type: ignore[misc]  # either of PyYAML's two parsers
        def descend_resolver(self, current_node: object, current_index: object) -> None:
            pass

        def ascend_resolver(self) -> None:
            pass

        def resolve(self, kind: object, value: object, implicit: object) -> None:
            return None

    return Silent


PURE_PARSER: Parser = _silence(PlainParser)
PARSER: Parser = (
    _silence(yaml.cyaml.CParser) if yaml.__with_libyaml__ else PURE_PARSER  # type: ignore[attr-defined]
)


def compose(text: str, path: str, parser: Parser = PARSER) -> Node:
    """Return the top node of a text that holds one YAML document.

    Raises FileFaultError with one sentence for text that is not YAML or holds more than one document.
    """
    try:
        node = parser(text).get_single_node()
    except yaml.MarkedYAMLError as problem:
        raise FileFaultError(_syntax(problem, text, path)) from None
    except yaml.YAMLError:
        says = "This file cannot be read as YAML."
        raise FileFaultError(make(codes.SYNTAX, says, file_start(path))) from None
    except RecursionError:
        raise FileFaultError(too_deep(path, *_deep_place(text))) from None
    if node is None or (isinstance(node, ScalarNode) and not node.style and not node.value):
        says = "This file holds only comments; a record starts with its kind, such as kind: activity."
        raise FileFaultError(make(codes.EMPTY, says, file_start(path)))
    return node


def too_deep(path: str, line: int, column: int) -> Finding:
    """Return the finding for lists in lists in lists."""
    says = f"Lists and fields are nested more than {DEPTH_LIMIT} deep here; no record needs that."
    return make(codes.DEPTH, says, _point(path, line, column))


def place(node: Node, path: str) -> Location:
    """Return the place of a node; for one that goes on over several lines, its first character."""
    start, end = node.start_mark, node.end_mark
    line, column = start.line + 1, start.column + 1
    return Location(path, line, column, line, end.column + 1 if end.line == start.line else column + 1)


def _point(path: str, line: int, column: int) -> Location:
    return Location(path, line, column, line, column + 1)


def _syntax(problem: yaml.MarkedYAMLError, text: str, path: str) -> Finding:
    words, context = str(problem.problem or ""), str(problem.context or "")
    if "maximum nesting depth" in words:
        return too_deep(path, *_deep_place(text))
    stop = _from_one(problem.problem_mark) or (1, 1)
    if "single document" in context:
        says = "A second record starts here; give every record a file of its own."
        return make(codes.SEVERAL, says, _point(path, *stop))
    trouble = Trouble(words, context, stop, _from_one(problem.context_mark) or stop, tuple(lines_of(text)))
    said = explain_syntax(trouble)
    return make(codes.SYNTAX, said.says, _point(path, said.line, said.column), hint=said.hint)


def _from_one(mark: yaml.Mark | None) -> tuple[int, int] | None:
    return (mark.line + 1, mark.column + 1) if mark else None


def _deep_place(text: str) -> tuple[int, int]:
    """Return the line and column where the nesting goes past the limit; a scan of signs does not nest itself."""
    depth = 0
    for token in yaml.scan(text):
        if isinstance(token, _STARTS):
            depth += 1
        elif isinstance(token, yaml.BlockEndToken | yaml.FlowMappingEndToken | yaml.FlowSequenceEndToken):
            depth -= 1
        if depth > DEPTH_LIMIT:
            return token.start_mark.line + 1, token.start_mark.column + 1
    return 1, 1
