"""Blocks to the paragraphs and tables of a Word body, one after the other."""

from collections.abc import Iterator
from typing import assert_never

from lessonkit.document.model import (
    Block,
    CheckBoxes,
    Contents,
    Drawing,
    Heading,
    KeyValues,
    ListBlock,
    Note,
    PageBreak,
    Paragraph,
    Rule,
    Table,
    WritingSpace,
)
from lessonkit.writers.word.figure import drawing_xml
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.lists import list_xml
from lessonkit.writers.word.paragraphs import (
    CUT,
    GAP,
    GAP_ON_NEW_PAGE,
    RULE,
    check_boxes_xml,
    contents_xml,
    heading_xml,
    page_twin,
    paragraph_xml,
    style_of,
)
from lessonkit.writers.word.tables import key_values_xml, note_xml, table_xml, writing_space_xml

TABLE_END = "</w:tbl>"
_DRAWN_AS_TABLE = (Table, KeyValues, Note, WritingSpace)


def blocks_xml(blocks: tuple[Block, ...], frame: Frame, ledger: Ledger) -> str:
    """Return the markup of blocks in their order. A page break is carried by the block that follows it."""
    if len(blocks) == 1 and not isinstance(blocks[0], PageBreak):
        return block_xml(blocks[0], frame, ledger, False)
    return "".join(_pieces(blocks, frame, ledger))


def _pieces(blocks: tuple[Block, ...], frame: Frame, ledger: Ledger) -> list[str]:
    pieces = (
        place if isinstance(place, str) else block_xml(place[0], frame, ledger, place[1])
        for place in arranged(blocks, frame)
    )
    return [piece for piece in pieces if piece]


def arranged(blocks: tuple[Block, ...], frame: Frame) -> Iterator[str | tuple[Block, bool]]:
    """Yield blocks with whether they begin a page, and the markup that stands between them."""
    previous: Block | None = None
    new_page = False
    for block in blocks:
        if isinstance(block, PageBreak):
            new_page = True
            continue
        if new_page and not _carries_page_break(block, frame):
            yield GAP_ON_NEW_PAGE
            previous, new_page = None, False
        if previous is not None and _need_gap(previous, block):
            yield GAP
        yield block, new_page
        previous, new_page = block, False


def body_pieces(blocks: tuple[Block, ...], width: int, ledger: Ledger) -> list[str]:
    """Return the markup of a whole body, which ends in a paragraph, block by block.

    Strung together, a long body takes twice the memory for a single letter beyond Latin, and is slow to encode.
    """
    pieces = _pieces(blocks, Frame(width), ledger)
    if not pieces or pieces[-1].endswith(TABLE_END):
        pieces.append(GAP)
    return pieces


def _need_gap(previous: Block, block: Block) -> bool:
    """Tell whether two blocks would touch: Word joins two tables, and a box or a ruled line needs air."""
    if isinstance(block, Note | WritingSpace):
        return not isinstance(previous, Heading)
    if isinstance(block, Heading):
        return isinstance(previous, WritingSpace)
    return isinstance(block, Table | KeyValues) and isinstance(previous, _DRAWN_AS_TABLE)


def _carries_page_break(block: Block, frame: Frame) -> bool:
    if isinstance(block, Heading):
        return block.poster or page_twin(f"Heading{block.level}") is not None
    return isinstance(block, Paragraph) and page_twin(style_of(block, frame)) is not None


def block_xml(block: Block, frame: Frame, ledger: Ledger, new_page: bool) -> str:
    """Return the markup of a block; one that carries a page break begins a page with ``new_page``."""
    match block:
        case Paragraph():
            return paragraph_xml(block, frame, ledger, new_page=new_page)
        case Heading():
            return heading_xml(block, ledger, new_page=new_page)
        case Contents():
            return contents_xml(block, ledger)
        case CheckBoxes():
            return check_boxes_xml(block, ledger)
        case Drawing():
            return drawing_xml(block, frame, ledger)
        case Rule() | PageBreak():
            return CUT if isinstance(block, Rule) and block.cut else RULE
        case _:
            return _nest_xml(block, frame, ledger)


def _nest_xml(block: ListBlock | Table | KeyValues | Note | WritingSpace, frame: Frame, ledger: Ledger) -> str:
    """Return the markup of a block that holds other blocks or is drawn as a table."""

    def inside(blocks: tuple[Block, ...], room: Frame) -> str:
        return blocks_xml(blocks, room, ledger)

    match block:
        case ListBlock():
            return list_xml(block, frame, ledger, inside)
        case Table():
            return table_xml(block, frame, inside)
        case KeyValues():
            return key_values_xml(block, frame, inside)
        case Note():
            return note_xml(block, frame, inside)
        case WritingSpace():
            return writing_space_xml(block, frame)
        case _:
            assert_never(block)
