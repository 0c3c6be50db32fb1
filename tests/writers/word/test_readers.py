"""Independent readers open our Word files and find what was written."""

import io
import re
import shutil
import subprocess
from pathlib import Path

import docx
import mammoth
import pytest
from docx2python import docx2python

from lessonkit.document.model import Document, Paragraph, Text
from lessonkit.writers.word.writer import write

from ..sample_lesson import binder_document, lesson_document


def _flat(words: str) -> str:
    return re.sub(r"\s+", " ", words.replace("\u00a0", " "))


def test_python_docx_reads_titles_tables_and_properties() -> None:
    """python-docx finds the heading, the rows of the minute table, and the core properties."""
    read = docx.Document(io.BytesIO(write(lesson_document())))
    headings = [found.text for found in read.paragraphs if found.style is not None and found.style.name == "Heading 2"]
    flow = next(table for table in read.tables if table.cell(0, 0).text == "Minutes")

    assert "Keep it alive: rallies off the wall and over the rope" == read.core_properties.title
    assert ["What we are learning", "Minute by minute", "Set up", "Change the challenge"] == headings[:4]
    assert ["0\u20134", "4\u20139", "9\u201324", "24\u201331", "31\u201335"] == [
        cell.text for cell in flow.columns[0].cells
    ][1:]


def test_mammoth_reads_the_page_without_a_warning_about_its_content() -> None:
    """Mammoth turns headings and tables into HTML; what it warns of are only styles that it has no rule for."""
    result = mammoth.convert_to_html(io.BytesIO(write(lesson_document())))

    assert "Keep it alive</h1>" in result.value
    assert result.value.count("<table>") > 5
    assert [] == [message for message in result.messages if "Unrecognised" not in message.message]


def test_mammoth_shows_the_description_where_it_cannot_draw() -> None:
    """A reader without native shapes, and without a picture in the file, still tells what the floor looks like."""
    result = mammoth.extract_raw_text(io.BytesIO(write(lesson_document())))

    assert "Half gym, 14 by 12 metres, three places." in _flat(result.value)


def test_docx2python_reads_every_sentence() -> None:
    """docx2python finds the words of tables, lists and notes."""
    with docx2python(io.BytesIO(write(binder_document()))) as read:
        words = _flat(read.text)

    for sentence in (
        "I can push the ball forward with a flat paddle",
        "Paddles move only on a floor spot, two giant steps from the next child.",
        "edge down, never over the head",
        "A note in a cell",
    ):
        assert sentence in words


def test_words_that_look_like_markup_stay_words() -> None:
    """Angle brackets, ampersands and characters that XML forbids reach a reader as words."""
    awkward = 'a < b & c > d "quoted" \x07 bell ]]> &amp; <w:p/>'
    document = Document(awkward, awkward, awkward, awkward, "2026-01-01", (Paragraph((Text(awkward),)),))
    read = docx.Document(io.BytesIO(write(document)))

    assert awkward.replace("\x07", "\ufffd") == read.paragraphs[0].text
    assert awkward.replace("\x07", "\ufffd") == read.core_properties.title


@pytest.mark.needs_pandoc
@pytest.mark.skipif(shutil.which("pandoc") is None, reason="pandoc is not installed")
def test_pandoc_reads_headings_lists_and_links(tmp_path: Path) -> None:
    """Pandoc finds level, nesting, start numbers, stress and both kinds of link."""
    path = tmp_path / "binder.docx"
    path.write_bytes(write(binder_document()))
    command = ["pandoc", "-f", "docx", "-t", "commonmark", "--wrap=none", str(path)]
    read = subprocess.run(command, capture_output=True, text=True, check=True).stdout

    assert "\n# Keep it alive" in read
    assert "\n# For the last page of the binder" in read
    assert "**Never**" in read
    assert re.search(r"7\. +A list may begin at seven", read)
    assert "https://example.org/year?grade=3&unit=paddles" in read


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_libreoffice_prints_the_promised_pages(paper: str, tmp_path: Path) -> None:
    """LibreOffice lays the lesson out on the three pages that it promises, on both papers."""
    path = tmp_path / "lesson.docx"
    document = lesson_document(paper)
    path.write_bytes(write(document))
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path), str(path)]
    subprocess.run(command, capture_output=True, check=True, timeout=120)
    pages = (tmp_path / "lesson.pdf").read_bytes()

    assert document.pages == len(re.findall(rb"/Type\s*/Page\b", pages))
