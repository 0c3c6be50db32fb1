"""The steps put children out of an activity and never say how they come back.

The child who is out first is most often the one who needs the practice most. A way back within a minute keeps the
game and the moving time.

Fails:

    steps: |
      1. Everyone taps a ball up around the hall.
      2. Whoever drops the ball is out and sits on the bench.
      3. The last one standing wins.

Passes:

    steps: |
      1. Everyone taps a ball up around the hall.
      2. Whoever drops the ball is out, does five taps at the wall and comes back in.
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.rules.words_of_out import brought_back, put_out
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK235", "children-put-out", Level.WARNING), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for the first words that put children out, where nothing in the steps brings them back."""
    assert isinstance(record, Activity)
    words = put_out(record.steps)
    if words is not None and not brought_back(record.steps):
        says = f"The steps put children out ({words!r}) and do not say how they come back."
        yield Fault(("steps",), says, "Say what brings a child back in within a minute.", True)
