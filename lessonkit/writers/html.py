"""A document as one self-contained web page with a print style."""

import re
from collections.abc import Iterator
from html import escape
from itertools import count
from typing import Final, assert_never

from lessonkit.document.columns import without_idle_columns
from lessonkit.document.model import (
    Block,
    Cell,
    CheckBoxes,
    CodeText,
    Contents,
    Document,
    Drawing,
    Emphasis,
    Heading,
    Inline,
    KeyValues,
    LineBreak,
    Link,
    ListBlock,
    Note,
    PageBreak,
    Paragraph,
    Role,
    Rule,
    Strong,
    Table,
    Text,
    WritingSpace,
)
from lessonkit.writers.html_style import BROAD, STYLE
from lessonkit.writers.options import Options
from lessonkit.writers.seal import OPEN_SEAL, sealed
from lessonkit.writers.svg import write_scene
from lessonkit.writers.typography import bind_units

_WIDE: Final = 6
"""Columns from which on a table is scrolled sideways on a narrow screen."""
_BESIDE: Final = 1
"""Columns of a table without lines that stay side by side on a narrow screen; more stand below each other there."""
_LEAD: Final = 0.1
"""The share of the width below which the first of two columns is too narrow for a narrow screen."""
_TOP: Final = 0.2
"""The same for the first of three columns."""
_ACROSS: Final = {False: 504.0, True: 684.0}
"""Points across a sheet between its margins, upright and lying."""
_SHEETS: Final = {"letter": "letter", "a4": "A4"}
_NO_OPTIONS: Final = Options()
_NAME: Final = re.compile(r'((?: id="| aria-labelledby="|url\(#))([\w-]+)')


def write(document: Document, options: Options = _NO_OPTIONS) -> bytes:
    """Return a document as UTF-8 HTML: no script, no file beside it, nothing fetched; no option concerns it."""
    sheet = f"{_SHEETS[document.paper]}{' landscape' if document.landscape else ''}"
    style = f"{STYLE}{BROAD if document.landscape else ''}@page {{ size: {sheet}; margin: 13mm 15mm; }}"
    blocks = document.blocks
    body = "".join(
        _drawing(block, _ACROSS[document.landscape])
        if isinstance(block, Drawing)
        else _block(block, start, new_page=place > 0 and isinstance(blocks[place - 1], PageBreak))
        for (place, block), start in zip(enumerate(blocks), _levels(blocks), strict=True)
    )
    page = (
        f'<!DOCTYPE html>\n<html lang="{escape(document.language)}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(document.title)}</title>\n"
        f'<meta name="description" content="{escape(document.subject)}">\n'
        f'<meta name="author" content="{escape(document.author)}">\n'
        f'<meta name="lessonkit-seal" content="{OPEN_SEAL}">\n'
        f"<style>{style}</style>\n</head>\n"
        f"<body>\n<main>\n{_live_links(_own_names(body))}</main>\n<footer>{_words(document.footer)}</footer>\n</body>\n</html>\n"
    )
    return sealed(page.encode())


def _own_names(body: str) -> str:
    """Give the names inside each drawing a number, so that no two parts of the page share one."""
    numbers = count(1)

    def renamed(found: re.Match[str]) -> str:
        number = next(numbers)
        return _NAME.sub(lambda name: f"{name.group(1)}{name.group(2)}-{number}", found.group())

    return re.sub("<svg.*?</svg>", renamed, body, flags=re.DOTALL)


def _live_links(body: str) -> str:
    """Turn links that lead nowhere in the page into plain words."""
    names = set(re.findall(r' id="([^"]*)"', body))

    def kept(found: re.Match[str]) -> str:
        return found.group() if found.group(1) in names else found.group(2)

    return re.sub(r'<a href="#([^"]*)">(.*?)</a>', kept, body, flags=re.DOTALL)


def _anchor(name: str) -> str:
    """Return an anchor's name without white space, which no identity in a page may have."""
    return escape("-".join(name.split()))


def _levels(blocks: tuple[Block, ...]) -> tuple[int, ...]:
    """Return for every block the level of a heading that it may open with: one below the heading it stands under."""
    levels = []
    current = 1
    for block in blocks:
        current = block.level if isinstance(block, Heading) else current
        levels.append(min(6, current + 1))
    return tuple(levels)


def _words(words: str) -> str:
    return escape(bind_units(words), quote=False)


def _inlines(content: tuple[Inline, ...]) -> str:
    return "".join(_inline(inline) for inline in content)


def _inline(inline: Inline) -> str:
    match inline:
        case Text(text=words):
            return _words(words)
        case Strong(content=content):
            return f"<strong>{_inlines(content)}</strong>"
        case Emphasis(content=content):
            return f"<em>{_inlines(content)}</em>"
        case CodeText(text=words):
            return f"<code>{escape(words, quote=False)}</code>"
        case Link(content=content, target=target):
            where = f"#{_anchor(target[1:])}" if target.startswith("#") else escape(target)
            return f'<a href="{where}">{_inlines(content)}</a>'
        case LineBreak():
            return "<br>"
        case _:
            assert_never(inline)


def _block(block: Block, level: int, *, new_page: bool = False) -> str:
    match block:
        case Heading():
            return _heading(block, new_page)
        case Paragraph():
            return _paragraph(block, new_page)
        case ListBlock():
            return _list(block, level)
        case Table():
            return _table(block, level)
        case KeyValues(pairs=pairs):
            rows = "".join(f"<div><dt>{_words(name)}</dt><dd>{_inlines(value)}</dd></div>" for name, value in pairs)
            return f'<dl class="facts">{rows}</dl>\n' if pairs else ""
        case CheckBoxes(items=items):
            rows = "".join(f'<li><span class="box" aria-hidden="true"></span>{_inlines(item)}</li>' for item in items)
            return f'<ul class="boxes">{rows}</ul>\n'
        case Drawing():
            return _drawing(block)
        case _:
            return _rest(block, level)


def _rest(block: Note | WritingSpace | Contents | PageBreak | Rule, level: int) -> str:
    match block:
        case Note(title=title, blocks=blocks):
            inside = "".join(_block(inner, level) for inner in blocks)
            return f'<section class="note"><h{level}>{_words(title)}</h{level}>{inside}</section>\n'
        case WritingSpace(title=title, lines=lines):
            room = '<div class="line"></div>' * lines
            return f'<section class="writing"><h{level}>{_words(title)}</h{level}>{room}</section>\n'
        case Contents(rows=rows):
            items = "".join(
                f'<li class="level{depth}"><a href="#{_anchor(anchor)}">{_words(words)}</a></li>'
                for depth, words, anchor, _ in rows
            )
            return f'<nav aria-label="Contents"><ol class="contents">{items}</ol></nav>\n'
        case PageBreak():
            return ""
        case Rule(cut=cut):
            return '<hr class="cut">\n' if cut else "<hr>\n"
        case _:
            assert_never(block)


def _heading(block: Heading, new_page: bool) -> str:
    anchor = f' id="{_anchor(block.anchor)}"' if block.anchor else ""
    names = [*(["poster"] if block.poster else []), *(["large"] if block.large else [])]
    names += [*(["new-page"] if block.new_page or new_page else [])]
    styled = f' class="{" ".join(names)}"' if names else ""
    return f"<h{block.level}{anchor}{styled}>{_inlines(block.content)}</h{block.level}>\n"


def _paragraph(block: Paragraph, new_page: bool) -> str:
    names = [*([] if block.role is Role.BODY else [block.role.value]), *(["new-page"] if new_page else [])]
    styled = f' class="{" ".join(names)}"' if names else ""
    match block.role:
        case Role.CODE:
            return f"<pre{styled}><code>{_inlines(block.content)}</code></pre>\n"
        case Role.QUOTE:
            return f"<blockquote><p>{_inlines(block.content)}</p></blockquote>\n"
        case _:
            return f"<p{styled}>{_inlines(block.content)}</p>\n"


def _list(block: ListBlock, level: int) -> str:
    items = "".join(f"<li>{_contents(item, level)}</li>" for item in block.items)
    if block.start is None:
        return f"<ul>{items}</ul>\n"
    start = "" if block.start == 1 else f' start="{block.start}"'
    return f"<ol{start}>{items}</ol>\n"


def _contents(blocks: tuple[Block, ...], level: int) -> str:
    """Write the blocks of an item or cell; a single plain paragraph needs no tags of its own."""
    if len(blocks) == 1 and isinstance(blocks[0], Paragraph) and blocks[0].role is Role.BODY:
        return _inlines(blocks[0].content)
    return "".join(_block(block, level) for block in blocks)


def _table(block: Table, level: int) -> str:
    block = without_idle_columns(block)
    total = sum(block.shares)
    columns = "".join(f'<col style="width:{share / total:.2%}">' for share in block.shares)
    head = "".join(_row(row, level, heading=True, row_header=False) for row in block.rows[: block.header_rows])
    body = "".join(
        _row(row, level, heading=False, row_header=block.row_header, height=block.row_height)
        for row in block.rows[block.header_rows :]
    )
    top = f"<thead>{head}</thead>" if head else ""
    caption = f'<caption class="unseen">{_words(block.title)}</caption>'
    names = [*(["large"] if block.large else []), *_narrow(block)]
    styled = f' class="{" ".join(names)}"' if names else ""
    table = f"<table{styled}>{caption}<colgroup>{columns}</colgroup>{top}<tbody>{body}</tbody></table>\n"
    if len(block.shares) < _WIDE or _is_pairs(block):
        return f'<div class="beside">{table}</div>\n' if block.plain and len(block.shares) > _BESIDE else table
    return f'<div class="wide" role="group" aria-label="{escape(block.title)}" tabindex="0">{table}</div>\n'


def _narrow(table: Table) -> Iterator[str]:
    """Yield how a telephone shows a table that is too wide for it.

    ``lead``: what leads each row, such as its minutes, stands on top of it, and so does, with ``top``, a code above the
    two columns that it leads; ``pairs``: a label and its room to write stand on a line of their own; ``drawn``: what
    stands beside a drawing stands above it, each below its own head.
    """
    columns = len(table.shares)
    if table.row_header and columns == 2 and table.shares[0] < _LEAD * sum(table.shares):
        yield "lead"
    if table.row_header and columns == 3 and table.shares[0] < _TOP * sum(table.shares):
        yield "top"
    if _is_pairs(table):
        yield "pairs"
    if columns == len(table.rows) == 2 and any(_is_drawn(cell) for cell in table.rows[-1]):
        yield "drawn"


def _is_drawn(cell: Cell) -> bool:
    return any(isinstance(block, Drawing) for block in cell.blocks)


def _is_pairs(table: Table) -> bool:
    return table.header_rows == 0 and table.row_height > 0 and len(table.shares) % 2 == 0


def _row(row: tuple[Cell, ...], level: int, *, heading: bool, row_header: bool, height: float = 0.0) -> str:
    cells = []
    for place, cell in enumerate(row):
        content = _contents(cell.blocks, level)
        is_head = bool(content) and (heading or (row_header and place == 0))
        scope = ("col" if heading else "row") if is_head else ""
        tag = "th" if is_head else "td"
        span = f' colspan="{cell.span}"' if cell.span > 1 else ""
        shaded = ' class="shaded"' if cell.shaded else ""
        scoped = f' scope="{scope}"' if scope else ""
        cells.append(f"<{tag}{scoped}{span}{shaded}>{content}</{tag}>")
    tall = f' class="tall" style="height:{height:g}pt"' if height else ""
    return f"<tr{tall}>{''.join(cells)}</tr>"


def _drawing(block: Drawing, across: float = _ACROSS[False]) -> str:
    picture = write_scene(block.scene, block.says, across * block.width).decode()
    picture = picture[picture.index("<svg") :]
    return f'<figure style="width:{block.width:.0%}">{picture}</figure>\n'
