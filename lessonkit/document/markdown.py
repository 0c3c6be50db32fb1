"""An author's Markdown as document nodes.

CommonMark with pipe tables. What a page cannot safely carry becomes words: raw HTML stands as it was typed, a picture
becomes its alternative text, a link to anything but the web, a mail address or an anchor keeps only its words, and
control characters become U+FFFD.
"""

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING

from lessonkit.document.model import (
    Block,
    Cell,
    CodeText,
    Emphasis,
    Heading,
    Inline,
    LineBreak,
    Link,
    ListBlock,
    Paragraph,
    Role,
    Rule,
    Strong,
    Table,
    Text,
    plain,
)

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.tree import SyntaxTreeNode

_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_SAFE_TARGET = re.compile(r"(?:https?://|mailto:|#)[^\s\\]+", re.IGNORECASE)
_DEEPEST = 100
"""Blocks nested deeper than this are left out by the reader; Word itself knows nine levels of list."""


def read_markdown(text: str) -> tuple[Block, ...]:
    """Return the blocks that a Markdown text describes."""
    return tuple(_blocks(_tree(text).children, quoted=False))


def read_inline(text: str) -> tuple[Inline, ...]:
    """Return a one-line field as inline content: stress, code and links count, a leading ``1.`` or ``#`` does not."""
    from markdown_it.tree import SyntaxTreeNode

    tokens = _reader().parseInline(_printable(text).strip())
    return _inlines(SyntaxTreeNode(tokens).children[0].children)


def is_safe_target(target: str) -> bool:
    """Tell whether a link may keep its target: http, https, mailto, or an anchor of the same document."""
    return _SAFE_TARGET.fullmatch(target) is not None


def leaves(text: str) -> tuple[tuple[int, int, str], ...]:
    """Return the paragraphs and headings of a Markdown text in their order.

    Each has its first line (from 0), the line behind its last one, and its words as they are written there, without
    what stands before them on the first line.
    """
    found = (token for token in _reader().parse(text) if token.type == "inline" and token.map is not None)
    return tuple((token.map[0], token.map[1], token.content) for token in found if token.map is not None)


@lru_cache(maxsize=1)
def _reader() -> "MarkdownIt":
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark", {"maxNesting": _DEEPEST}).enable("table")


def _printable(text: str) -> str:
    return _UNPRINTABLE.sub("\ufffd", text)


def _tree(text: str) -> "SyntaxTreeNode":
    from markdown_it.tree import SyntaxTreeNode

    return SyntaxTreeNode(_reader().parse(_printable(text)))


def _blocks(nodes: "Iterable[SyntaxTreeNode]", *, quoted: bool) -> list[Block]:
    blocks: list[Block] = []
    for node in nodes:
        if node.type == "blockquote":
            blocks.extend(_blocks(node.children, quoted=True))
        elif (block := _block(node, quoted)) is not None:
            blocks.append(block)
    return blocks


def _block(node: "SyntaxTreeNode", quoted: bool) -> Block | None:  # noqa: PLR0911 - one return a kind of block
    match node.type:
        case "paragraph":
            return _paragraph(_inlines(node.children[0].children), Role.QUOTE if quoted else Role.BODY)
        case "heading":
            content = _inlines(node.children[0].children)
            return Heading(int(node.tag[1:]), content) if content else None
        case "bullet_list" | "ordered_list":
            return _list(node, quoted)
        case "code_block" | "fence":
            return _paragraph(_lines(node.content), Role.CODE)
        case "html_block":
            return _paragraph(_lines(node.content.strip("\n")), Role.QUOTE if quoted else Role.BODY)
        case "table":
            return _table(node)
        case "hr":
            return Rule()
    raise AssertionError(f"unknown Markdown block {node.type!r}")


def _paragraph(content: tuple[Inline, ...], role: Role) -> Paragraph | None:
    return Paragraph(content, role) if content else None


def _list(node: "SyntaxTreeNode", quoted: bool) -> ListBlock:
    items = tuple(tuple(_blocks(item.children, quoted=quoted)) for item in node.children)
    return ListBlock(items, int(node.attrs.get("start", 1)) if node.type == "ordered_list" else None)


def _lines(text: str) -> tuple[Inline, ...]:
    """Return lines that keep their breaks and spaces; the end of the last line is no break."""
    content: list[Inline] = []
    for number, line in enumerate(text.removesuffix("\n").split("\n")):
        if number:
            content.append(LineBreak())
        if line:
            content.append(Text(line))
    return tuple(content)


def _table(node: "SyntaxTreeNode") -> Table:
    rows = tuple(
        tuple(Cell((Paragraph(_inlines(cell.children[0].children)),)) for cell in row.children)
        for part in node.children
        for row in part.children
    )
    longest = [max(len(_cell_words(row[column])) for row in rows) for column in range(len(rows[0]))]
    title = ", ".join(words for cell in rows[0] if (words := _cell_words(cell)))
    return Table(rows, tuple(float(min(max(length, 6), 40)) for length in longest), title)


def _cell_words(cell: Cell) -> str:
    return " ".join(plain(block.content) for block in cell.blocks if isinstance(block, Paragraph))


def _inlines(nodes: "Iterable[SyntaxTreeNode]") -> tuple[Inline, ...]:
    content: list[Inline] = []
    for node in nodes:
        for inline in _inline(node):
            last = content[-1] if content else None
            if isinstance(inline, Text) and isinstance(last, Text):
                content[-1] = Text(last.text + inline.text)
            else:
                content.append(inline)
    return tuple(content)


def _inline(node: "SyntaxTreeNode") -> tuple[Inline, ...]:  # noqa: PLR0911 - one return a kind of inline
    match node.type:
        case "text" | "html_inline":
            return (Text(node.content),) if node.content else ()
        case "softbreak":
            return (Text(" "),)
        case "hardbreak":
            return (LineBreak(),)
        case "code_inline":
            return (CodeText(node.content),)
        case "strong":
            return (Strong(_inlines(node.children)),)
        case "em":
            return (Emphasis(_inlines(node.children)),)
        case "image":
            words = plain(_inlines(node.children))
            return (Text(words),) if words else ()
        case "link":
            return _link(_inlines(node.children), str(node.attrs.get("href", "")))
    raise AssertionError(f"unknown Markdown inline {node.type!r}")


def _link(content: tuple[Inline, ...], target: str) -> tuple[Inline, ...]:
    if content and is_safe_target(target):
        return (Link(content, target),)
    return content
