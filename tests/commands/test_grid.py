"""The plain table of the terminal."""

from lessonkit.commands.grid import grid


def test_a_code_is_not_broken_while_a_wider_column_has_room() -> None:
    """A narrow column gets the width of its longest word from the widest one; no line is longer than asked for."""
    rows = [("1", "Long words about an activity, again and again, " * 9, "9, checks S1.E14.4a")]

    lines = grid(("No", "Activities", "Outcomes"), rows, 50, flexible=(1, 2))

    assert any(line.endswith(" S1.E14.4a") for line in lines)
    assert 50 >= max(map(len, lines))


def test_where_no_column_has_room_words_are_broken() -> None:
    """Two columns of words longer than the line share it."""
    lines = grid(("A", "B"), [("a" * 40, "b" * 40)], 30, flexible=(0, 1))

    assert 30 >= max(map(len, lines))
