"""What Word itself changes when it saves is no edit; what an author does by Word's own means is.

Word cannot run here: its traces are written as ISO/IEC 29500-1 describes them (rsid attributes 17.3.1, proofErr
17.13.8, lastRenderedPageBreak 17.3.3.13, ins and del 17.13.5, comments 17.13.4).
"""

import io
import re
from collections.abc import Callable

import docx
import pytest

from lessonkit.document.markdown import read_inline
from lessonkit.document.model import Document, Paragraph, text
from lessonkit.writers.options import Options, SchoolLook
from lessonkit.writers.standing import Met, Standing
from lessonkit.writers.word.alignment import aligned
from lessonkit.writers.word.changes import changes
from lessonkit.writers.word.content import read_content
from lessonkit.writers.word.line import FRAMED_ANEW, Line
from lessonkit.writers.word.meeting import meet_word
from lessonkit.writers.word.opening import unpack
from lessonkit.writers.word.record_of_export import exported_content
from lessonkit.writers.word.writer import write

from ..sample_lesson import lesson_document
from .school_files import letterhead, picture, repacked, saved

LESSON = write(lesson_document())
BODY = "word/document.xml"


def _body(change: Callable[[str], str]) -> bytes:
    """Return the lesson with the text of its body changed."""

    def changed(parts: dict[str, bytes]) -> None:
        before = parts[BODY].decode()
        after = change(before)
        assert before != after
        parts[BODY] = after.encode()

    return repacked(LESSON, changed)


def _sub(pattern: str, new: str, count: int = 0) -> Callable[[str], str]:
    return lambda body: re.sub(pattern, new, body, count=count)


TRACES = {
    "session numbers": _sub("<w:p>", '<w:p w:rsidR="00A1B2C3" w:rsidRDefault="00A1B2C3" w:rsidP="00D4E5F6">'),
    "spelling": _sub("<w:r>", '<w:proofErr w:type="spellStart"/><w:r>', 40),
    "runs parted": lambda body: re.sub(
        r'<w:r>(<w:rPr>(?:(?!</w:rPr>).)*</w:rPr>)?<w:t xml:space="preserve">([^<]{4})([^<]+)</w:t></w:r>',
        r'<w:r>\1<w:t xml:space="preserve">\2</w:t></w:r>'
        r'<w:r w:rsidRPr="00A1B2C3">\1<w:t xml:space="preserve">\3</w:t></w:r>',
        body,
    ),
    "page breaks as laid out": _sub(
        '<w:r><w:t xml:space="preserve">', '<w:r><w:lastRenderedPageBreak/><w:t xml:space="preserve">', 5
    ),
    "language": _sub(r"<w:r><w:t ", '<w:r><w:rPr><w:lang w:val="en-GB"/></w:rPr><w:t ', 9),
    "a bookmark where the author was": _sub(
        "</w:p>", '<w:bookmarkStart w:id="9999" w:name="_GoBack"/><w:bookmarkEnd w:id="9999"/></w:p>', 1
    ),
}


@pytest.mark.parametrize("trace", TRACES)
def test_words_own_traces_are_no_edit(trace: str) -> None:
    """Nothing that Word writes on its own makes a file an edited one."""
    assert Met(Standing.SAVED_AGAIN) == meet_word(_body(TRACES[trace]), LESSON)


def test_a_tracked_change_counts_as_made() -> None:
    """Words struck under revision are gone, words put in are there; the sentence says both."""

    def change(body: str) -> str:
        run = re.search(r'<w:r><w:t xml:space="preserve">([^<]{12,})</w:t></w:r>', body)
        assert run is not None
        mark = 'w:id="900" w:author="A teacher" w:date="2026-01-05T10:00:00Z"'
        gone = f"<w:del {mark}><w:r><w:delText>{run[1]}</w:delText></w:r></w:del>"
        return body.replace(run[0], f"{gone}<w:ins {mark}><w:r><w:t>My own words</w:t></w:r></w:ins>", 1)

    met = meet_word(_body(change), LESSON)

    assert Standing.EDITED is met.standing
    assert any("is now \u201cMy own words\u201d" in says for says in met.says)


def test_a_comment_is_an_edit() -> None:
    """A remark in the margin is worth keeping too; it is told where it stands."""
    kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/comments"
    main = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"

    def add(parts: dict[str, bytes]) -> None:
        rels = "word/_rels/document.xml.rels"
        row = f'<Relationship Id="rIdC" Type="{kind}" Target="comments.xml"/></Relationships>'
        parts[rels] = parts[rels].replace(b"</Relationships>", row.encode())
        mark = b'</w:t></w:r><w:r><w:commentReference w:id="0"/></w:r>'
        parts[BODY] = parts[BODY].replace(b"</w:t></w:r>", mark, 1)
        parts["word/comments.xml"] = (
            f'<w:comments xmlns:w="{main}"><w:comment w:id="0" w:author="A teacher"><w:p><w:r><w:t>Needs more time.'
            "</w:t></w:r></w:p></w:comment></w:comments>"
        ).encode()

    says = meet_word(repacked(LESSON, add), LESSON).says

    assert ("At the beginning: A comment \u201cNeeds more time.\u201d was added.",) == says


_RUN = r'<w:r><w:t xml:space="preserve">([^<]{12,})</w:t></w:r>'
_MATH = "http://schemas.openxmlformats.org/officeDocument/2006/math"
_BOX = (
    '<w:r><w:pict><v:shape xmlns:v="urn:schemas-microsoft-com:vml"><v:textbox><w:txbxContent><w:p><w:r>'
    "<w:t>Sparrow</w:t></w:r></w:p></w:txbxContent></v:textbox></v:shape></w:pict></w:r>"
)
BY_WORDS_OWN_MEANS = {
    "hidden": (_sub(_RUN, r"<w:r><w:rPr><w:vanish/></w:rPr><w:t>\1</w:t></w:r>", 1), "is now hidden."),
    "cell": (_sub("</w:tcPr>", '<w:shd w:val="clear" w:fill="FFFF00"/></w:tcPr>', 1), "has another background."),
    "shape": (
        _sub(r"<a:solidFill><a:schemeClr val=\"\w+\"/>", '<a:solidFill><a:srgbClr val="FE0000"/>', 2),
        "In the drawing 1 shape has another color.",
    ),
    "formula": (
        _sub("</w:r></w:p>", f'</w:r><m:oMath xmlns:m="{_MATH}"><m:r><m:t>a+b</m:t></m:r></m:oMath></w:p>', 1),
        "a+b",
    ),
    "text box": (_sub("</w:r></w:p>", f"</w:r>{_BOX}</w:p>", 1), "A drawing was added."),
    "object": (_sub("</w:r></w:p>", "</w:r><w:r><w:object/></w:r></w:p>", 1), "A picture was added."),
    "line end": (_sub(_RUN, r"<w:r><w:t>Sparrow</w:t><w:cr/><w:t>\1</w:t></w:r>", 1), "Sparrow"),
    "right to left": (
        _sub(_RUN, '<w:dir w:val="rtl"><w:r><w:t>\u0645\u0631\u062d\u0628\u0627</w:t></w:r></w:dir>', 1),
        "\u0645",
    ),
    "gloss": (
        _sub(_RUN, r"<w:r><w:ruby><w:rt/><w:rubyBase><w:r><w:t>Sparrow</w:t></w:r></w:rubyBase></w:ruby></w:r>", 1),
        "Sparrow",
    ),
    "joined": (
        _sub("<w:pPr>(.*?)</w:pPr>", r'<w:pPr>\1<w:rPr><w:del w:id="9" w:author="A teacher"/></w:rPr></w:pPr>', 1),
        "is joined with the next one.",
    ),
    "columns": (_sub("</w:sectPr>", '<w:cols w:num="2"/></w:sectPr>', 1), "another number of columns."),
    "cell in a content control": (
        _sub(
            r"<w:tc>(?:(?!</w:tc>).)*</w:tc></w:tr>",
            r"<w:sdt><w:sdtContent><w:tc><w:p><w:r><w:t>Sparrow</w:t></w:r></w:p></w:tc></w:sdtContent></w:sdt></w:tr>",
            1,
        ),
        "Sparrow",
    ),
}


@pytest.mark.parametrize("name", BY_WORDS_OWN_MEANS)
def test_what_an_author_does_by_words_own_means_is_told(name: str) -> None:
    """ISO/IEC 29500-1: vanish 17.3.2.41, shd 17.4.32, oMath 22.1.2.77, pict 17.3.3.21, object 17.3.3.19, cr 17.3.3.4.

    And dir 17.3.2.8, ruby 17.3.3.25, the deletion of a paragraph's end 17.13.5.15, cols 17.6.4, sdt 17.5.2.
    """
    change, expected = BY_WORDS_OWN_MEANS[name]
    met = meet_word(_body(change), LESSON)

    assert Standing.EDITED is met.standing
    assert any(expected in says for says in met.says)


def test_a_link_that_leads_elsewhere_is_an_edit() -> None:
    """The words stay; the address in the relations is another one."""
    page = write(Document("", "", "", "", "", (Paragraph(read_inline("[Here](https://example.org/a)")),)))
    rels = "word/_rels/document.xml.rels"
    mine = repacked(page, lambda parts: parts.update({rels: parts[rels].replace(b"example.org/a", b"example.org/b")}))

    assert ("At the beginning: \u201cHere\u201d now leads to https://example.org/b.",) == meet_word(mine, page).says


def test_a_picture_in_place_of_another_is_an_edit() -> None:
    """The school's logo in the header is exchanged for a wider one."""
    page = write(lesson_document(), Options(look=SchoolLook(letterhead())))

    def change(parts: dict[str, bytes]) -> None:
        (name,) = [name for name in parts if name.startswith("word/media/")]
        parts[name] = picture(80, 24)

    assert ("Header: A picture is another one now.",) == meet_word(repacked(page, change), page).says
    assert Met(Standing.SAVED_AGAIN) == meet_word(_with_traces(page), page)


def _with_traces(page: bytes) -> bytes:
    return repacked(page, lambda parts: parts.update({BODY: TRACES["session numbers"](parts[BODY].decode()).encode()}))


def test_another_title_of_the_file_is_an_edit() -> None:
    """It stands in the properties and in what the window says."""
    core = "docProps/core.xml"

    def change(parts: dict[str, bytes]) -> None:
        parts[core] = parts[core].replace(b"<dc:title>Keep it", b"<dc:title>Keep them")

    (says,) = meet_word(repacked(LESSON, change), LESSON).says

    assert says.startswith("Properties: \u201cKeep it alive: rallies off ...\u201d is now \u201cKeep them alive:")


def test_a_ticked_box_is_an_edit() -> None:
    """The sign in the box is what changes."""
    met = meet_word(_body(lambda body: body.replace("\u2610", "\u2612", 1)), LESSON)

    assert Standing.EDITED is met.standing


@pytest.mark.parametrize(
    "change",
    [
        lambda parts: parts.pop("customXml/item1.xml"),
        lambda parts: parts.update({"customXml/item1.xml": b'<exported xmlns="urn:lessonkit:exported"/>'}),
        lambda parts: parts.update(
            {"customXml/item1.xml": parts["customXml/item1.xml"].replace(b"<parts>UEs", b"<parts>AAA")}
        ),
    ],
    ids=["gone", "empty", "spoilt"],
)
def test_a_file_that_lost_its_content_is_kept(change: Callable[[dict[str, bytes]], object]) -> None:
    """Where nothing can be compared nothing may be written over."""
    met = meet_word(repacked(LESSON, change), LESSON)

    assert Standing.ANOTHERS is met.standing
    assert not met.may_go


def test_a_file_keeps_all_it_was_written_with() -> None:
    """What it keeps reads as what was written; its keys name record fields."""
    document = Document("", "", "", "", "2026-01-01", (Paragraph(text("A cue"), key="activity/bridge/cues/0"),))
    parts = unpack(write(document))
    exported = exported_content(parts)

    assert exported is not None
    assert read_content(parts) == exported.lines
    assert ["activity/bridge/cues/0"] == list(exported.keys.values())
    assert {line.key for line in exported.lines if line.key} == set(exported.keys)


def test_two_lessons_differ_in_their_own_lines_alone() -> None:
    """A sentence for each difference, none for what is alike."""
    old, new = (
        Document("", "", "", "", "2026-01-01", tuple(Paragraph(text(words)) for words in lines))
        for lines in (("One.", "Two.", "Three."), ("One.", "Two and a half.", "Three.", "Four."))
    )
    found = changes(read_content(unpack(write(old))), read_content(unpack(write(new))))

    assert ["words", "come"] == [change.kind for change in found]


@pytest.mark.parametrize(
    ("old", "new", "pairs"),
    [
        ("abc", "abc", [(0, 0), (1, 1), (2, 2)]),
        ("abc", "axc", [(0, 0), (2, 2)]),
        ("", "abc", []),
        ("aab", "ab", [(0, 0), (2, 1)]),
        ("abcd", "dabc", [(0, 1), (1, 2), (2, 3)]),
    ],
)
def test_lines_are_aligned(old: str, new: str, pairs: list[tuple[int, int]]) -> None:
    """Equal ones in order, the longest run of unique ones first; the stretches between make up the rest."""
    found, blocks = aligned(old, new)

    assert pairs == found
    assert len(old) - len(pairs) == sum(end - start for start, end, _, _ in blocks)
    assert len(new) - len(pairs) == sum(end - start for _, _, start, end in blocks)


def test_each_place_of_a_key_has_a_bookmark_of_its_own() -> None:
    """Word allows 40 letters, and no name twice; a short name with a number may be another key's already."""
    long = "activity/a-title-that-is-far-longer-than-a-bookmark/cues/0"
    keys = ("activity/x/cues/0", long, "activity/x/cues/0", "_2", long, "activity/x/cues/0")
    blocks = tuple(Paragraph(text(str(place)), key=key) for place, key in enumerate(keys))
    exported = exported_content(unpack(write(Document("", "", "", "", "", blocks, about="plan/p"))))

    assert exported is not None
    names = [line.key for line in exported.lines if line.key]

    assert list(keys) == [exported.keys[name] for name in names]
    assert len(names) == len({name.lower() for name in names})
    assert max(map(len, names)) <= 40
    assert "plan/p" == exported.keys["about"]


def test_a_drawing_whose_words_stick_out_may_be_framed_anew() -> None:
    """LibreOffice widens the frame of a group of shapes to hold them all; by how much is no edit, a half more is."""
    shapes = (Line("shape", sizes=(0, 0, 800, 900)), Line("shape", "kept clear", sizes=(200, 800, 1200, 100)))
    old = (Line("drawing", sizes=(900, 900)), *shapes)
    wide, wider = ((Line("drawing", "", FRAMED_ANEW, (width, 890)), *shapes) for width in (1400, 2100))

    assert () == changes(old, wide)
    assert ["A drawing was made larger or smaller."] == [change.says for change in changes(old, wider)]


def test_headers_in_another_order_are_no_edit() -> None:
    """LibreOffice names the header of even pages before that of all others (ISO/IEC 29500-1, 17.10.5: any order)."""
    base = docx.Document(io.BytesIO(letterhead()))
    base.sections[0].different_first_page_header_footer = True
    base.sections[0].first_page_header.paragraphs[0].text = "On the first page"
    page = write(lesson_document(), Options(look=SchoolLook(saved(base))))
    pattern = "(<w:headerReference [^>]*>)(<w:headerReference [^>]*>)"

    def turn(parts: dict[str, bytes]) -> None:
        before = parts[BODY].decode()
        parts[BODY] = re.sub(pattern, r"\2\1", before).encode()
        assert before.encode() != parts[BODY]

    assert Met(Standing.SAVED_AGAIN) == meet_word(repacked(page, turn), page)


def test_words_in_an_empty_place_are_told_without_their_look() -> None:
    """A name written into a list of children looks as the author's program lets it: nothing stood there before."""
    old, new = [Line("p")], [Line("p", "Wren", marks=((4, "bold:1;color:FF0000;size:30"),))]

    assert ["At the beginning: nothing is now \u201cWren\u201d."] == [str(change) for change in changes(old, new)]
    assert 3 == len(changes([Line("p", "Wren", marks=((4, ""),))], new))
