"""Where a block stands: how wide the room is and which style its plain paragraphs take."""

from typing import NamedTuple

BOLD_STYLES = frozenset(
    (
        "Title",
        "Heading1",
        "Heading2",
        "Heading3",
        "Heading4",
        "Heading5",
        "PosterHeading",
        "LetterHeading",
        "Kicker",
        "CellHead",
        "CellLead",
        "CellHeadLarge",
        "CellLeadLarge",
        "Fact",
        "NoteTitle",
    )
)
"""Paragraph styles that are bold already. Word would make a strong run in them light again, so it stays unmarked."""


class Frame(NamedTuple):
    """The room around a block: width in twentieths of a point, style of plain paragraphs, depth in lists."""

    width: int
    body: str = "Normal"
    depth: int = 0

    def item(self, depth: int) -> "Frame":
        """Return the room inside a list item, below its first paragraph."""
        return self._replace(body=f"ListContinue{depth}", depth=depth)
