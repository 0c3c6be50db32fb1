"""Every style's words can be read: contrast by the formula of WCAG 2.2, success criterion 1.4.3."""

import re

import pytest
from lxml import etree

from lessonkit.writers.forms import FORMS
from lessonkit.writers.palette import PALETTE
from lessonkit.writers.word.look import LETTERS
from lessonkit.writers.word.writer import write

from ..sample_lesson import lesson_document
from .word_parts import tree, values, w

LEAST = 4.5
"""WCAG 2.2, 1.4.3, level AA, for text of any size."""


def luminance(color: str) -> float:
    """Return the relative luminance of a colour as WCAG 2.2 defines it."""
    channels = [int(color[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    linear = [channel / 12.92 if channel <= 0.04045 else ((channel + 0.055) / 1.055) ** 2.4 for channel in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours, from 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _styles() -> dict[str, etree._Element]:
    return {
        style.get(w("styleId"), ""): style
        for style in tree(write(lesson_document()), "word/styles.xml").iter(w("style"))
    }


def _text_color(style: etree._Element, styles: dict[str, etree._Element]) -> str:
    own = [value for properties in style.findall(w("rPr")) for value in values(properties, "color")]
    if own:
        return own[0]
    parent = values(style, "basedOn")
    return _text_color(styles[parent[0]], styles) if parent else PALETTE["dk1"]


def test_the_formula_gives_the_published_ends_of_its_scale() -> None:
    """WCAG 2.2: black on white is 21 to 1, equal colours are 1 to 1; 767676 is the well-known grey of 4.54 to 1."""
    assert 21 == pytest.approx(contrast("000000", "FFFFFF"))
    assert 1 == contrast("7C5A12", "7C5A12")
    assert 4.54 == round(contrast("767676", "FFFFFF"), 2)


def test_words_of_every_style_stand_out_from_paper_and_tint() -> None:
    """Each paragraph and character style keeps 4.5 to 1 on white and on the tint of notes, shaded cells and code."""
    styles = _styles()
    light = {
        (name, ground): round(contrast(_text_color(style, styles), PALETTE[ground]), 2)
        for name, style in styles.items()
        for ground in ("lt1", "lt2")
        if style.get(w("type")) != "numbering"
    }

    assert len(light) > 80
    assert {} == {pair: ratio for pair, ratio in light.items() if ratio < LEAST}


def test_words_of_table_regions_stand_out() -> None:
    """Header rows and first columns keep 4.5 to 1 on white and on the tint."""
    colors = {
        value
        for style in _styles().values()
        for region in style.findall(w("tblStylePr"))
        for properties in region.findall(w("rPr"))
        for value in values(properties, "color")
    }

    assert colors
    assert [] == [color for color in sorted(colors) if contrast(color, PALETTE["lt2"]) < LEAST]


def test_lines_of_rows_to_write_in_are_kept_by_a_copying_machine() -> None:
    """A page to copy for every child: its lines keep 3 to 1 (WCAG 2.2, 1.4.11), those of other tables may be paler."""
    borders = _styles()["EntryTable"].find(f"{w('tblPr')}/{w('tblBorders')}")
    assert borders is not None
    colors = [side.get(w("color"), "") for side in borders]

    assert len(colors) == 6
    assert all(contrast(color, PALETTE["lt1"]) >= 3 for color in colors)


def test_list_numbers_stand_out() -> None:
    """The numbers and bullets of lists keep 4.5 to 1 too."""
    colors = set(values(tree(write(lesson_document()), "word/numbering.xml"), "color"))

    assert colors
    assert [] == [color for color in sorted(colors) if contrast(color, PALETTE["lt2"]) < LEAST]


def test_letters_in_drawings_stand_out() -> None:
    """Labels keep 4.5 to 1 on white and on a station's tint, letters inside a symbol on the symbol's fill."""
    labelled = [form.ink.fill for form in FORMS.values() if form.inside]
    for name, letters in LETTERS.items():
        (color,) = re.findall('w:color w:val="([0-9A-F]{6})"', letters)
        for ground in labelled if name.startswith("inside") else ("lt1", "lt2"):
            assert ground
            assert contrast(color, PALETTE[ground]) >= LEAST
