"""Text lost after a # is noticed; comments and kept text are not."""

import pytest

from lessonkit.loading.file import load_text
from tests.loading.cases import base


@pytest.mark.parametrize(
    "line",
    [
        "summary: Tap it. # for grade 3",
        "summary: Tap it. ## for grade 3",
        "summary: Tap it. #",
        'summary: "Use #1 ball."',
        "summary: 'Use #1 ball.'",
        "summary: Tap#1",
        "summary: |\n  Use #1 ball.\n  - and #2 too",
        "summary: >-\n  Use #1 ball.",
        "# see: #1\nsummary: Tap it.",
        'summary: "Tap it." #1 of many',
    ],
)
def test_kept_text_and_comments_are_left_alone(line: str) -> None:
    """What YAML keeps, and a comment set off from its sign or behind quotes, is no lost text."""
    text = base("skill").replace("summary: Striking with a short paddle.", line)

    assert () == load_text(text, "s.yaml").findings


@pytest.mark.parametrize(
    ("line", "place"),
    [
        ("summary: Use #1 ball.", (5, 14)),
        ("summary: Use\t#1 ball.", (5, 14)),
        ("summary: Tap\n  and use #1 ball.", (6, 11)),
        ("summary: Tap #tag", (5, 14)),
    ],
)
def test_lost_text_is_shown_where_it_begins(line: str, place: tuple[int, int]) -> None:
    """The place is the # itself, and the finding reaches to the end of the line."""
    text = base("skill").replace("summary: Striking with a short paddle.", line)
    (found,) = load_text(text, "s.yaml").findings

    assert ("text-cut-off", "advice") == (found.code.name, found.level.value)
    assert place == (found.location.line, found.location.column)
    assert len(line.rsplit("\n", maxsplit=1)[-1]) + 1 == found.location.end_column
