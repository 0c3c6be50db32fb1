"""Some children wait, but nothing says what they do or how long a turn lasts; or more than three wait in a line.

Children out of play with nothing to do stop learning and start quarrelling. Three in a line is the most that common
practice accepts (common practice, no source).

Fails:

    organisation: {form: fours, at_once: 1}

Passes:

    organisation:
      form: fours
      at_once: 2
      waiting: Two children count the hits aloud and change after six.
      turn_seconds: 30
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity, Organisation
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK233", "waiting-unsaid", Level.ERROR), (Activity,))
LONGEST_LINE = 3
"""Children waiting behind one who moves."""
_SIZES = {"individuals": 1, "pairs": 2, "threes": 3, "fours": 4}


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield faults for waiting children without a task or a turn length, and for long lines."""
    assert isinstance(record, Activity)
    organisation = record.organisation
    size = group_size(organisation)
    if organisation.at_once is None or size is None or organisation.at_once >= size:
        return
    if not organisation.waiting:
        yield Fault(("organisation",), "Some children wait, but waiting does not say what they do.", None, True)
    if organisation.turn_seconds is None:
        yield Fault(
            ("organisation",), "Some children wait, but turn_seconds does not say how long a turn is.", None, True
        )
    line = (size - organisation.at_once) / organisation.at_once
    if line > LONGEST_LINE:
        says = f"{size - organisation.at_once} children wait for {organisation.at_once} who move."
        hint = "Make smaller groups, let more move at once, or give the others an activity."
        yield Fault(("organisation", "at_once"), says, hint, level=Level.WARNING)


def group_size(organisation: Organisation) -> int | None:
    """Return the children in a full group, None for the whole class."""
    if organisation.form == "teams":
        return 2 * (organisation.side or 1)
    if organisation.form == "squads":
        return organisation.squad.most if organisation.squad else None
    return _SIZES.get(organisation.form)
