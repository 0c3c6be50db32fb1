"""A school's record names children.

Access needs are counted, never written beside a name, and a list of children belongs in the school's own system, not in
a file that is copied and printed. The school's own rules on such data come first.

Fails (in a school):

    routines:
      - "Line leaders: Ada Quill, Ben Rook, Cleo Starling."

Passes:

    routines:
      - The line leader changes every week.
"""

import re
from collections.abc import Iterator
from typing import Final

from lessonkit.records.record import Record
from lessonkit.records.school import School
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level
from lessonkit.source.location import FieldPath
from lessonkit.source.pattern import Pattern

RULE = Rule(Code("LK292", "child-named", Level.WARNING), (School,))
_NAME: Final = r"[A-Z][a-z\u00df-\u00ff'\u2019-]+\s+(?:[A-Z][a-z\u00df-\u00ff'\u2019-]+|[A-Z]\.?)(?![\w])"
_LIST: Final = Pattern(rf"{_NAME}(?:\s*(?:[,;/&\n]|\band\b)\s*(?:and\s+)?{_NAME}){{2,}}")
_WHOLE_NAME: Final = Pattern(_NAME)
_NEEDS: Final = Pattern(
    r"\b(?:aids?|allergy|animal|asthma|autism|behaviou?r|blind|brace|cerebral|chair|chronic|crutches|deaf|diabetes"
    r"|disability|disorder|down|ear|emotional|english|epilepsy|fine|frame|gross|health|hearing|help|impairment"
    r"|language|latex|learn(?:er|ing)|low|medical|mobility|motor|needs|noise|nut|one|palsy|partial|physical|plan"
    r"|quiet|seizure|sensory|service|sight|sign|speech|spectrum|support|syndrome|vision|visual|walk(?:er|ing)"
    r"|wheelchair)\b",
    re.IGNORECASE,
)
"""Words that show a capitalised pair to be a need and not a name."""


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for an access need that reads like a name, and for lists of three names or more."""
    assert isinstance(record, School)
    for number, school_class in enumerate(record.classes):
        for need in school_class.access_needs:
            if _is_name(need):
                says = f"The access need {need!r} reads like a child's name."
                hint = "Write the need itself, such as wheelchair or low-vision, and how many children have it."
                yield Fault(("classes", number, "access_needs", need), says, hint, True)
        if _is_list(school_class.title):
            yield _listed(("classes", number, "title"))
    for number, routine in enumerate(record.routines):
        if _is_list(routine):
            yield _listed(("routines", number))


def _is_list(text: str) -> bool:
    """Tell whether a text reads like three names or more, after a quick look for what stands between them."""
    return ("and" in text or any(sign in text for sign in ",;/&\n")) and _LIST.search(text) is not None


def _listed(field: FieldPath) -> Fault:
    says = "This reads like a list of children's names; records never need one."
    return Fault(field, says, "Keep names in the school's own system.")


def _is_name(need: str) -> bool:
    return need[:1].isupper() and _WHOLE_NAME.fullmatch(need) is not None and _NEEDS.search(need) is None
