"""Some children wait, but nothing says what they do or how long a turn lasts.

Children out of play with nothing to do stop learning and start quarrelling. With a turn's length the lesson's moving
time can be worked out.

Fails:

    organisation:
      form: fours
      at_once: 2
      uneven: {rule: larger-group, say: One group of five changes after every turn.}

Passes:

    organisation:
      form: fours
      at_once: 2
      waiting: Two children count the hits aloud and change after six.
      turn_seconds: 30
      uneven: {rule: larger-group, say: One group of five changes after every turn.}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.group_size import group_size, waiting
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK233", "waiting-unsaid", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault for waiting children without a task, and one for turns without a length."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "organisation"):
        organisation = taught.activity.organisation
        if not waiting(organisation):
            continue
        field = (*taught.place("organisation"), "at_once")
        moves = "moves" if organisation.at_once == 1 else "move"
        moving = f"Only {organisation.at_once} of {group_size(organisation)} children {moves} at a time"
        if not organisation.waiting:
            yield Fault(field, f"{moving}, but waiting does not say what the others do.", None, True)
        if organisation.turn_seconds is None:
            yield Fault(field, f"{moving}, but turn_seconds does not say how long a turn lasts.", None, True)
