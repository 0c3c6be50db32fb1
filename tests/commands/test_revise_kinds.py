"""Changes made in any page whose words stand in a record come back: binder, letter, station cards, substitute sheet."""

import io
import shutil
from itertools import pairwise
from pathlib import Path

import docx
import pytest
from docx.oxml.ns import qn

from lessonkit.cli import main
from lessonkit.commands.spans import refilled
from lessonkit.commands.steps import with_changes
from lessonkit.document.activity_card import CardSize, card_blocks
from lessonkit.document.family_letter import letter_document
from lessonkit.document.keys import field_key
from lessonkit.document.markdown import read_inline
from lessonkit.document.model import Document, plain
from lessonkit.document.station_cards import station_cards
from lessonkit.document.substitute_sheet import substitute_document
from lessonkit.writers.word.writer import safe_pages, write
from tests.document.printed import CASES, ROOT, facts

FACTS = facts()
CARD = next(slot.activity for lesson in FACTS.lessons for slot in lesson.slots if slot.activity.station)
SLOT = FACTS.lessons[1].slots[0]


@pytest.fixture
def school(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Lay the curriculum with the fixed plan into an empty folder, and go there."""
    shutil.copytree(ROOT / "curriculum", tmp_path / "curriculum")
    shutil.copy(CASES / "three-lessons.yaml", tmp_path / "curriculum/plans/three-lessons.yaml")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _page(page: Document | None, *changes: tuple[str, str, int]) -> None:
    """Write a page with words changed, each so many times from the beginning."""
    assert page is not None
    document = docx.Document(io.BytesIO(write(page)))
    for old, new, times in changes:
        found = [text for text in document.element.body.iter(qn("w:t")) if old in (text.text or "")]
        assert len(found) >= times
        for text in found[:times]:
            text.text = text.text.replace(old, new)
    document.save("page.docx")


def _run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    capsys.readouterr()
    code = main(["revise", "page.docx", *words])
    said = capsys.readouterr()
    return code, " ".join((said.out + said.err).split())


def _record(name: str) -> Path:
    return next(Path("curriculum").rglob(f"{name}.yaml"))


def _written(capsys: pytest.CaptureFixture[str], name: str, old: str, new: str) -> None:
    """Check that writing changes in a record the old words into the new ones and nothing else."""
    path = _record(name)
    before = path.read_text("utf-8")

    assert 1 == before.count(old)
    assert 0 == _run(capsys, "--write")[0]
    assert before.replace(old, new) == path.read_text("utf-8")


def _cards() -> Document:
    """Return two pages of a binder that say the same: an activity's card, twice."""
    cards = (*card_blocks(SLOT.activity, FACTS), *card_blocks(SLOT.activity, FACTS))
    return Document("", "", "", "", "", cards, about=field_key("plan", FACTS.plan.id))


def test_each_place_of_a_binder_brings_back_its_changes(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is changed in one place, and what in both; a second time the records have it already."""
    summary, caution = SLOT.activity.summary, SLOT.activity.safety[0]
    _page(_cards(), (summary, "My own summary.", 1), (caution, "Take care.", 2))
    before = _record(SLOT.activity.id).read_text("utf-8")
    after = before.replace(f"summary: {summary}", "summary: My own summary.").replace(f"- {caution}", "- Take care.")

    assert 0 == _run(capsys, "--write")[0]
    assert after == _record(SLOT.activity.id).read_text("utf-8")
    assert (0, "3 changes stand in the records already.") == _run(capsys)


def test_a_page_that_says_one_thing_in_two_ways_is_not_followed(
    school: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The cues of an activity stand in a lesson and on its card; so do its steps."""
    caution, step = SLOT.activity.safety[0], SLOT.activity.steps.split("\n")[0].removeprefix("1. ")
    words = step.partition("*")[0]
    _page(_cards(), (caution, "Take care", 1), (caution, "Take much care", 1), (words, "Go", 1), (words, "Run", 1))
    before = _record(SLOT.activity.id).read_bytes()
    code, said = _run(capsys, "--write")

    assert (0, before) == (code, _record(SLOT.activity.id).read_bytes())
    assert 2 == said.count("this page says it in two ways; make them the same.")
    assert "one line was changed in two ways on this page" in said


def test_a_card_in_running_words_brings_back_its_changes(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A step, and what else stands one behind the other where a card has little room; each in its own field."""
    tight = card_blocks(SLOT.activity, FACTS, CardSize(15, 6, placed=False))
    activity = SLOT.activity
    step = activity.steps.split("\n")[0].removeprefix("1. ").partition("*")[0]
    fields = (
        step,
        activity.stop_signal or "",
        activity.look_for[0].i_can,
        activity.harder[0],
        activity.questions[0].ask,
    )
    firsts = [words.lstrip("*").split(" ")[0] for words in fields]
    starts = [" ".join(words.lstrip("*").split(" ")[:2]) for words in fields]
    changes = [
        (start, start.replace(first, f"Quite{number}", 1), 1)
        for number, (first, start) in enumerate(zip(firsts, starts, strict=True))
    ]
    _page(Document("", "", "", "", "", tight, about=field_key("plan", FACTS.plan.id)), *changes)
    before = _record(activity.id).read_text("utf-8")
    after = before
    for field, (old, new, _) in zip(fields, changes, strict=True):
        assert field in after
        after = after.replace(field, field.replace(old, new, 1), 1)

    assert 0 == _run(capsys, "--write")[0]
    assert after == _record(activity.id).read_text("utf-8")


def test_a_letter_keeps_its_words_in_braces(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The page says the class's name; the record goes on saying ``{class}``."""
    _page(letter_document(FACTS), ("Dear families of", "Dear all of", 1))

    _written(capsys, FACTS.unit.id, "Dear families of {class},", "Dear all of {class},")


def test_a_word_beside_one_in_braces_is_taken_out_once(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What the record says then reads as the old page too, with more filled in."""
    _page(letter_document(FACTS), ("Dear families of", "Dear families", 1))

    _written(capsys, FACTS.unit.id, "Dear families of {class},", "Dear families {class},")
    assert (0, "1 change stands in the records already.") == _run(capsys)


def test_a_heading_of_a_letter_comes_back(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Headings bear keys as paragraphs do."""
    _page(letter_document(FACTS), ("What to wear", "What to put on", 1))

    _written(capsys, FACTS.unit.id, "## What to wear", "## What to put on")


def test_lines_of_a_letter_change_places_with_their_stress(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Two paragraphs are exchanged; their bookmarks stay, as where words are dragged."""
    letter = FACTS.unit.letter or ""
    lines = [line for line in letter.split("\n") if line[:1].isalpha() and "{" not in line]
    one, two = next((one, two) for one, two in pairwise(lines) if "*" in one + two)
    document = docx.Document(io.BytesIO(write(letter_document(FACTS))))  # type: ignore[arg-type]
    first, second = (next(p for p in document.paragraphs if p.text == plain(read_inline(line))) for line in (one, two))
    texts = (second.text, first.text)
    for paragraph, words in zip((first, second), texts, strict=True):
        for run in paragraph.runs[1:]:
            paragraph._p.remove(run._r)
        paragraph.runs[0].text = words
    document.save("page.docx")
    path = _record(FACTS.unit.id)
    before = path.read_text("utf-8")

    assert "letter: moved" in _run(capsys)[1]
    assert 0 == _run(capsys, "--write")[0]
    assert before.replace(one, "@").replace(two, one).replace("@", two) == path.read_text("utf-8")


def test_only_spaces_and_line_ends_are_told(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is passed over without a word."""
    _page(letter_document(FACTS), ("What to wear", "What  to wear", 1))

    assert "only spaces or the ends of lines differ" in _run(capsys)[1]


def test_a_cue_of_a_station_card_comes_back(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its words are bound by spaces that do not break, which the record does not know; each cue is a line here."""
    for number, cue in enumerate(CARD.cues[:2], 1):
        first = cue.split(" ")[0]
        _page(station_cards(FACTS), (f"{first} ", "Quite ", 1))
        said = _run(capsys)[1]

        assert f"cue {number}: \u201c{cue}\u201d becomes \u201c{cue.replace(first, 'Quite', 1)}\u201d." in said


def test_routines_and_minutes_of_a_substitute_sheet_come_back(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Routines stand in the school's record, the minutes in the plan's."""
    routine = FACTS.school.routines[0]
    clock = f"{SLOT.starts}\u2013{SLOT.ends}"
    changes = ((routine, "They come in singing.", 1), (clock, f"{SLOT.starts}\u2013{SLOT.ends + 1}", 1))
    _page(substitute_document(FACTS, FACTS.lessons[1].lesson.lesson), *changes)
    said = _run(capsys)[1]

    assert f"minutes of {SLOT.activity.id!r}: {SLOT.slot.minutes} becomes {SLOT.slot.minutes + 1}." in said
    assert 0 == _run(capsys, "--write")[0]
    assert "- They come in singing.\n" in _record("school").read_text("utf-8")


def test_a_full_substitute_sheet_comes_back_with_its_steps(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Routines one behind the other, what an activity is, and steps, whose words behind three dots stay as they are."""
    summary, routine = SLOT.activity.summary, FACTS.school.routines[1].partition("*")[0]
    step = SLOT.activity.steps.partition("1. ")[2][:20]
    changes = ((summary, "All of us play.", 1), (routine, "One clap means ", 1), (step, "Go on", 1))
    _page(substitute_document(FACTS, FACTS.lessons[1].lesson.lesson, safe_pages), *changes)
    before = _record(SLOT.activity.id).read_text("utf-8")
    said = _run(capsys, "--write")[1]

    assert "becomes \u201cOne clap means " in said
    assert "It is not brought back" not in said
    expected = before.replace(summary, "All of us play.").replace(f"1. {step}", "1. Go on", 1)
    assert expected == _record(SLOT.activity.id).read_text("utf-8")


@pytest.mark.parametrize(
    ("written", "old", "new", "expected"),
    [
        ("Dear {class},", "Dear Grade 3,", "Hello Grade 3,", "Hello {class},"),
        (
            "{lessons} days to {last day}.",
            "8 days to May 4.",
            "8 more days to May 4.",
            "{lessons} more days to {last day}.",
        ),
        ("Dear {class},", "Dear Grade 3,", "Dear Grade 4,", "Dear Grade 4,"),
        ("No braces.", "No braces.", "None.", "None."),
        ("Dear {class},", "Hello Grade 3,", "Hi Grade 3,", None),
    ],
)
def test_words_in_braces_are_put_back(written: str, old: str, new: str, expected: str | None) -> None:
    """What was filled in becomes the word in braces again, unless somebody changed just that."""
    assert expected == refilled(written, old, new)


LETTER = "# Hello\n\nOne.\n\nTwo.\n\n- a\n- b\n\nThree.\n"


@pytest.mark.parametrize(
    ("reworded", "gone", "come", "expected"),
    [
        ({}, (), {1: ["Between."]}, LETTER.replace("One.\n", "One.\n\nBetween.\n")),
        ({}, (), {0: ["First."]}, LETTER.replace("Hello\n", "Hello\n\nFirst.\n")),
        ({}, (), {-1: ["Top."]}, f"Top.\n\n{LETTER}"),
        ({}, (2,), {}, LETTER.replace("Two.\n\n", "")),
        ({}, (1,), {2: ["One."]}, LETTER.replace("One.", "x").replace("Two.", "One.").replace("x", "Two.")),
        ({}, (3,), {4: ["a"]}, LETTER.replace("- a\n- b\n", "- b\n- a\n")),
        ({0: "Hi"}, (), {4: ["c"]}, LETTER.replace("Hello", "Hi").replace("- b\n", "- b\n- c\n")),
    ],
)
def test_paragraphs_of_a_letter_are_parted_by_empty_lines(
    reworded: dict[int, str], gone: tuple[int, ...], come: dict[int, list[str]], expected: str
) -> None:
    """CommonMark 0.31.2, 4.8: only an empty line ends a paragraph."""
    assert expected == with_changes(LETTER, reworded, gone, come)
