"""Words meant for children, or a letter to families, are harder to read than their readers can be expected to read.

Measured with the Flesch-Kincaid grade level (Kincaid and others, 1975), over all of an activity's *I can* sentences and
word meanings together, since one sentence alone says little. Two grades above the oldest class that the activity is for
are allowed, because the formula cannot go lower for everyday words of two syllables; a letter may have grade 8, which
plain-language guides ask of public information (common practice, no source).

Fails:

    look_for:
      - outcome: S1.E24.3a
        criterion: Flat face.
        i_can: I can demonstrate appropriate coordination while manipulating unfamiliar implements.

Passes:

    look_for:
      - {outcome: S1.E24.3a, criterion: Flat face., i_can: I can keep my paddle flat.}
"""

from collections.abc import Iterator
from typing import Final

from lessonkit.logistics.reading_level import grade_level, sentences_of
from lessonkit.records.activity import Activity
from lessonkit.records.measures import GRADES
from lessonkit.records.record import Record
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK259", "hard-to-read", Level.ADVICE), (Activity, Unit))
_ALLOWANCE: Final = 2
_LETTER: Final = 8
_SCHOOL: Final = 12


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for child-facing words above the grades of an activity, and for a letter above grade 8."""
    if isinstance(record, Activity):
        yield from _activity(record)
    elif isinstance(record, Unit) and record.letter:
        level = grade_level(sentences_of(record.letter)) if sentences_of(record.letter) else 0.0
        if level > _LETTER:
            says = f"The letter reads like a text for {_level(level)}; families read up to grade {_LETTER} with ease."
            yield Fault(("letter",), says, "Use shorter sentences and shorter words.", on_key=True)


def _activity(record: Activity) -> Iterator[Fault]:
    sentences = [each.i_can for each in record.look_for] + [f"{each.word} is {each.means}" for each in record.words]
    if not sentences or not any(letter.isalpha() for letter in "".join(sentences)):
        return
    level, last = grade_level(sentences), GRADES.index(record.grades.last)
    if level > last + _ALLOWANCE:
        field = "look_for" if record.look_for else "words"
        says = f"The words for children read like a text for {_level(level)}, and the children are in {_named(last)}."
        yield Fault((field,), says, "Use shorter sentences and shorter words in i_can and words.", on_key=True)


def _named(grade: int) -> str:
    return "kindergarten" if grade == 0 else f"grade {grade} at most"


def _level(level: float) -> str:
    return f"grade {level:.0f}" if level <= _SCHOOL else "grown-ups"
