"""Steps that stand one behind the other on a page come back into the record, each to its own line."""

import io
from pathlib import Path
from typing import Any

import docx
import pytest
from docx.oxml.ns import qn

from lessonkit.cli import main
from lessonkit.commands.changed_leaves import AlreadyThereError
from lessonkit.commands.run_in_steps import (
    Shown,
    StepChange,
    head_and_steps,
    is_run_in,
    parted_alike,
    step_changes,
    steps_in,
    whole,
)
from lessonkit.commands.spans import flat
from lessonkit.document.detail import CLOSE
from lessonkit.document.keys import field_key
from lessonkit.document.lesson_flow import Flow
from lessonkit.document.model import Document, Paragraph
from lessonkit.loading.rewrite import CannotRewriteError
from lessonkit.writers.word.writer import write
from tests.commands.test_revise_kinds import school
from tests.document.printed import facts

__all__ = ["school"]

FACTS = facts()
SLOT = FACTS.lessons[1].slots[0]
STEPS = [line.partition(" ")[2] for line in SLOT.activity.steps.splitlines() if line[:1].isdigit()]
KEY = "activity/x/steps/3 activity/x/steps/4 activity/x/steps/5"
OLD = "4.\u00a0Run to 5. Turn. 5.\u00a0Sit. 6.\u00a0Stand. \u2026"


@pytest.mark.parametrize(
    ("new", "expected"),
    [
        (OLD, []),
        (OLD.replace("Sit", "Lie down"), [StepChange(4, "Sit.", "Lie down.")]),
        (OLD.replace(" 5.\u00a0Sit.", ""), [StepChange(4, "Sit.", None)]),
        # The others were numbered anew by hand.
        ("4.\u00a0Run to 5. Turn. 5.\u00a0Stand. \u2026", [StepChange(4, "Sit.", None)]),
        (OLD.replace(" \u2026", " 7. Jump."), [StepChange(5, None, "Jump.")]),
        (OLD.replace("Sit.", "Sit. 6. Jump. 7. Hop."), [StepChange(4, None, "Jump."), StepChange(4, None, "Hop.")]),
        (f"Go. {OLD}", [StepChange(2, None, "Go.")]),
        (f"{OLD} 7. Jump.", [StepChange(5, None, "Jump.", at_end=True)]),
        (OLD.replace("Sit.", "Sit. 6. Hop."), [StepChange(4, None, "Hop.")]),
        # The number of the first step was taken out with its first word.
        (OLD.replace("4.\u00a0Run to", "Hop to"), [StepChange(3, "Run to 5. Turn.", "Hop to 5. Turn.")]),
        ("", [StepChange(3 + n, words, None) for n, words in enumerate(("Run to 5. Turn.", "Sit.", "Stand."))]),
    ],
)
def test_what_became_of_each_step_is_told(new: str, expected: list[StepChange]) -> None:
    """Words that look like a number inside of a step stay there; three dots are no words of a step."""
    assert is_run_in(KEY, OLD)
    assert expected == list(step_changes(KEY, OLD, new))


def test_other_lines_are_no_steps_run_in() -> None:
    """A step on a line of its own has no number among its words, and other fields are no steps."""
    assert not is_run_in("activity/x/steps/3", "Run to 5. Turn.")
    assert not is_run_in("activity/x/cues/0 activity/x/cues/1", "4.\u00a0Run. 5.\u00a0Turn.")


def test_a_new_line_may_hold_several_steps() -> None:
    """As where a line is broken in two; a number that was typed is none of a step's words."""
    assert ["Sit.", "Stand."] == steps_in("5.\u00a0Sit. 6.\u00a0Stand.", beside_run_in=True)
    assert ["Jump."] == steps_in("7. Jump.", beside_run_in=True)
    assert ["7. Jump."] == steps_in("7. Jump.", beside_run_in=False)


WRITTEN = ["Run to the cone. Turn. Walk back.", "Sit.", "Stand."]
CUT = "Run to the cone. Turn.\u00a0\u2026"


PLAIN = Shown({}, nested=False, arrived=())


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        (StepChange(0, CUT, "Hop to the cone. Turn. \u2026"), "Hop to the cone. Turn. Walk back."),
        (StepChange(0, CUT, "Run to the cone. Turn. Look. \u2026"), "Run to the cone. Turn. Look. Walk back."),
        (StepChange(1, "Sit.", "Lie down."), "Lie down."),
        (StepChange(2, None, "Jump.", at_end=True), "Jump."),
        (StepChange(0, CUT, "Run to the cone. \u2026 Jump."), None),
        (StepChange(0, CUT, "Run to the cone."), None),
        (StepChange(0, CUT, None), None),
        (StepChange(1, "Sit.", "Run to the cone. Turn. \u2026"), WRITTEN[0]),
        (StepChange(0, CUT, "Sit."), "Sit."),
        (StepChange(2, "Stand.", "Stand. \u2026 Walk on."), None),
        (StepChange(0, "Run to the wall.\u00a0\u2026", "Hop to the wall. \u2026"), None),
    ],
)
def test_words_behind_three_dots_stay_in_a_step(change: StepChange, expected: str | None) -> None:
    """None where nobody can tell what becomes of them, or where the record says something else by now."""
    page = Shown({"Run to the cone. Turn. \u2026": 0, "Sit.": 1, "Stand.": 2}, nested=False, arrived=())
    if expected is None:
        with pytest.raises(CannotRewriteError):
            whole(change, page, WRITTEN)
        return

    assert [expected] == [step.new for step in whole(change, page, WRITTEN)]


def test_a_step_behind_the_dots_comes_last() -> None:
    """Three dots behind the last step stand for all that follow."""
    assert 2 == whole(StepChange(0, None, "Jump.", at_end=True), PLAIN, WRITTEN)[0].place


def test_a_cut_step_is_moved_whole() -> None:
    """It goes here and comes there; one that only goes could take words along that the page leaves out."""
    going = StepChange(0, CUT, None)

    assert [StepChange(0, WRITTEN[0], None)] == whole(going, PLAIN._replace(arrived=(flat(CUT),)), WRITTEN)
    with pytest.raises(CannotRewriteError):
        whole(going, PLAIN, WRITTEN)


@pytest.mark.parametrize(
    ("change", "written"),
    [
        (StepChange(0, CUT, "Run to the cone. Turn. Walk back. \u2026"), WRITTEN),
        (StepChange(0, CUT, "Hop to the cone. \u2026"), ["Hop to the cone. Walk back.", *WRITTEN[1:]]),
        # Another step was put in front, too.
        (StepChange(0, CUT, "Hop to the cone. \u2026"), ["Jump.", "Hop to the cone. Walk back.", *WRITTEN[1:]]),
        (StepChange(1, "Sit.", "Run to the cone. Turn. \u2026"), [WRITTEN[1], WRITTEN[0], WRITTEN[2]]),
        (StepChange(0, CUT, None), [WRITTEN[1], WRITTEN[0], WRITTEN[2]]),
    ],
)
def test_what_the_record_has_is_not_written_twice(change: StepChange, written: list[str]) -> None:
    """A page that was brought back may be shown again."""
    page = Shown({flat(CUT): 0, "Sit.": 1}, nested=False, arrived=(flat(CUT),))
    with pytest.raises(AlreadyThereError):
        whole(change, page, written)


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("Choose: A toss. A roll.", "Choose: A toss. A bounce.", [(2, "A roll.", "A bounce.")]),
        ("Choose: A toss.\u00a0\u2026", "Pick: A toss. \u2026", [(0, "Choose:", "Pick:")]),
        ("Choose: A toss. A roll.", "Pick: A bounce. A roll.", [(0, "Choose:", "Pick:"), (1, "A toss.", "A bounce.")]),
        ("Choose: A toss. A roll.", "Choose: A toss.", None),
        ("Choose: A kick.", "Choose: A hit.", None),
    ],
)
def test_a_step_with_a_list_of_its_own_changes_line_by_line(
    old: str, new: str, expected: list[tuple[int, str, str]] | None
) -> None:
    """The page shows its lines one behind the other; a line can be reworded, not taken out."""
    written = ["Choose:", "A toss.", "A roll.", "Stand."]
    page = PLAIN._replace(nested=True)
    if expected is None:
        with pytest.raises(CannotRewriteError):
            whole(StepChange(0, old, new), page, written)
        return

    assert expected == [step[:3] for step in whole(StepChange(0, old, new), page, written)]


def test_steps_with_lists_of_their_own_get_no_new_steps() -> None:
    """Where a list lies in another one a new line would come into the wrong one."""
    with pytest.raises(CannotRewriteError, match="lists of their own"):
        whole(StepChange(0, None, "Jump."), PLAIN._replace(nested=True), WRITTEN)


def test_steps_begin_behind_other_words_of_a_line() -> None:
    """As on a full substitute sheet, where an activity is one paragraph."""
    line = head_and_steps(f"activity/x/title activity/x/summary {KEY}", f"Races. Fun at 4. {OLD}")

    assert line is not None
    assert ("Races. Fun at 4.", OLD, KEY) == (line.head, line.steps, line.steps_key)
    assert ("Races. Joy.", OLD) == parted_alike(line, f"Races. Joy. {OLD}")
    assert (line.head, "") == parted_alike(line, line.head)
    assert ("Races. Fun at 4.", "5.\u00a0Sit.") == parted_alike(line, "Races. Fun at 4. 5.\u00a0Sit.")
    with pytest.raises(CannotRewriteError, match="the number of the first step is gone"):
        parted_alike(line, "Races. Fun at 4. Run to 5. Turn. 5.\u00a0Sit.")
    assert head_and_steps(KEY, OLD) is None
    assert head_and_steps("activity/x/title", "Races.") is None


def _closely_set() -> Any:
    """Return a file with the closely set table of a lesson."""
    table = Flow(FACTS.lessons[1]).table(0, packing=CLOSE)
    about = Paragraph((), key=field_key("plan", FACTS.plan.id, "lessons", 2))
    page = Document("", "", "", "", "", (about, table), about=field_key("plan", FACTS.plan.id))
    return docx.Document(io.BytesIO(write(page)))


def _page(*changes: tuple[str, str]) -> None:
    """Write the closely set table of a lesson with words changed."""
    document = _closely_set()
    texts = list(document.element.body.iter(qn("w:t")))
    for old, new in changes:
        found = [text for text in texts if old in (text.text or "")]
        assert found, old
        found[0].text = found[0].text.replace(old, new)
    document.save("page.docx")


def test_steps_and_cues_of_a_close_page_come_back(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A step is reworded, one is added behind the last, a cue beside the groups is reworded; nothing else changes."""
    path = next(Path("curriculum").rglob(f"{SLOT.activity.id}.yaml"))
    before = path.read_text("utf-8")
    cue, last = SLOT.activity.cues[0], STEPS[-1]
    first = STEPS[0].partition("*")[0].strip()
    _page((first, f"Quietly: {first}"), (last[-12:], f"{last[-12:]} {len(STEPS) + 1}. Sit down."), (cue, "Look up"))
    code = main(["revise", "page.docx", "--write"])
    capsys.readouterr()
    after = before.replace(f"1. {first}", f"1. Quietly: {first}").replace(f"- {cue}\n", "- Look up\n", 1)
    after = after.replace(f"{last}\n", f"{last}\n  {len(STEPS) + 1}. Sit down.\n", 1)

    assert 0 == code
    assert after == path.read_text("utf-8")


def test_nothing_of_a_close_page_goes_without_a_word(school: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A number is no word of a step; a cue behind the others of a line becomes one of its own."""
    cue = SLOT.activity.cues[-1]
    _page(("2.\u00a0", "7.\u00a0"), (cue, f"{cue} \u00b7 Look up"))
    main(["revise", "page.docx"])
    said = capsys.readouterr().out

    assert "only numbers or dots of the page differ, which records do not hold" in said
    assert "a cue is added: \u201cLook up\u201d" in said

    main(["revise", "page.docx", "--write"])
    capsys.readouterr()
    assert 0 == main(["revise", "page.docx"])
    assert "1 change stands in the records already." in "".join(capsys.readouterr())


def test_a_paragraph_of_steps_that_is_taken_out_stays_in_the_record(
    school: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A page shows what fits: somebody made room on it."""
    first = STEPS[0].partition("*")[0].strip()
    document = _closely_set()
    found = [each for each in document.element.body.iter(qn("w:p")) if first in "".join(each.itertext())]
    found[0].getparent().remove(found[0])
    document.save("page.docx")
    code = main(["revise", "page.docx"])

    assert 0 == code
    assert "take it out of the record if nobody shall read it" in capsys.readouterr().out
