"""What a school lacks is told where a teacher fetches it."""

from lessonkit.document.lesson_plan import lesson_document
from lessonkit.document.substitute_sheet import substitute_document
from lessonkit.document.too_few import to_fetch
from tests.document.printed import fixed_plan, said, worked_out


def test_what_stands_in_is_told_with_what_is_to_be_fetched() -> None:
    """The school has 28 short-handled paddles and foam-headed ones that stand in, so 40 children lack 12."""
    few, many = (worked_out(fixed_plan(), "grade-3-heron", children, "letter") for children in (25, 40))

    assert "25\u00a0short-handled paddles" == to_fetch(few, few.lessons[0])["short-paddle"]
    assert (
        "40\u00a0short-handled paddles (12 short: use 12 foam-headed paddles)"
        == to_fetch(many, many.lessons[0])["short-paddle"]
    )
    for document in (lesson_document(many, 1), substitute_document(many, 1)):
        assert "(12 short: use 12 foam-headed paddles)" in said(document)
