"""A part that may or may not need one page more is broken where every program breaks it."""

from lessonkit.document.model import Heading, PageBreak, Paragraph, Table, plain, text
from lessonkit.document.pieces import cell
from lessonkit.writers.word.pagination_pieces import Piece
from lessonkit.writers.word.settled import settled

ROOM = 10_000
"""A page of 500 points, in twentieths of a point."""


def _pieces(blocks: tuple[object, ...]) -> list[Piece]:
    """Give each heading 20 points, and each paragraph and each row of a table as many points as its words say."""
    found: list[Piece] = []
    new_page = False
    for block in blocks:
        match block:
            case PageBreak():
                new_page = True
            case Heading():
                found.append(Piece((400,), keep_next=True, new_page=new_page or block.new_page))
                new_page = False
            case Paragraph(content=(words,)):
                found.append(Piece((int(words.text) * 20,), new_page=new_page))  # type: ignore[union-attr]  # a Text
                new_page = False
            case Table():
                heights = [int(plain(one.blocks[0].content)) for (one,) in block.rows]  # type: ignore[union-attr]
                found += [
                    Piece((height * 20,), new_page=new_page and not place) for place, height in enumerate(heights)
                ]
                new_page = False
    return found


def _part(*heights: int) -> tuple[object, ...]:
    blocks: list[object] = [Heading(1, text("Part"), "part", new_page=True)]
    for height in heights:
        blocks += [Heading(2, text("Section"), None), Paragraph(text(str(height)))]
    return tuple(blocks)


def test_a_part_that_clearly_fits_stays_as_it_is() -> None:
    """20 + 20 + 200 + 20 + 200 = 460 points leave 40 of 500, more than the 9 that programs may differ by."""
    part = _part(200, 200)

    assert part == settled(part, _pieces(part), _pieces, ROOM)  # type: ignore[arg-type]  # blocks of two kinds


def test_a_part_that_just_fits_is_broken_before_a_heading() -> None:
    """20 + 20 + 200 + 20 + 235 = 495 points: a program that needs 9 more takes two pages, so two are taken by all."""
    part = _part(200, 235)

    assert (*part[:3], PageBreak(), *part[3:]) == settled(part, _pieces(part), _pieces, ROOM)  # type: ignore[arg-type]


def test_a_part_is_broken_as_late_as_can_be() -> None:
    """20 + 3 x 120 + 20 + 95 = 495 points: only the last section goes over, so that the page before it is filled."""
    part = _part(100, 100, 100, 95)

    assert (*part[:7], PageBreak(), *part[7:]) == settled(part, _pieces(part), _pieces, ROOM)  # type: ignore[arg-type]


def test_only_the_part_in_doubt_is_broken() -> None:
    """A part before and one after keep their blocks."""
    clear, doubtful = _part(200, 200), _part(200, 235)

    assert (*clear, *doubtful[:3], PageBreak(), *doubtful[3:], *clear) == settled(
        (*clear, *doubtful, *clear),  # type: ignore[arg-type]
        _pieces((*clear, *doubtful, *clear)),
        _pieces,
        ROOM,
    )


def test_a_table_is_parted_where_a_page_would_stay_mostly_empty() -> None:
    """20 + 20 + 20 + 17 x 25 + 10 = 495 points, and 9 more may be needed: three rows go over, under the head of all."""
    head, row = ((cell(Paragraph(text(height))),) for height in ("20", "25"))
    tall = (cell(Paragraph(text("35"))),)
    table = Table((head, *[row] * 16, tall), (1,), "Rows")
    part = (Heading(1, text("Part"), "part", new_page=True), Heading(2, text("Section"), None), table)
    before, page_break, after = settled(part, _pieces(part), _pieces, ROOM)[2:]

    assert PageBreak() == page_break
    assert isinstance(before, Table) and isinstance(after, Table)
    assert (15, 4) == (len(before.rows), len(after.rows))
    assert head == after.rows[0]
