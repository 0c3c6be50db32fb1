"""Steps that stand one behind the other on a page come back into the record, each to its own line."""

import io
from pathlib import Path

import docx
import pytest
from docx.oxml.ns import qn

from lessonkit.cli import main
from lessonkit.commands.run_in_steps import StepChange, is_run_in, step_changes, steps_in
from lessonkit.document.detail import CLOSE
from lessonkit.document.keys import field_key
from lessonkit.document.lesson_flow import Flow
from lessonkit.document.model import Document, Paragraph
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


def _page(*changes: tuple[str, str]) -> None:
    """Write the closely set table of a lesson with words changed."""
    table = Flow(FACTS.lessons[1]).table(0, packing=CLOSE)
    about = Paragraph((), key=field_key("plan", FACTS.plan.id, "lessons", 2))
    page = Document("", "", "", "", "", (about, table), about=field_key("plan", FACTS.plan.id))
    document = docx.Document(io.BytesIO(write(page)))
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
