"""Every kind of document that there is: on the pages it promises, sound, and read by five independent readers."""

import argparse
import importlib
import io
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import docx
import mammoth
import pytest
from docx.text.paragraph import Paragraph
from docx2python import docx2python
from openxml_audit import OpenXmlValidator

from lessonkit.cli import COMMANDS
from lessonkit.commands.sheets import sheet_documents
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.writers.options import Options
from lessonkit.writers.word.content import read_content
from lessonkit.writers.word.opening import unpack
from lessonkit.writers.word.writer import safe_pages, write
from tests.document.printed import fixed_plan, worked_out
from tests.every_document import HANDOUTS, KINDS, documents

from .school_files import picture
from .word_parts import parts, schema_faults, w

PAPERS = ("letter", "a4")
PICTURES = Options(drawings="picture", scene_picture=lambda *_: picture())
"""LibreOffice takes minutes for the shapes of a binder; a picture of the same size takes the same room."""


@cache
def written(kind: str) -> tuple[bytes, ...]:
    """Return the Word files of a kind on Letter paper, drawings as shapes with a picture behind them."""
    return tuple(write(document, Options(scene_picture=lambda *_: picture())) for document in documents(kind, "letter"))


@pytest.mark.parametrize("kind", KINDS)
def test_there_is_something_of_every_kind(kind: str) -> None:
    """So that the checks below check something."""
    assert documents(kind, "letter")


def _writes_pages(name: str) -> bool:
    parser = argparse.ArgumentParser()
    importlib.import_module(f"lessonkit.commands.{name}").add_arguments(parser)
    return bool(re.search(r"--(word|draw) |--as \{word", parser.format_help()))


def test_no_command_writes_pages_that_are_not_here() -> None:
    """Whatever has an option for a page or a drawing in Word is ``export``, ``year`` or among the handouts."""
    assert {"export", "year", *(words[0] for words in HANDOUTS.values())} == set(filter(_writes_pages, COMMANDS))


@pytest.mark.parametrize("kind", KINDS)
def test_headings_leave_no_level_out(kind: str) -> None:
    """A heading is at most one level deeper than the one before it (WCAG 2.2, technique G141)."""
    for content in written(kind):
        styles = [paragraph.style.style_id for paragraph in _paragraphs(content)]
        levels = [int(style[-1]) for style in styles if re.fullmatch(r"Heading\d", style)]

        assert [] == [pair for pair in pairwise([1, *levels]) if pair[1] > pair[0] + 1]


def _paragraphs(content: bytes) -> list[Paragraph]:
    document = docx.Document(io.BytesIO(content))
    return [Paragraph(found, document) for found in document.element.body.iter(w("p"))]  # type: ignore[arg-type]


@pytest.mark.parametrize("branch", ["Choice", "Fallback"])
@pytest.mark.parametrize("kind", KINDS)
def test_every_part_obeys_the_standard(kind: str, branch: str) -> None:
    """The schemas of ISO/IEC 29500-4 find nothing in any part, whichever branch of a drawing is taken."""
    assert [] == [
        fault
        for content in written(kind)
        for name, part in parts(content).items()
        if name.endswith((".xml", ".rels"))
        for fault in schema_faults(name, part, branch)
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_an_auditor_finds_nothing(kind: str, tmp_path: Path) -> None:
    """openxml-audit 0.8 checks relations, bookmarks, styles and cells across the parts."""
    for number, content in enumerate(written(kind)):
        path = tmp_path / f"{number}.docx"
        path.write_bytes(content)

        assert [] == [str(error) for error in OpenXmlValidator().validate(path).errors]


def _words(content: bytes) -> set[str]:
    """Return the words of a file's text as our own reader finds them, those in drawings and footers apart."""
    lines = read_content(unpack(content))
    end = next((place for place, line in enumerate(lines) if line.kind == "part"), len(lines))
    return {word for line in lines[:end] if line.kind == "p" for word in re.findall(r"\w{4,}", line.words)}


def _python_docx(content: bytes) -> str:
    def text(container: object) -> Iterator[str]:
        for paragraph in container.paragraphs:  # type: ignore[attr-defined]  # a document or a cell
            yield paragraph.text
        for table in container.tables:  # type: ignore[attr-defined]  # a document or a cell
            for row in table.rows:
                for cell in row.cells:
                    yield from text(cell)

    document = docx.Document(io.BytesIO(content))
    controls = [each.text or "" for each in document.element.body.iter() if each.tag.endswith("}t")]
    return "\n".join((*text(document), *controls))


def _mammoth(content: bytes) -> str:
    return str(mammoth.extract_raw_text(io.BytesIO(content)).value)


def _docx2python(content: bytes) -> str:
    with docx2python(io.BytesIO(content)) as read:
        return re.sub(r"</?[a-z][^>]*>", "", str(read.text))


@pytest.mark.parametrize("read", [_python_docx, _mammoth, _docx2python])
@pytest.mark.parametrize("kind", KINDS)
def test_readers_find_every_word(kind: str, read: Callable[[bytes], str]) -> None:
    """Three independent readers open the file and find each word of it."""
    for content in written(kind):
        words = set(re.findall(r"\w{4,}", read(content)))

        assert set() == _words(content) - words


@pytest.mark.needs_pandoc
@pytest.mark.skipif(shutil.which("pandoc") is None, reason="pandoc is not installed")
@pytest.mark.parametrize("kind", KINDS)
def test_pandoc_finds_every_word(kind: str, tmp_path: Path) -> None:
    """Pandoc reads the file; words that it parts at the end of a table's line are found joined."""
    for number, content in enumerate(written(kind)):
        path = tmp_path / f"{number}.docx"
        path.write_bytes(content)
        command = ["pandoc", "-f", "docx", "-t", "html", "--wrap=none", str(path)]
        read = subprocess.run(command, capture_output=True, text=True, check=True, timeout=120).stdout
        words = set(re.findall(r"\w{4,}", re.sub("<[^>]*>", "", read)))

        assert set() == _words(content) - words


def _pages(folder: Path, files: dict[str, bytes]) -> dict[str, int]:
    """Return the pages that LibreOffice lays each file out on."""
    for name, content in files.items():
        (folder / f"{name}.docx").write_bytes(content)
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", str(folder)]
    subprocess.run([*command, *(str(folder / f"{name}.docx") for name in files)], check=True, timeout=240)
    return {name: len(re.findall(rb"/Type\s*/Page\b", (folder / f"{name}.pdf").read_bytes())) for name in files}


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
@pytest.mark.parametrize("paper", PAPERS)
def test_libreoffice_prints_the_promised_pages(paper: str, tmp_path: Path) -> None:
    """Every kind of document takes as many pages as were counted before any program opened it."""
    made = {
        f"{kind}-{number}": document
        for kind in KINDS
        for number, document in enumerate(documents(kind, paper), start=1)
    }
    laid_out = _pages(tmp_path, {name: write(document, PICTURES) for name, document in made.items()})

    assert {name: document.pages for name, document in made.items()} == laid_out


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
@pytest.mark.parametrize("paper", PAPERS)
def test_lessons_and_substitutes_keep_to_their_sheets(paper: str, tmp_path: Path) -> None:
    """A lesson prints on the two pages of a sheet, a substitute sheet on one, for 8 and 36 children too."""
    plan = fixed_plan()
    made: dict[str, bytes] = {}
    for children in (8, 36):
        facts = worked_out(plan, plan.school_class, children, paper)
        made[f"lesson-{children}"] = write(lesson_document(facts, 1, safe_pages), PICTURES)
        made[f"substitute-{children}"] = write(next(sheet_documents("substitute", facts))[1], PICTURES)

    laid_out = _pages(tmp_path, made)

    assert (2, 2) == (laid_out["lesson-8"], laid_out["lesson-36"])
    assert (1, 1) == (laid_out["substitute-8"], laid_out["substitute-36"])
