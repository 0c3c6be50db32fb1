"""A record holds a child's date of birth.

Records are copied, printed and left on benches. They need a class's size and grade, never who the children are; many
places have laws about such data, and the school's own rules come first.

Fails (in a school):

    routines:
      - The child born 2018-04-09 leads the line.

Passes:

    routines:
      - The line leader changes every week.
"""

import re
from collections.abc import Iterator
from typing import Final

import msgspec

from lessonkit.records.activity import Activity
from lessonkit.records.plan import Plan
from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.records.unit import Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.rules.texts import texts
from lessonkit.source.finding import Code, Level
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK291", "birth-date-written", Level.WARNING), (School, Unit, Plan, Activity))
_MONTH: Final = r"(?:jan|feb|mar|apr|may|june?|july?|aug|sep|oct|nov|dec)[a-z]*\.?"
_DATE: Final = (
    r"(?:\d{4}-\d{1,2}-\d{1,2}|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}"
    rf"|{_MONTH}\s+\d{{1,2}}(?:st|nd|rd|th)?,?\s+\d{{4}}|\d{{1,2}}\s+{_MONTH}\s+\d{{4}})"
)
_BIRTH: Final = Pattern(
    rf"\b(?:born|birth\s*-?da(?:te|y)s?|date\s+of\s+birth|d\.?o\.?b\.?)(?!\w)[^\n]{{0,25}}?{_DATE}", re.IGNORECASE
)

_SIGNS: Final = (b"born", b"birth", b"dob")
"""One of these stands in every record with a word for birth, points aside; looking for them is quick."""
_SMALL: Final = bytes(range(256)).lower()
_WHOLE: Final = msgspec.msgpack.Encoder(enc_hook=str)


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every text with a word for birth and a date after it. The school calendar does not count."""
    whole = _WHOLE.encode(record).translate(_SMALL, b".")
    if not any(sign in whole for sign in _SIGNS):
        return
    for field, text, on_key in texts(record):
        if field[0] != "calendar" and _BIRTH.search(text):
            says = "This reads like a child's date of birth; records never need one."
            yield Fault(field, says, "Take it away; a count of children and their grade is enough.", on_key)
