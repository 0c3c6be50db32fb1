"""Changing a value, adding and taking out an item: only what was asked for changes in the text."""

from collections.abc import Callable

import pytest

from lessonkit.loading.rewrite import CannotRewriteError, insert_item, remove_item, set_value, value_at
from lessonkit.source.location import FieldPath

RECORD = """\
# My own remark.
kind: activity   # and another
title: "Send: it over"
summary: 'It''s a game.'
minutes: {least: 5, usual: 7}
parts: [skill, practice]
cues:
  # The first is the one to shout.
  - Soft knees, quiet feet  # shout it
  - Tap to eye height

  - Eyes
    ahead
steps: |
  1. Stand.

  2. Sit.
waiting: >
  Count aloud.
see_say:
  - {see: Eyes on a neighbor, say: Watch the ball.}
last: 1
"""


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize(
    ("field", "value", "old", "new"),
    [
        (("title",), "Send it: under", '"Send: it over"', '"Send it: under"'),
        (("summary",), "It's no game.", "'It''s a game.'", "'It''s no game.'"),
        (("minutes", "usual"), 8, "usual: 7", "usual: 8"),
        (("parts", 0), "game, small", "[skill,", '["game, small",'),
        (("cues", 0), "Soft knees", "Soft knees, quiet feet  #", "Soft knees  #"),
        (("cues", 1), "Tap: low", "Tap to eye height", '"Tap: low"'),
        (("cues", 1), "no", "Tap to eye height", "no"),
        (("cues", 1), "12", "Tap to eye height", '"12"'),
        (("cues", 1), "- dash", "Tap to eye height", '"- dash"'),
        (("cues", 1), 'say "up" # now', "Tap to eye height", '"say \\"up\\" # now"'),
        (("cues", 2), "Eyes up", "Eyes~    ahead", "Eyes up"),
        (("steps",), "1. Stand.\n2. Run.\n", "  1. Stand.~~  2. Sit.~", "  1. Stand.~  2. Run.~"),
        (("waiting",), "Count softly.\n", "  Count aloud.", "  Count softly."),
        (("see_say", 0, "say"), "Watch, now.", "say: Watch the ball.", 'say: "Watch, now."'),
        (("last",), 2, "last: 1", "last: 2"),
    ],
)
def test_a_value_is_set_in_its_own_manner(field: FieldPath, value: str | int, old: str, new: str, ending: str) -> None:
    """Quotes, blocks and remarks stay as their author wrote them; quotes come where YAML 1.2 wants them."""
    text = RECORD.replace("\n", ending)
    changed = set_value(text, "file.yaml", field, value)

    assert text.replace(old.replace("~", ending), new.replace("~", ending)) == changed
    assert value == value_at(changed, "file.yaml", field)


@pytest.mark.parametrize(
    ("field", "place", "old", "new"),
    [
        (("cues",), 0, "  - Soft knees, quiet", "  - Look up\n  - Soft knees, quiet"),
        (("cues",), 1, "  - Tap to", "  - Look up\n  - Tap to"),
        (("cues",), 3, "    ahead\n", "    ahead\n  - Look up\n"),
        (("parts",), 1, "[skill, ", "[skill, Look up, "),
        (("parts",), 2, "practice]", "practice, Look up]"),
    ],
)
def test_an_item_is_added_at_its_place(field: FieldPath, place: int, old: str, new: str) -> None:
    """The new item begins as its neighbour does; remarks above an item stay where they are."""
    assert RECORD.replace(old, new) == insert_item(RECORD, "file.yaml", field, place, "Look up")


@pytest.mark.parametrize(
    ("field", "old", "new"),
    [
        (("cues", 0), "  - Soft knees, quiet feet  # shout it\n", ""),
        (("cues", 2), "  - Eyes\n    ahead\n", ""),
        (("parts", 0), "[skill, practice]", "[practice]"),
        (("parts", 1), "[skill, practice]", "[skill]"),
    ],
)
def test_an_item_is_taken_out_with_its_own_remark(field: FieldPath, old: str, new: str) -> None:
    """Nothing else goes."""
    assert RECORD.replace(old, new) == remove_item(RECORD, "file.yaml", field)


def test_a_file_without_a_last_line_end_takes_an_item() -> None:
    """The item before it gets the line end that it lacked."""
    assert "cues:\n  - One\n  - Two\n" == insert_item("cues:\n  - One", "file.yaml", ("cues",), 1, "Two")


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (lambda: set_value(RECORD, "f", ("none",), "x"), "no such field"),
        (lambda: set_value(RECORD, "f", ("cues",), "x"), "more than one value"),
        (lambda: set_value(RECORD, "f", ("title",), "a\nb"), "several lines"),
        (lambda: set_value(RECORD, "f", ("waiting",), "a\nb\n"), "folded"),
        (lambda: remove_item(RECORD, "f", ("see_say", 0)), "its only item"),
        (lambda: remove_item(RECORD, "f", ("title",)), "its only item"),
        (lambda: insert_item(RECORD, "f", ("title",), 0, "x"), "empty or missing"),
        (lambda: insert_item("a:\n  - - x\n    - y\n", "f", ("a", 0), 0, "z"), "unusual way"),
        (lambda: set_value("a: &mark x\nb: *mark\n", "f", ("a",), "y"), "unusual way"),
    ],
)
def test_what_cannot_be_changed_safely_is_refused(change: Callable[[], str], why: str) -> None:
    """The reason is said; nothing is returned."""
    with pytest.raises(CannotRewriteError, match=why):
        change()


@pytest.mark.parametrize(
    ("written", "value", "expected"),
    [
        (
            "a: >\n  One two three\n  four five\n  six\nb: 1\n",
            "One two three four five seven",
            "a: >\n  One two three\n  four five\n  seven\nb: 1\n",
        ),
        (
            "a: >-\n  One two three\n  four five\n  six\nb: 1\n",
            "One two four five six seven eight\n",
            "a: >-\n  One two four\n  five six\n  seven eight\nb: 1\n",
        ),
        (
            "a: One two three\n  four five\n  six  # why\n",
            "One two three four seven",
            "a: One two three\n  four seven  # why\n",
        ),
        ('a: "One\n  two"\n', "One two: three", 'a: "One two: three"\n'),
    ],
)
def test_a_value_over_several_lines_stays_on_several(written: str, value: str, expected: str) -> None:
    """Lines that stay the same stay where they are, and none is wider than they were (YAML 1.2.2, 6.5 and 8.1.3)."""
    assert expected == set_value(written, "a.yaml", ("a",), value)
