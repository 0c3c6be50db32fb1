"""A closing activity has no question.

A closing shows what the children have learned; without a question it only ends the lesson.

Fails:

    parts: [closing]
    questions: []

Passes:

    parts: [closing]
    questions:
      - {ask: What kept the ball low?, listen_for: A flat face and a small push.}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK253", "question-missing", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for a closing without questions."""
    assert isinstance(record, Activity)
    if "closing" in record.parts and not record.questions:
        yield Fault(("parts",), "This can be a closing, but it has no question to ask.", "Add questions.", True)
