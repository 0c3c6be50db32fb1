"""Rows to write in by hand: as tall as the sheets hold that their table needs in any case."""

from collections.abc import Callable, Sequence

from lessonkit.document.detail import Choice, CountPages, fullest
from lessonkit.document.model import Block, Document, WritingSpace

HEIGHTS = (32.0, 30.0, 28.0, 26.0, 24.0, 22.0, 21.0, 20.0, 19.0, 18.0, 17.0, 16.0, 15.0, 14.0)
"""Least heights of a row in points, tallest first; handwriting wants some 20. No row is lower than its words."""

_MOST_LINES = 14
ROOMS = (*((HEIGHTS[0], lines) for lines in range(_MOST_LINES, 1, -1)), *((height, 0) for height in HEIGHTS))
"""Heights of a row with the ruled lines for notes below the list of a small class, from the roomiest."""


def notes(lines: int) -> tuple[Block, ...]:
    """Return room for notes of so many lines; nothing for none."""
    return (WritingSpace("Notes", lines),) if lines else ()


def filled_up(
    blocks_of: Callable[[Choice], tuple[Block, ...]],
    choices: Sequence[Choice],
    pages: CountPages | None,
    paper: str,
    *,
    landscape: bool = False,
) -> tuple[Block, ...]:
    """Return the blocks of the first choice that takes no page more than the last, which takes the least room.

    Without ``pages`` nothing is tried, and the last is taken.
    """
    if pages is None:
        return blocks_of(choices[-1])

    def count(choice: Choice) -> int:
        return pages(Document("", "", "", "", "", blocks_of(choice), paper=paper, landscape=landscape))

    fewest = count(choices[-1])
    return blocks_of(fullest(choices, lambda choice: count(choice) <= fewest))
