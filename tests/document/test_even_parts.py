"""Columns parted evenly over tables."""

from lessonkit.document.even_parts import even_parts


def test_parts_are_about_equally_long() -> None:
    """24 in two of twelve, 7 of at most six as 4 and 3, and nothing in no part (by hand)."""
    assert [12, 12] == [len(part) for part in even_parts(range(24), 12)]
    assert ((0, 1, 2, 3), (4, 5, 6)) == even_parts(range(7), 6)
    assert () == even_parts((), 6)
