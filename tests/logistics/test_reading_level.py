"""The reading level agrees with a program that nobody here wrote: Debian's style, which prints Kincaid's formula."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from lessonkit.loading.folder import load_folder
from lessonkit.logistics.reading_level import grade, grade_level, sentences_of

CURRICULUM = Path(__file__).parents[2] / "curriculum"


def test_the_formula_is_the_published_one() -> None:
    """Kincaid and others 1975: 100 words in 10 sentences with 130 syllables give 3.9 + 15.34 - 15.59 (by hand)."""
    assert 3.65 == pytest.approx(grade(100, 10, 130))


@pytest.mark.needs_style
@pytest.mark.skipif(shutil.which("style") is None, reason="the program style (package diction) is not installed")
def test_style_agrees_within_a_grade() -> None:
    """On every letter to families and on all sentences for children together, both counts lie within one grade."""
    library = load_folder(CURRICULUM, "curriculum").library
    texts = [unit.letter for unit in library.units.values() if unit.letter]
    texts.append(" ".join(each.i_can for a in library.activities.values() for each in a.look_for))
    for text in texts:
        plain = re.sub(r"[#*{}]", "", text)
        sentences = sentences_of(plain)

        assert abs(_style(" ".join(sentences)) - grade_level(sentences)) <= 1


def _style(text: str) -> float:
    program = shutil.which("style")
    assert program is not None
    said = subprocess.run([program], input=text, capture_output=True, text=True, check=True).stdout
    found = re.search(r"Kincaid: (-?[\d.]+)", said)
    assert found is not None
    return float(found[1])
