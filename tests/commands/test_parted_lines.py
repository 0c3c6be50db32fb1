"""Lines that were only parted or joined on a page, and rows that were moved, change no record."""

import pytest

from lessonkit.commands.parted_lines import JOINED, MOVED, PARTED, regrouped
from lessonkit.writers.word.changes import Item, item_changes, items
from lessonkit.writers.word.line import Line

PAGE = (
    "Bridge. Say: Push \u00b7 Tight belly",
    "1.\u00a0Kneel. 2.\u00a0Roll it.",
    "Stop: The teacher calls ships ahoy.",
)
STEPS = 1
"""Which line of the page holds steps."""


def _items(words: tuple[str, ...]) -> list[Item]:
    """Return paragraphs; a line keeps the key of the old line that it begins as."""
    begun = {line[:3]: f"_lk_{place}" for place, line in enumerate(PAGE)}
    return items([Line("p", line, key=begun.get(line[:3], "")) for line in words])


def _field_of(item: Item) -> str:
    return "steps" if item.line.key == f"_lk_{STEPS}" else ""


@pytest.mark.parametrize(
    ("page", "told", "rest"),
    [
        (("Bridge. Say: Push", "\u00b7 Tight belly", *PAGE[1:]), [PARTED, PARTED], 0),
        (("Bridge.", "Say: Push", "\u00b7 Tight belly", *PAGE[1:]), [PARTED] * 3, 0),
        ((f"{PAGE[0]} {PAGE[1]}", PAGE[2]), [JOINED, JOINED], 0),
        ((PAGE[0], f"{PAGE[1]} {PAGE[2]}"), [JOINED, JOINED], 0),
        # More was changed in the line that grew by another one.
        ((PAGE[0], f"{PAGE[1].replace('Kneel', 'Sit')} {PAGE[2]}"), [JOINED, JOINED], 0),
        # Steps may be parted: there is one more of them then.
        ((PAGE[0], "1.\u00a0Kneel.", "2.\u00a0Roll it.", PAGE[2]), [], 2),
        (("Bridge. Say: Push", "Quite another line", *PAGE[1:]), [], 2),
    ],
)
def test_parted_and_joined_lines_are_told_apart_from_changed_ones(
    page: tuple[str, ...], told: list[str], rest: int
) -> None:
    """All that was made of a line is told with why it stays; other changes go on."""
    before, after = _items(PAGE), _items(page)
    found = regrouped(item_changes(before, after), before, after, _field_of)

    assert told == [why for _, why in found.told]
    assert rest == len(found.rest)


def test_a_row_that_stands_elsewhere_is_neither_taken_out_nor_new() -> None:
    """It is told twice, as gone and as come; a row with other words is not taken for it."""

    def table(*rows: str) -> list[Item]:
        inside = [line for row in rows for line in (Line("row"), Line("cell"), Line("p", row))]
        return items([Line("table"), *inside, Line("end")])

    before, after, other = table("0\u20136", "6\u20139", "Rest"), table("6\u20139", "0\u20136", "Rest"), table("Rest")

    moved = regrouped(item_changes(before, after), before, after, lambda item: "")
    assert ([MOVED, MOVED], []) == ([why for _, why in moved.told], moved.rest)
    assert not regrouped(item_changes(before, other), before, other, lambda item: "").told
