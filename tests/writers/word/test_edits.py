"""Fifty random edits of a lesson, saved by LibreOffice: every one is seen, told in words, and survives an export."""

import copy
import io
import random
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import docx
import pytest
from docx.shared import Pt, RGBColor
from lxml import etree

from lessonkit.commands.exported import Folder
from lessonkit.document.lesson_plan import lesson_document
from lessonkit.writers.standing import Met, Standing
from lessonkit.writers.word.meeting import meet_word
from lessonkit.writers.word.writer import safe_pages, write
from tests.document.printed import facts
from tests.every_document import KINDS, documents

from .word_parts import WPS, A, w

EDITS = 50
SEED = 20260105
Edit = Callable[[docx.document.Document, random.Random], object]


@cache
def lesson() -> bytes:
    """Return a real lesson for eight children with its floor plan as a Word file."""
    return write(lesson_document(facts(children=8), 2, safe_pages))


def _runs(document: docx.document.Document) -> list[etree._Element]:
    """Return the runs outside of drawings whose words are long enough to choose a word from."""
    return [
        run
        for run in document.element.body.iter(w("r"))
        if len("".join(found.text or "" for found in run.findall(w("t"))).split()) > 3
        and next(run.iterancestors(w("txbxContent")), None) is None
    ]


def _text(run: etree._Element) -> etree._Element:
    found = run.find(w("t"))
    assert found is not None
    return found


def _on_words(change: Callable[[list[str], int], object]) -> Edit:
    def edit(document: docx.document.Document, chance: random.Random) -> None:
        text = _text(chance.choice(_runs(document)))
        words = (text.text or "").split(" ")
        change(words, chance.randrange(1, len(words) - 1))
        text.text = " ".join(words)

    return edit


def _on_look(name: str, **values: str) -> Edit:
    def edit(document: docx.document.Document, chance: random.Random) -> None:
        run = chance.choice(_runs(document))
        properties = run.find(w("rPr"))
        if properties is None:
            properties = etree.Element(w("rPr"))
            run.insert(0, properties)
        mark = etree.SubElement(properties, w(name))
        for key, value in values.items():
            mark.set(w(key), value)

    return edit


def _on_paragraph(change: Callable[[etree._Element], object]) -> Edit:
    def edit(document: docx.document.Document, chance: random.Random) -> None:
        run = chance.choice(_runs(document))
        paragraph = next(run.iterancestors(w("p")))
        change(paragraph)

    return edit


def _new_line(paragraph: etree._Element) -> None:
    line = copy.deepcopy(paragraph)
    for mark in [*line.iter(w("bookmarkStart")), *line.iter(w("bookmarkEnd"))]:
        mark.getparent().remove(mark)  # type: ignore[union-attr]
    texts = list(line.iter(w("t")))
    texts[0].text = "A line of my own, sparrows and all."
    for text in texts[1:]:
        text.text = ""
    paragraph.addnext(line)


def _gone(paragraph: etree._Element) -> None:
    parent = paragraph.getparent()
    assert parent is not None
    if len(parent.findall(w("p"))) > 1:
        parent.remove(paragraph)
    else:
        for run in paragraph.findall(w("r")):
            paragraph.remove(run)


def _centred(paragraph: etree._Element) -> None:
    properties = paragraph.find(w("pPr"))
    if properties is None:
        properties = etree.Element(w("pPr"))
        paragraph.insert(0, properties)
    etree.SubElement(properties, w("jc")).set(w("val"), "center")


def _row(out: bool) -> Edit:
    def edit(document: docx.document.Document, chance: random.Random) -> None:
        table = next(found for found in document.tables if found.cell(0, 0).text == "Minutes")
        row = table.rows[chance.randrange(1, len(table.rows))]._tr
        if out:
            row.getparent().remove(row)
        else:
            row.addnext(copy.deepcopy(row))

    return edit


def _shape(document: docx.document.Document, chance: random.Random) -> None:
    shapes = list(document.element.body.iter(f"{{{WPS}}}wsp"))
    place = chance.choice(shapes[3:]).find(f".//{{{A}}}off")
    assert place is not None
    place.set("x", str(int(place.get("x", "0")) + 150_000))


def _label(document: docx.document.Document, chance: random.Random) -> None:
    labels = [text for box in document.element.body.iter(w("txbxContent")) for text in box.iter(w("t"))]
    chance.choice(labels).text = "Owl"


def _heading(document: docx.document.Document, _: random.Random) -> None:
    document.styles["Heading 2"].font.color.rgb = RGBColor(0, 120, 0)  # type: ignore[attr-defined]


def _margin(document: docx.document.Document, chance: random.Random) -> None:
    document.sections[0].left_margin = Pt(chance.randrange(60, 80))


def _footer(document: docx.document.Document, _: random.Random) -> None:
    document.sections[0].footer.paragraphs[0].runs[0].text = "My own footer"


def _column(document: docx.document.Document, chance: random.Random) -> None:
    table = chance.choice([found for found in document.tables if len(found.columns) > 1])
    for cell in (table.rows[0].cells[0], table.rows[-1].cells[0]):
        cell.width = cell.width + Pt(30) if cell.width else Pt(200)
    for row in table.rows:
        row.cells[0].width = table.rows[0].cells[0].width
    table.columns[0].width = table.rows[0].cells[0].width


def _page(document: docx.document.Document, chance: random.Random) -> None:
    chance.choice(document.paragraphs[2:]).paragraph_format.page_break_before = True


def _style(document: docx.document.Document, chance: random.Random) -> None:
    paragraph = next(chance.choice(_runs(document)).iterancestors(w("p")))
    docx.text.paragraph.Paragraph(paragraph, document).style = document.styles["Quote"]  # type: ignore[arg-type]


EDIT_KINDS: dict[str, Edit] = {
    "word replaced": _on_words(lambda words, place: words.__setitem__(place, "sparrow")),
    "word added": _on_words(lambda words, place: words.insert(place, "sparrow")),
    "word removed": _on_words(lambda words, place: words.pop(place)),
    "letter changed": _on_words(lambda words, place: words.__setitem__(place, f"{words[place]}x")),
    "colour": _on_look("color", val="C00000"),
    "underlined": _on_look("u", val="single"),
    "struck": _on_look("strike"),
    "highlight": _on_look("highlight", val="yellow"),
    "size": _on_look("sz", val="31"),
    "line added": _on_paragraph(_new_line),
    "line removed": _on_paragraph(_gone),
    "centred": _on_paragraph(_centred),
    "row removed": _row(True),
    "row added": _row(False),
    "shape moved": _shape,
    "label": _label,
    "heading": _heading,
    "margin": _margin,
    "footer": _footer,
    "column": _column,
    "new page": _page,
    "style": _style,
}


def _edited(number: int) -> tuple[str, bytes]:
    """Return the name and the file of a random edit; the number is its seed."""
    chance = random.Random(SEED + number)
    kind = sorted(EDIT_KINDS)[number % len(EDIT_KINDS)]
    document = docx.Document(io.BytesIO(lesson()))
    EDIT_KINDS[kind](document, chance)
    saved = io.BytesIO()
    document.save(saved)
    return kind, saved.getvalue()


def _saved_by_libreoffice(folder: Path, files: dict[str, bytes]) -> dict[str, bytes]:
    given, taken = folder / "given", folder / "taken"
    given.mkdir()
    for name, content in files.items():
        (given / name).write_bytes(content)
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    form = "docx:MS Word 2007 XML"
    command = ["soffice", profile, "--headless", "--convert-to", form, "--outdir", str(taken)]
    subprocess.run([*command, *(str(given / name) for name in files)], capture_output=True, check=True, timeout=300)
    return {name: (taken / name).read_bytes() for name in files}


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_fifty_edits_saved_by_libreoffice_are_seen_and_kept(tmp_path: Path) -> None:
    """None is taken for a mere saving, each is told in at least one sentence, and the export keeps each file."""
    edits = {f"{number:02} {kind}.docx": content for number in range(EDITS) for kind, content in [_edited(number)]}
    saved = _saved_by_libreoffice(tmp_path, edits)
    met = {name: meet_word(content, lesson()) for name, content in saved.items()}

    assert EDITS == len(saved)
    assert {} == {name: found for name, found in met.items() if found.standing is not Standing.EDITED or not found.says}

    out = tmp_path / "binder"
    out.mkdir()
    folder = Folder(out)
    for name, content in saved.items():
        (out / name).write_bytes(content)
        folder.put(name, lesson())

    assert saved == {name: (out / name).read_bytes() for name in saved}


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
def test_what_libreoffice_only_saves_again_is_no_edit(tmp_path: Path) -> None:
    """Each kind of document, contents too, saved by LibreOffice; a lesson by way of python-docx first."""
    again = io.BytesIO()
    docx.Document(io.BytesIO(lesson())).save(again)
    kinds = [kind for kind in KINDS if kind != "binder"]
    made = {f"{kind}.docx": write(documents(kind)[0]) for kind in kinds}
    saved = _saved_by_libreoffice(tmp_path, {"again.docx": again.getvalue(), **made})
    made["again.docx"] = lesson()

    assert dict.fromkeys(saved, Met(Standing.SAVED_AGAIN)) == {
        name: meet_word(content, made[name]) for name, content in saved.items()
    }


@pytest.mark.parametrize("number", range(len(EDIT_KINDS)))
def test_every_kind_of_edit_is_told_before_anything_saves_it_anew(number: int) -> None:
    """The same edits straight from python-docx: one edit is told in few sentences, none of them empty."""
    kind, content = _edited(number)
    met = meet_word(content, lesson())

    assert Standing.EDITED is met.standing
    assert 1 <= len(met.says) <= 4, kind
    assert all(says.endswith((".", "places)")) for says in met.says)


def test_only_packing_a_file_anew_leaves_it_untouched() -> None:
    """Other zip programs order and compress parts otherwise; the parts are what counts."""
    packed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(lesson())) as old, zipfile.ZipFile(packed, "w") as new:
        for name in reversed(old.namelist()):
            new.writestr(name, old.read(name))

    assert Met(Standing.UNTOUCHED) == meet_word(packed.getvalue(), lesson())
