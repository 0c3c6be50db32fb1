"""Word files against the schemas of ISO/IEC 29500 and against an independent auditor."""

from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import etree
from openxml_audit import OpenXmlValidator

from lessonkit.document.model import Document
from lessonkit.document.scene import Scene
from lessonkit.writers.options import Options
from lessonkit.writers.word.writer import write

from ..sample_lesson import binder_document, lesson_document
from .word_parts import parts, schema_faults

DOCUMENTS: dict[str, Callable[[], Document]] = {
    "lesson": lesson_document,
    "lesson-a4": lambda: lesson_document("a4"),
    "lesson-landscape": lambda: lesson_document(landscape=True),
    "binder": binder_document,
}
_PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c489"
    "0000000d4944415478da63f8ffff3f0300080101ff2e9c3a650000000049454e44ae426082"
)


def _dot(scene: Scene, width: float, height: float) -> bytes:
    return _PNG


OPTIONS = {
    "native": Options(),
    "native-with-picture": Options(scene_picture=_dot),
    "picture": Options(drawings="picture", scene_picture=_dot),
}


@pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS)
@pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)
@pytest.mark.parametrize("branch", ["Choice", "Fallback"])
def test_every_part_obeys_the_standard(document: Callable[[], Document], options: Options, branch: str) -> None:
    """The schemas of ISO/IEC 29500-4 find nothing, whichever branch of a drawing a reader takes."""
    written = parts(write(document(), options))

    xml = {name: content for name, content in written.items() if name.endswith((".xml", ".rels"))}
    assert [] == [fault for name, content in xml.items() for fault in schema_faults(name, content, branch)]


def test_the_schema_check_can_fail() -> None:
    """A paragraph property in the wrong order is found, so a clean result means something."""
    content = parts(write(lesson_document()))["word/document.xml"]
    broken = content.replace(b"<w:cantSplit/>", b"<w:bogus/>", 1)

    assert schema_faults("word/document.xml", broken)


@pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS)
@pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS)
def test_an_auditor_finds_nothing(document: Callable[[], Document], options: Options, tmp_path: Path) -> None:
    """openxml-audit 0.8 checks relations, bookmarks, styles and cells across the parts."""
    path = tmp_path / "lesson.docx"
    path.write_bytes(write(document(), options))

    assert [] == [str(error) for error in OpenXmlValidator().validate(path).errors]


def test_core_properties_hold_what_the_document_says() -> None:
    """Title, subject, author, keywords, language and the document's own date, as ISO/IEC 29500-2 names them."""
    core = etree.fromstring(parts(write(lesson_document()))["docProps/core.xml"])

    found = {etree.QName(element).localname: element.text for element in core}
    expected = {
        "title": "Keep it alive: rallies off the wall and over the rope",
        "subject": "Short-handled paddles, grade 3",
        "creator": "Quillfeather School",
        "keywords": "S1.E24.3, paddles",
        "language": "en-US",
        "created": "2026-03-09T00:00:00Z",
        "modified": "2026-03-09T00:00:00Z",
    }
    assert expected == {name: found[name] for name in expected}
