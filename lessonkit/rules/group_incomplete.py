"""The organisation lacks what its form needs: the children on a side for teams, the squad sizes for squads.

Without it nobody can say how many groups a class makes, how much equipment they need and whether they fit the floor.

Fails:

    organisation:
      form: teams
      uneven: {rule: rotate-in, say: One child changes in after every point.}

Passes:

    organisation:
      form: teams
      side: 3
      uneven: {rule: rotate-in, say: One child changes in after every point.}
"""

from collections.abc import Iterator

from lessonkit.records.activity import Activity
from lessonkit.records.record import Record
from lessonkit.rules.as_taught import as_taught
from lessonkit.rules.rule import Context, Fault, Rule
from lessonkit.source.finding import Code, Level

RULE = Rule(Code("LK232", "group-incomplete", Level.ERROR), (Activity,))


def check(record: Record, _context: Context) -> Iterator[Fault]:
    """Yield a fault where teams have no side, or squads no sizes or sizes in the wrong order."""
    assert isinstance(record, Activity)
    for taught in as_taught(record, "organisation"):
        organisation, field = taught.activity.organisation, taught.place("organisation")
        if organisation.form == "teams" and organisation.side is None:
            yield Fault(field, "Teams need side, the number of children on each side.", None, True)
        if organisation.form == "squads" and organisation.squad is None:
            yield Fault(field, "Squads need squad, the least and the most children in one.", None, True)
        if organisation.squad is not None and organisation.squad.least > organisation.squad.most:
            least, most = organisation.squad.least, organisation.squad.most
            says = f"The least children in a squad ({least}) are more than the most ({most})."
            yield Fault((*field, "squad"), says)
