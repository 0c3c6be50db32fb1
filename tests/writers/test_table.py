"""The table of formats."""

from lessonkit.writers.options import Options
from lessonkit.writers.table import FORMATS

from .sample_lesson import lesson_document


def test_word_is_among_the_formats() -> None:
    """A Word file is a zip archive (PKWARE's APPNOTE: local headers begin with PK 3 4) with the suffix .docx."""
    word = FORMATS["word"]

    assert ".docx" == word.suffix
    assert word.write(lesson_document(), Options()).startswith(b"PK\x03\x04")


def test_suffixes_are_unique() -> None:
    """No two formats would write over each other's files."""
    suffixes = [found.suffix for found in FORMATS.values()]

    assert len(suffixes) == len(set(suffixes))
