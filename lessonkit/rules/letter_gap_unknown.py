"""A letter to families has a word in braces that nothing is put in place of.

It would go home as it stands: *Dear families of {klass}*.

Fails:

    letter: |
      Dear families of {klass}, we begin on {first day}.

Passes:

    letter: |
      Dear families of {class}, we begin on {first day}.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.record import Record
from lessonkit.records.unit import LETTER_WORDS, Unit
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.closest import closest
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK275", "letter-gap-unknown", Level.WARNING), (Unit,))
_IN_BRACES: Final = re.compile(r"\{([^{}\n]{1,40})\}")


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every word in braces that a letter does not know, once each."""
    assert isinstance(record, Unit)
    for word in dict.fromkeys(_IN_BRACES.findall(record.letter or "")):
        if word not in LETTER_WORDS:
            meant = closest(word, LETTER_WORDS)
            known = ", ".join(f"{{{each}}}" for each in LETTER_WORDS)
            hint = f"Did you mean '{{{meant}}}'?" if meant else f"The letter knows {known}."
            yield Fault(("letter",), f"The letter has {{{word}}}, which nothing is put in place of.", hint, True)
