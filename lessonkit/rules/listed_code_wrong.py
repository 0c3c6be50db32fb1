"""An outcome framework contradicts itself.

A code stands twice, is not written as the framework's own pattern says, belongs to a standard that is not there, or
points to a code that is not there. Every look-up in the framework rests on this list.

Fails (in an outcome framework):

    outcomes:
      - {code: "A:3:1", standard: A, grade: "3", topic: running}
      - {code: "A-3-2", standard: A, grade: "3", topic: jumping}

Passes:

    outcomes:
      - {code: "A:3:1", standard: A, grade: "3", topic: running}
      - {code: "A:3:2", standard: A, grade: "3", topic: jumping}
"""

import re
from collections.abc import Iterator

from lessonkit.outcomes.code_form import matches
from lessonkit.records.framework import Framework, Outcome
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK218", "listed-code-wrong", Level.ERROR), (Framework,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for every contradiction in a framework's rules of spelling and its list of outcomes."""
    assert isinstance(record, Framework)
    rules = list(_rules(record))
    yield from rules
    first: dict[str, int] = {}
    for number, outcome in enumerate(record.outcomes):
        earlier = first.setdefault(outcome.code, number)
        if earlier != number:
            related = ((record, ("outcomes", earlier, "code"), "first listed here"),)
            says = f"The code {outcome.code} is listed already."
            yield Fault(("outcomes", number, "code"), says, None, related=related)
        yield from _outcome(record, number, outcome, readable=not rules)
    for number, variant in enumerate(record.spelling.variants):
        if variant.means not in first:
            says = f"This spelling is said to mean {variant.means}, which is not listed."
            yield Fault(("spelling", "variants", number, "means"), says)


def _rules(record: Framework) -> Iterator[Fault]:
    for name in ("pattern", "repair"):
        rule = getattr(record.spelling, name)
        try:
            re.compile(rule or "")
        except re.error:
            says = f"The {name} is not a regular expression that can be read, so no code can be compared with it."
            yield Fault(("spelling", name), says)


def _outcome(record: Framework, number: int, outcome: Outcome, readable: bool) -> Iterator[Fault]:
    if readable and not matches(record.spelling.pattern, outcome.code):
        says = f"The code {outcome.code} is not written as the framework's own pattern says."
        yield Fault(("outcomes", number, "code"), says)
    if outcome.standard not in record.standards:
        says = f"There is no standard {outcome.standard!r}; standards has {', '.join(sorted(record.standards))}."
        yield Fault(("outcomes", number, "standard"), says)
    if outcome.see is not None and outcome.see not in record.by_code:
        yield Fault(("outcomes", number, "see"), f"There is no outcome {outcome.see} to see.")
