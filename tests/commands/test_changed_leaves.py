"""Lines of a letter keep its words in braces, wherever they go on a page."""

from lessonkit.commands.changed_leaves import ChangedLeaves
from lessonkit.writers.word.changes import Change, Place

LETTER = "Dear families of {class},\n\nWe begin on {first day}.\n"
GREETING, START = "Dear families of Grade 3,", "We begin on May 4."
CHANGE = Change(Place(), "", "words")


def test_words_in_braces_go_along_when_a_line_is_parted() -> None:
    """What was filled in stands on a line of its own now, behind its beginning or before its end."""
    behind, before = ChangedLeaves("letter"), ChangedLeaves("letter")
    behind.reword(0, GREETING, "Dear families of", CHANGE)
    behind.add(0, "Grade 3,", CHANGE)
    before.reword(1, START, "in the gym.", CHANGE)
    before.add(0, "We begin on May 4", CHANGE)

    assert "Dear families of\n\n{class},\n\nWe begin on {first day}.\n" == behind.applied(LETTER)
    assert "Dear families of {class},\n\nWe begin on {first day}\n\nin the gym.\n" == before.applied(LETTER)


def test_words_in_braces_go_along_when_lines_change_places() -> None:
    """As where words are dragged past others, or a line is taken out here and put in there."""
    exchanged, moved = ChangedLeaves("letter"), ChangedLeaves("letter")
    exchanged.reword(0, GREETING, START, CHANGE)
    exchanged.reword(1, START, GREETING, CHANGE)
    moved.remove(0, GREETING, CHANGE)
    moved.add(1, GREETING, CHANGE)
    expected = "We begin on {first day}.\n\nDear families of {class},\n"

    assert expected == exchanged.applied(LETTER)
    assert expected == moved.applied(LETTER)


def test_words_that_nothing_was_filled_in_for_stay_as_they_are() -> None:
    """A new line may say what a letter fills in elsewhere."""
    leaves = ChangedLeaves("letter")
    leaves.add(0, "All of Grade 3 plays.", CHANGE)

    assert "Dear families of {class},\n\nAll of Grade 3 plays.\n\nWe begin on {first day}.\n" == leaves.applied(LETTER)
