"""Lessons and binders of a real plan as Word files: sound, readable by others, and on the pages that they promise."""

import io
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import cycle
from pathlib import Path

import docx
import mammoth
import pytest
from docx2python import docx2python
from openxml_audit import OpenXmlValidator

from lessonkit.document.binder import activities_of, binder_document
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.model import Contents, Document
from lessonkit.writers.options import Options
from lessonkit.writers.word.writer import numbered, safe_pages, write
from tests.document.printed import facts, fixed_plan, flat, library, steps_of, worked_out

from .word_parts import WP, parts, schema_faults, tree, w

_PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d49484452000000010000000108060000001f15c489"
    "0000000d4944415478da63f8ffff3f0300080101ff2e9c3a650000000049454e44ae426082"
)
BLANK = Options(drawings="picture", scene_picture=lambda *_: _PNG)
PROGRAM_LIMIT = 240


@lru_cache(maxsize=8)
def lesson() -> bytes:
    """Return lesson 1 as a Word file."""
    return write(lesson_document(facts(), 1, safe_pages))


@lru_cache(maxsize=8)
def binder() -> bytes:
    """Return the binder as a Word file."""
    return write(binder_document(facts(), safe_pages))


def wanted(found: PlanFacts) -> list[str]:
    """Return every step, cue and outcome code of a plan, as words."""
    words = [target.code for each in found.lessons for target in each.targets]
    for activity in activities_of(found):
        words += [*steps_of(activity), *activity.cues]
    return [flat(each.replace("*", "")) for each in words]


def _python_docx(content: bytes) -> str:
    def words(container: object) -> Iterator[str]:
        for paragraph in container.paragraphs:  # type: ignore[attr-defined]  # a document or a cell
            yield paragraph.text
        for table in container.tables:  # type: ignore[attr-defined]  # a document or a cell
            for row in table.rows:
                for cell in row.cells:
                    yield from words(cell)

    return "\n".join(words(docx.Document(io.BytesIO(content))))


def _mammoth(content: bytes) -> str:
    return str(mammoth.extract_raw_text(io.BytesIO(content)).value)


def _docx2python(content: bytes) -> str:
    with docx2python(io.BytesIO(content)) as read:
        return re.sub(r"</?[a-z][^>]*>", "", str(read.text))


def _pandoc(content: bytes, folder: Path) -> str:
    path = folder / "binder.docx"
    path.write_bytes(content)
    command = ["pandoc", "-f", "docx", "-t", "plain", "--wrap=none", "--columns=9999", str(path)]
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=PROGRAM_LIMIT).stdout


def _libreoffice(content: bytes, folder: Path, form: str) -> Path:
    path = folder / "binder.docx"
    path.write_bytes(content)
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", form, "--outdir", str(folder), str(path)]
    subprocess.run(command, capture_output=True, check=True, timeout=PROGRAM_LIMIT)
    return path.with_suffix("." + form.partition(":")[0])


@pytest.mark.parametrize("content", [lesson, binder], ids=["lesson", "binder"])
def test_every_part_obeys_the_standard(content: Callable[[], bytes]) -> None:
    """The schemas of ISO/IEC 29500-4 find nothing in any part."""
    xml = {name: part for name, part in parts(content()).items() if name.endswith((".xml", ".rels"))}

    assert [] == [fault for name, part in xml.items() for fault in schema_faults(name, part)]


@pytest.mark.parametrize("content", [lesson, binder], ids=["lesson", "binder"])
def test_an_auditor_finds_nothing(content: Callable[[], bytes], tmp_path: Path) -> None:
    """openxml-audit 0.8 checks relations, bookmarks, styles and cells across the parts."""
    path = tmp_path / "file.docx"
    path.write_bytes(content())

    assert [] == [str(error) for error in OpenXmlValidator().validate(path).errors]


@pytest.mark.parametrize("read", [_python_docx, _mammoth, _docx2python])
def test_readers_find_every_step_cue_and_code(read: Callable[[bytes], str]) -> None:
    """Three independent readers see all that a lesson cannot do without."""
    words = flat(read(lesson()))
    found = replace(facts(), lessons=facts().lessons[:1])

    assert [] == [sentence for sentence in wanted(found) if sentence not in words]


@pytest.mark.needs_pandoc
@pytest.mark.skipif(shutil.which("pandoc") is None, reason="pandoc is not installed")
def test_pandoc_finds_every_step_cue_and_code(tmp_path: Path) -> None:
    """Pandoc breaks lines in tables and marks stress, so its words are compared without spaces and underscores."""
    words = _bare(_pandoc(binder(), tmp_path))
    missing = [sentence for sentence in wanted(facts()) if _bare(sentence) not in words]

    assert len(missing) <= len(wanted(facts())) // 3
    assert [] == [s for s in missing if not all(_bare(word) in words for word in s.split())]


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_libreoffice_finds_every_step_cue_and_code(tmp_path: Path) -> None:
    """LibreOffice reads the binder and writes its words as text."""
    path = _libreoffice(write(binder_document(facts(), safe_pages), BLANK), tmp_path, "txt:Text (encoded):UTF8")
    words = flat(path.read_text("utf-8"))

    assert [] == [sentence for sentence in wanted(facts()) if sentence not in words]


def _plans() -> dict[str, Callable[[str], PlanFacts]]:
    plans = {"three lessons": fixed_plan(), **library().plans}
    return {
        name: lambda paper, plan=plan: worked_out(plan, plan.school_class, 25, paper) for name, plan in plans.items()
    }


def _binders() -> list[tuple[str, str]]:
    """Return the fixed plan on both papers, and of each class the longest unit, on either in turn."""
    most: dict[str, str] = {}
    plans = library().plans
    for name in sorted(plans, key=lambda name: (len(plans[name].lessons), name)):
        most[plans[name].school_class] = name
    turns = zip(sorted(most.values()), cycle(("letter", "a4")), strict=False)
    return [("three lessons", "letter"), ("three lessons", "a4"), *turns]


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(
    shutil.which("soffice") is None or shutil.which("pdftotext") is None, reason="LibreOffice or pdftotext is missing"
)
@pytest.mark.parametrize(("name", "paper"), _binders())
def test_contents_agree_with_the_pages_that_libreoffice_lays_out(name: str, paper: str, tmp_path: Path) -> None:
    """Every heading that the contents list stands at the head of its page, and the total is right."""
    document = numbered(binder_document(_plans()[name](paper), safe_pages))
    pdf = _libreoffice(write(document, BLANK), tmp_path, "pdf")
    read = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    sheets = [[flat(line) for line in sheet.splitlines()] for sheet in read.stdout.split("\f")[:-1]]
    rows = next(block for block in document.blocks if isinstance(block, Contents)).rows

    assert document.pages == len(sheets)
    assert [] == [row for row in rows if row[1] not in GROUPS and not _heads(sheets[row[3] - 1], row[1])]


GROUPS = ("The lessons", "The activities")
"""Rows that lead to the first page of a group instead of a heading of their own."""


def _heads(lines: list[str], words: str) -> bool:
    """Tell whether words, or what stands behind ``Lesson 3:``, are a line among the first few of a page."""
    title = flat(words.partition(": ")[2] if words.startswith("Lesson ") else words)
    return any(title.startswith(line) for line in lines[:4] if line)


@pytest.mark.parametrize("children", [1, 8, 36])
@pytest.mark.parametrize("school_class", ["grade-k-wren", "grade-5-crane"])
def test_any_class_fits_the_width_of_the_page(school_class: str, children: int) -> None:
    """From one child to thirty-six, in kindergarten and grade 5, no table and no drawing is wider than the text."""
    found = facts(school_class, children, lengths="feet")
    document: Document = binder_document(found)
    body = tree(write(document)).find(w("body"))
    assert body is not None
    size = body.find(f"{w('sectPr')}/{w('pgSz')}")
    margins = body.find(f"{w('sectPr')}/{w('pgMar')}")
    assert size is not None and margins is not None
    room = int(size.get(w("w"), 0)) - int(margins.get(w("left"), 0)) - int(margins.get(w("right"), 0))
    tables = [int(width.get(w("w"), 0)) for width in body.iter(w("tblW"))]
    drawings = [int(extent.get("cx", 0)) / 635 for extent in body.iter(f"{{{WP}}}extent")]

    assert tables and drawings
    assert max(tables) <= room
    assert max(drawings) <= room


def _bare(words: str) -> str:
    return re.sub(r"[\s_\u00a0|+-]+", "", words)
