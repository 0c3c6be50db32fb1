"""An activity says nothing of how everyone takes part.

A child who uses a wheelchair, sees little or finds noise hard takes a full part only where somebody has thought of it
before the lesson: of space, task, equipment and people. What a child's own plan asks for comes first.

Fails:

    inclusion: {}

Passes:

    inclusion:
      space: [A clear turning circle at the end of the row.]
      task: [Count the taps in all instead of in a row.]
      equipment: [A bright ball.]
      people: [A partner calls at every tap.]
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK256", "inclusion-missing", Level.WARNING), (Activity,))
_KINDS = ("space", "task", "equipment", "people")


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where all four kinds are empty, or advice that names those that are."""
    assert isinstance(record, Activity)
    empty = [name for name in _KINDS if not getattr(record.inclusion, name)]
    if len(empty) == len(_KINDS):
        says = "Inclusion says nothing: no change of space, task, equipment or people."
        yield Fault(("inclusion",), says, "Name at least one change of each, or of those that help here.", True)
    elif empty:
        says = f"Inclusion says nothing of changes to {' or '.join(empty)}."
        yield Fault(("inclusion",), says, None, True, Level.ADVICE)
