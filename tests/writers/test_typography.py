"""Spaces that must not break."""

import pytest

from lessonkit.writers.typography import bind_units

_BOUND = {
    "4 m": "4~m",
    "every 5 min.": "every 5~min.",
    "35 minutes": "35~minutes",
    "24 \u00d7 14 m": "24~\u00d7~14~m",
    "60 cm high": "60~cm high",
    "20 %": "20~%",
    "3 groups of 8": "3 groups of 8",
    "5 mats": "5 mats",
    "2 met": "2 met",
    "grade 3 math": "grade~3 math",
    "Lesson 4: Place 3": "Lesson~4: Place~3",
    "replace 3": "replace 3",
    "the places 3 and 4": "the places 3 and 4",
    "m 4": "m 4",
    "4 m and 5 m": "4~m and 5~m",
    "": "",
}


@pytest.mark.parametrize(("words", "expected"), _BOUND.items())
def test_a_number_keeps_its_unit_on_the_line(words: str, expected: str) -> None:
    """SI brochure, 9th edition, 5.4.3: number and unit are kept together by a space; shown here as a tilde."""
    assert expected.replace("~", "\u00a0") == bind_units(words)
