"""A school's own Word file as the base: its look is taken over, ours stays sound, and hostile files are refused."""

import io
import re
import shutil
import subprocess
from functools import cache
from pathlib import Path

import docx
import pytest
from docx.shared import Cm, RGBColor
from lxml import etree
from openxml_audit import OpenXmlValidator

from lessonkit.document.lesson_plan import lesson_document
from lessonkit.writers.options import Options, SchoolLook
from lessonkit.writers.word.base import read_base
from lessonkit.writers.word.meeting import meet_word
from lessonkit.writers.word.opening import UnsafeFileError
from lessonkit.writers.word.school_colors import contrast, read_colors, readable, recolored
from lessonkit.writers.word.writer import numbered, safe_pages, write
from tests.document.printed import facts

from ..sample_lesson import binder_document
from .school_files import hostile, letterhead, picture, saved
from .word_parts import WP, parts, schema_faults, tree, values, w


@cache
def school() -> SchoolLook:
    """Return the letterhead as a look."""
    return SchoolLook(letterhead())


@cache
def page(look: SchoolLook) -> bytes:
    """Return a small binder in a look."""
    return write(binder_document(), Options(look=look))


def _style(content: bytes, identity: str) -> etree._Element:
    styles = tree(content, "word/styles.xml")
    return next(style for style in styles.iter(w("style")) if style.get(w("styleId")) == identity)


def test_headings_look_as_the_schools() -> None:
    """Colour and font of its Heading 1 and 2, whose bold Word's own template gives them; they still keep with next."""
    for identity, color in (("Heading1", "1D6F5C"), ("Heading2", "A03C0A")):
        style = _style(page(school()), identity)

        assert [color] == values(style, "color")
        assert ["Liberation Serif"] == values(style, "rFonts", "ascii")
        assert style.find(f"{w('pPr')}/{w('keepNext')}") is not None
        assert style.find(f"{w('rPr')}/{w('b')}") is not None


def test_words_take_the_schools_font_and_stay_as_small_as_ours() -> None:
    """The theme's font is its Normal's; a lesson would not fit its sheet in eleven points."""
    theme = parts(page(school()))["word/theme/theme1.xml"].decode()

    assert '<a:minorFont><a:latin typeface="Liberation Sans"/>' in theme
    assert '<a:majorFont><a:latin typeface="Liberation Serif"/>' in theme
    assert "18" == values(tree(page(school()), "word/styles.xml").find(w("docDefaults")), "sz")[0]  # type: ignore[arg-type]


def test_header_footer_and_logo_are_taken_over() -> None:
    """An independent reader finds them; the logo is the same picture, bit for bit."""
    read = docx.Document(io.BytesIO(page(school())))
    section = read.sections[0]

    assert " Quillfeather School" == section.header.paragraphs[0].text
    assert "12 Sparrow Lane" == section.footer.paragraphs[0].text
    assert [picture()] == [content for name, content in parts(page(school())).items() if name.endswith(".png")]


def test_the_header_has_room() -> None:
    """The logo of 1.2 cm (680 twentieths of a point) stands above the text, not on it."""
    margins = tree(page(school())).find(f".//{w('pgMar')}")
    assert margins is not None

    assert int(margins.get(w("top"), "0")) >= int(margins.get(w("header"), "0")) + 680


def test_further_styles_of_the_school_are_there_to_use() -> None:
    """A style that ours do not have comes along under its name; one whose name we use gets an addition."""
    names = values(tree(page(school()), "word/styles.xml"), "name")

    assert "Squad list" in names
    assert len(names) == len({name.casefold() for name in names})


def test_the_record_says_which_style_takes_which() -> None:
    """A mapping by name, whatever the capitals; ``ours`` keeps our own."""
    look = SchoolLook(letterhead(), (("Heading 2", "squad LIST"), ("heading 1", "ours")))
    own = write(binder_document())

    assert _style(page(look), "Heading2").find(f"{w('rPr')}/{w('i')}") is not None
    assert values(_style(own, "Heading1"), "sz") == values(_style(page(look), "Heading1"), "sz")


@pytest.mark.parametrize(
    ("styles", "why"),
    [((("heading 2", "Nowhere"),), "has no paragraph style 'Nowhere'; it has"), ((("Splash", "Normal"),), "'splash'")],
)
def test_a_style_that_is_not_there_is_said(styles: tuple[tuple[str, str], ...], why: str) -> None:
    """The sentence names the style."""
    with pytest.raises(UnsafeFileError, match=re.escape(why)):
        read_base(SchoolLook(letterhead(), styles))


@pytest.mark.parametrize("name", hostile())
def test_hostile_and_broken_files_are_refused(name: str) -> None:
    """One sentence, whatever is wrong."""
    content, why = hostile()[name]
    with pytest.raises(UnsafeFileError, match=re.escape(why)) as refused:
        read_base(SchoolLook(content))

    assert "\n" not in str(refused.value)


def _of_pandoc(_: Path) -> bytes:
    command = ["pandoc", "--print-default-data-file", "reference.docx"]
    return subprocess.run(command, capture_output=True, check=True).stdout


def _converted(folder: Path, content: bytes, form: str) -> bytes:
    path = folder / "page.docx"
    path.write_bytes(content)
    out = folder / "out"
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = ["soffice", profile, "--headless", "--convert-to", form, "--outdir", str(out), str(path)]
    subprocess.run(command, capture_output=True, check=True, timeout=120)
    return (out / "page").with_suffix("." + form.partition(":")[0]).read_bytes()


def _of_libreoffice(folder: Path) -> bytes:
    return _converted(folder, letterhead(), "docx:MS Word 2007 XML")


BASES = {
    "python-docx": pytest.param(lambda _: letterhead()),
    "pandoc": pytest.param(
        _of_pandoc,
        marks=[
            pytest.mark.needs_pandoc,
            pytest.mark.skipif(shutil.which("pandoc") is None, reason="pandoc is not installed"),
        ],
    ),
    "LibreOffice": pytest.param(
        _of_libreoffice,
        marks=[
            pytest.mark.needs_libreoffice,
            pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed"),
        ],
    ),
}


@pytest.mark.parametrize("base", BASES.values(), ids=BASES)
def test_files_of_three_programs_give_sound_pages(base, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]  # a call
    """The standard's schemas and openxml-audit find nothing; the same file gives the same bytes and is no edit."""
    look = SchoolLook(base(tmp_path))
    content = page(look)
    xml = {name: part for name, part in parts(content).items() if name.endswith((".xml", ".rels"))}
    path = tmp_path / "made.docx"
    path.write_bytes(content)

    assert [] == [fault for name, part in xml.items() for fault in schema_faults(name, part)]
    assert [] == [str(error) for error in OpenXmlValidator().validate(path).errors]
    assert content == write(binder_document(), Options(look=look))
    assert meet_word(content, content).may_go
    ids = [found.get("id") for part in xml.values() for found in etree.fromstring(part).iter(f"{{{WP}}}docPr")]
    assert len(ids) == len(set(ids))


@pytest.mark.needs_libreoffice
@pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not installed")
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_lesson_in_the_schools_look_prints_no_more_than_promised(paper: str, tmp_path: Path) -> None:
    """LibreOffice lays out no more pages than are promised in another font, and at most one page less."""
    lesson = lesson_document(facts(paper=paper), 2, lambda document: safe_pages(document, school()))
    promised = numbered(lesson, Options(look=school())).pages
    printed = _converted(tmp_path, write(lesson, Options(look=school())), "pdf")
    laid_out = len(re.findall(rb"/Type\s*/Page\b", printed))

    assert promised is not None
    assert laid_out <= promised <= laid_out + 1


@pytest.mark.parametrize("color", ["FFC000", "F79646", "FFFFFF", "5B9BD5", "000000", "00FF00"])
def test_pale_colours_are_darkened_for_words(color: str) -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1 on white; a colour that has it stays."""
    assert contrast(readable(color), "FFFFFF") >= 4.5
    assert readable(readable(color)) == readable(color)


def test_only_words_lose_their_pale_colour() -> None:
    """Lines and grounds keep the theme's colour and its name."""
    colors = {**dict.fromkeys(("dk1", "lt1", "dk2", "lt2", "hlink"), "000000"), "accent2": "FFC000"}
    words = '<w:color w:val="7C5A12" w:themeColor="accent2"/>'
    line = '<w:top w:val="single" w:sz="6" w:space="4" w:color="7C5A12" w:themeColor="accent2"/>'

    assert f'<w:color w:val="{readable("FFC000")}"/>' == recolored(words, colors)
    assert line.replace("7C5A12", "FFC000") == recolored(line, colors)


def test_a_theme_with_dark_grounds_gives_no_dark_page() -> None:
    """Paper is white: letters, grounds and drawings keep a contrast of 4.5 to 1 (WCAG 2.2, 1.4.3) on it."""
    root = "http://schemas.openxmlformats.org/drawingml/2006/main"
    slots = {"dk1": "FFFFFF", "lt1": "101010", "dk2": "EEEEEE", "lt2": "202060"}
    given = "".join(f'<a:{slot}><a:srgbClr val="{color}"/></a:{slot}>' for slot, color in slots.items())
    theme = etree.fromstring(f'<a:theme xmlns:a="{root}"><a:clrScheme>{given}</a:clrScheme></a:theme>')
    colors = read_colors(theme)  # type: ignore[arg-type]  # lxml's elements read as those of the standard library

    assert contrast(colors["dk1"], "FFFFFF") >= 4.5
    assert contrast(colors["dk1"], colors["lt1"]) >= 4.5
    assert contrast(colors["dk1"], colors["lt2"]) >= 4.5


def test_a_pale_heading_of_the_school_is_darkened() -> None:
    """Its own colour, written in its style, not in the theme."""
    document = docx.Document()
    document.styles["Heading 1"].font.color.rgb = RGBColor(255, 230, 0)
    (color,) = values(_style(page(SchoolLook(saved(document))), "Heading1"), "color")

    assert readable("FFE600") == color


def test_a_letterhead_laid_out_in_a_table_is_taken_over() -> None:
    """A logo beside a name, as letterheads have it; one cell says no width."""
    document = docx.Document()
    header = document.sections[0].header
    table = header.add_table(1, 2, Cm(16))
    table.cell(0, 0).paragraphs[0].add_run().add_picture(io.BytesIO(picture()), height=Cm(2))
    table.cell(0, 1).text = "Quillfeather School"
    table.cell(0, 1)._tc.tcPr.remove(table.cell(0, 1)._tc.tcPr.find(w("tcW")))  # type: ignore[union-attr, arg-type]
    look = SchoolLook(saved(document))
    read = docx.Document(io.BytesIO(page(look)))

    assert "Quillfeather School" == read.sections[0].header.tables[0].cell(0, 1).text
    assert safe_pages(binder_document(), look) >= 2
