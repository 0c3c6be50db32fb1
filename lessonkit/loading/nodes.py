"""YAML text to a tree of nodes that know their places; the only door to PyYAML."""

from typing import TYPE_CHECKING

import yaml

from lessonkit.loading import codes
from lessonkit.loading.fault import FileFaultError, make
from lessonkit.loading.yaml_words import explain_syntax
from lessonkit.source.finding import Finding
from lessonkit.source.location import Location

if TYPE_CHECKING:
    from collections.abc import Callable

ScalarNode = yaml.ScalarNode
MappingNode = yaml.MappingNode
SequenceNode = yaml.SequenceNode
Node = yaml.Node


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


class _PurePython(yaml.reader.Reader, yaml.scanner.Scanner, yaml.parser.Parser, yaml.composer.Composer):
    """PyYAML's own parser, for systems where the fast one is missing."""

    def __init__(self, text: str) -> None:
        yaml.reader.Reader.__init__(self, text)
        yaml.scanner.Scanner.__init__(self)
        yaml.parser.Parser.__init__(self)
        yaml.composer.Composer.__init__(self)


PURE_PARSER: "Callable[[str], yaml.composer.Composer]" = _silence(_PurePython)
PARSER: "Callable[[str], yaml.composer.Composer]" = (
    _silence(yaml.cyaml.CParser) if yaml.__with_libyaml__ else PURE_PARSER  # type: ignore[attr-defined]
)


def compose(text: str, path: str, parser: "Callable[[str], yaml.composer.Composer]" = PARSER) -> Node:
    """Return the top node of a text that holds one YAML document.

    Raises FileFaultError with one sentence for text that is not YAML or holds more than one document.
    """
    try:
        node = parser(text).get_single_node()
    except yaml.MarkedYAMLError as problem:
        raise FileFaultError(_syntax(problem, text, path)) from None
    except yaml.YAMLError as problem:
        raise FileFaultError(make(codes.SYNTAX, f"This is not YAML: {problem}.", Location(path, 1, 1, 1, 1))) from None
    except RecursionError:
        raise FileFaultError(too_deep(path, 1, 1)) from None
    if node is None:
        raise FileFaultError(
            make(
                codes.EMPTY, "This file holds only comments; a record starts with its kind.", Location(path, 1, 1, 1, 1)
            )
        )
    return node


def too_deep(path: str, line: int, column: int) -> Finding:
    """Return the finding for lists in lists in lists."""
    return make(
        codes.DEPTH,
        "Lists and fields are nested more than 64 deep here; no record needs that.",
        Location(path, line, column, line, column),
    )


def _syntax(problem: yaml.MarkedYAMLError, text: str, path: str) -> Finding:
    mark = problem.problem_mark or problem.context_mark
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    if "single document" in str(problem.context or ""):
        return make(
            codes.SEVERAL,
            "A second record starts here; give every record a file of its own.",
            Location(path, line, column, line, column),
        )
    says, hint = explain_syntax(str(problem.problem or ""), str(problem.context or ""), text, line)
    return make(codes.SYNTAX, says, Location(path, line, column, line, column), hint=hint)


def place(node: Node, path: str) -> Location:
    """Return the place of a node; a block's end is brought back to the end of its first line."""
    start, end = node.start_mark, node.end_mark
    if end.line == start.line and end.column >= start.column:
        return Location(path, start.line + 1, start.column + 1, start.line + 1, end.column + 1)
    return Location(path, start.line + 1, start.column + 1, start.line + 1, start.column + 2)
