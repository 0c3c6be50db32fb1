"""The formats a document can be written in: one line a writer."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from lessonkit.document.model import Document
from lessonkit.writers import html
from lessonkit.writers.options import Options, SchoolLook
from lessonkit.writers.standing import Met, meet_text
from lessonkit.writers.word import writer as word
from lessonkit.writers.word.meeting import meet_word

Write = Callable[[Document, Options], bytes]
"""A writer: pure, and the same bytes for the same document and options."""
Meet = Callable[[bytes, bytes], Met]
"""Tells how an older file stands, beside the new one that shall take its place."""


class CountPages(Protocol):
    """Returns the number of pages that a document takes in a look, with a little room to spare on each."""

    def __call__(self, document: Document, look: SchoolLook | None = None) -> int:
        """Count the pages."""


@dataclass(frozen=True, slots=True)
class Format:
    """A format: the ending of its files, the media type, its writer, and who counts its pages beforehand.

    A web page prints in the letters of a Word page, which holds as much or a little less.
    """

    suffix: str
    media_type: str
    write: Write
    pages: CountPages | None = None


FORMATS: dict[str, Format] = {
    "word": Format(
        ".docx",
        "application/vnd.openxmlformats-officedocument.wordprocessingml.document",
        word.write,
        word.safe_pages,
    ),
    "html": Format(".html", "text/html", html.write, word.safe_pages),
}
"""Formats by the name that a teacher chooses."""

MEETINGS: dict[str, Meet] = {".docx": meet_word, ".html": meet_text, ".ics": meet_text, ".svg": meet_text}
"""By the ending of a file, who tells whether it was edited since it was exported."""
