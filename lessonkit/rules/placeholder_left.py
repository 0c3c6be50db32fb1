"""A text still says what the skeleton of `lessonkit new` put there.

A record with such texts can be planned and printed like any other, and then the children's page says *What happens
first*. One finding a record points at the first of them and counts the rest.

Fails:

    summary: What the children do, in one sentence.
    cues: [Short words that help]

Passes:

    summary: Children tap a ball up and count.
    cues: [Soft knees]
"""

from collections.abc import Iterator
from typing import Final

from lessonkit.records.activity import Activity
from lessonkit.records.framework import Framework
from lessonkit.records.record import Record
from lessonkit.records.skill import Skill
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.rules.texts import texts
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath

RULE = Rule(Code("LK260", "placeholder-left", Level.WARNING), (Activity, Skill, Unit, Framework))

PLACEHOLDERS: Final = frozenset(
    (
        "What the children do, in one sentence.",
        "1. What happens first.\n2. What happens then.\n",
        "Short words that help",
        "A fault you may see.",
        "What you say then.",
        "How to make it easier.",
        "How to make it harder.",
        "A change of space.",
        "A change of task.",
        "A change of equipment.",
        "A change of partners or signals.",
        "The usual caution.",
        "What the others do meanwhile.",
        "What to do when there are more children than the space holds.",
        "How you stop everybody, and what they do then.",
        "Something you can see a child do.",
        "I can say it in my own words.",
        "A question for the closing?",
        "The answer to hope for.",
        "What changes for the younger ones.",
        "What the skill is, in a sentence or two.",
        "What a child does who has reached it.",
        "What a child does then.",
        "What the unit is about, in a sentence or two.",
        "What it asks of a child, in your own words.",
    )
)
"""The texts of the skeletons that stand for what an author is to write; a test compares them."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for the first text of a record that is still the skeleton's, with the number of further ones."""
    left = left_in(record)
    if left:
        field, text = left[0]
        further = len(left) - 1
        more = f", and so do {further} further texts" if further > 1 else ", and so does one further text" * further
        says = f"This still says {text!r}, as the skeleton did{more}."
        yield Fault(field, says, "Write your own words in place of it, or take away what you do not need.")


def left_in(record: Record) -> list[tuple[FieldPath, str]]:
    """Return the texts of a record that are still the skeleton's, each with its field and in its first line."""
    if isinstance(record, Activity | Framework) and PLACEHOLDERS.isdisjoint(_likely(record)):
        return []
    found = ((field, text) for field, text, is_name in texts(record) if text in PLACEHOLDERS and not is_name)
    return [(field, _first_line(text)) for field, text in found]


def _likely(record: Activity | Framework) -> Iterator[str | None]:
    """Give the texts that every record of a kind has; where they are not the skeleton's, hardly any other is."""
    if isinstance(record, Framework):
        yield from (outcome.says for outcome in record.outcomes)
        return
    yield record.summary
    yield record.steps
    for part in (record.cues, record.easier, record.harder, record.safety):
        yield from part
    inclusion = record.inclusion
    for part in (inclusion.space, inclusion.task, inclusion.equipment, inclusion.people):
        yield from part
    yield from (each.see for each in record.see_say)


def _first_line(text: str) -> str:
    return text.split("\n", 1)[0].removeprefix("1. ")
