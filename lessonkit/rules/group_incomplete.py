"""The organisation lacks what its form needs: the children on a side for teams, the squad sizes for squads.

Fails:

    organisation: {form: teams}

Passes:

    organisation: {form: teams, side: 3}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK232", "group-incomplete", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where teams have no side, or squads no sizes or sizes in the wrong order."""
    assert isinstance(record, Activity)
    organisation = record.organisation
    if organisation.form == "teams" and organisation.side is None:
        yield Fault(("organisation",), "Teams need side, the number of children on each side.", None, True)
    if organisation.form == "squads" and organisation.squad is None:
        yield Fault(("organisation",), "Squads need squad, the least and the most children in one.", None, True)
    if organisation.squad is not None and organisation.squad.least > organisation.squad.most:
        says = f"The least children in a squad ({organisation.squad.least}) are more than the most."
        yield Fault(("organisation", "squad"), says)
