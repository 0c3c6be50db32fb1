"""Blocks that are measured once and remembered have the size that the whole file's markup gives them."""

from dataclasses import replace
from sys import getrefcount
from xml.etree import ElementTree as Xml

import pytest

from lessonkit.document.model import Document
from lessonkit.writers.options import Options
from lessonkit.writers.word.blocks import body_pieces
from lessonkit.writers.word.content import KEY_MARK
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.pagination_measure import Measure
from lessonkit.writers.word.pagination_pieces import Piece, Reader
from lessonkit.writers.word.setting import setting
from lessonkit.writers.word.writer import numbered
from lessonkit.writers.word.xml import NAMESPACES

from ..sample_lesson import binder_document, lesson_document

DOCUMENTS = {
    "lesson": lesson_document(),
    "lesson on A4": lesson_document("a4"),
    "binder": binder_document(),
}


def read_whole(document: Document) -> list[Piece]:
    """Return the pieces of a document as a reader of XML finds them in its whole body."""
    around = setting(document.paper, document.landscape, document.language)
    ledger = Ledger(
        Options(drawings="picture", scene_picture=lambda *_: b""),
        anchors=frozenset(("equipment", "coverage", "safety")),
        tallest=around.sheet.text_height,
    )
    body = "".join(body_pieces(document.blocks, around.sheet.text_width, ledger))
    root = Xml.fromstring(f"<body {NAMESPACES}>{body}</body>")
    return list(Reader(around.looks).pieces(root, around.sheet.text_width))


def without_names(pieces: list[Piece]) -> list[Piece]:
    """Return pieces without the numbers of their tables and the names on them, which count for themselves."""
    return [replace(piece, table=min(piece.table, 1), names=()) for piece in pieces]


def _anchors(pieces: list[Piece]) -> set[str]:
    """Return the names that links may lead to; those of record fields count their places, and lead nowhere."""
    return {name for piece in pieces for name in piece.names if not name.startswith(KEY_MARK)}


@pytest.mark.parametrize("name", DOCUMENTS)
def test_what_is_remembered_is_what_the_file_says(name: str) -> None:
    """Read by the tree of the body, and block by block from text: the same lines, rows and distances, twice over."""
    document = DOCUMENTS[name]
    around = setting(document.paper, document.landscape, document.language)
    measure = Measure(around.sheet, around.looks)
    expected = read_whole(document)

    for _ in range(2):
        found = measure.pieces(document.blocks)
        assert without_names(expected) == without_names(found)
        assert _anchors(expected) <= _anchors(found)
        assert [piece.table > 0 for piece in expected] == [piece.table > 0 for piece in found]


def test_nothing_holds_on_to_a_document_that_was_counted() -> None:
    """Python's own count of who refers to each block is the same before and after."""
    document = replace(lesson_document(), pages=None)
    before = [getrefcount(block) for block in document.blocks]

    assert numbered(document).pages is not None
    assert before == [getrefcount(block) for block in document.blocks]
